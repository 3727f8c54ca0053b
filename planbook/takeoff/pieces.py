"""The pieces to cut: each part's pieces with their finished and rough size, in the stock that they come from."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from planbook.design import Design, Stock
from planbook.measure import INCH, MILLIMETRE, Direction, Units, round_to
from planbook.measure.dimensionality import LENGTH
from planbook.shape import SIZE_NAMES
from planbook.shape.model import Part
from planbook.source.content import Content
from planbook.source.models.market import Grain, StockKind
from planbook.source.models.part import Method, PartGrain
from planbook.source.text import Text
from planbook.takeoff.ways import CuttingWay

Size = tuple[float, float]
_STEPS = {Units.INCH: INCH / 8, Units.MILLIMETRE: MILLIMETRE}
"""To which rough sizes are rounded up: nobody cuts them finer."""


@dataclass(frozen=True, slots=True)
class Pieces:
    """All pieces of one part. Nanometres; `rough` has the length along the grain, the width, the thickness as sold."""

    part: Part
    stock: Stock
    strips: int
    """Of how many boards side by side each is glued up."""
    rough: tuple[float, float, float]
    turnable: bool
    group: str = ""
    """The parts that come from one piece of stock, "" alone."""

    @property
    def count(self) -> int:
        """How many pieces are cut."""
        return self.part.quantity * self.strips

    @property
    def oversize(self) -> bool:
        """Whether a rough piece is longer or wider than the finished one."""
        return self.rough[0] > self.part.blank.x + 1 or self.rough[1] * self.strips > self.part.blank.y + 1


def sizes_sold(design: Design, stock: Stock) -> tuple[Size, ...]:
    """Length and width of each size in which a stock is sold, in the market table's order."""
    solved = [[design.solve(each, LENGTH)[0] for each in size] for size in stock.model.sizes]
    return tuple((length.number, width.number) for length, width in solved if length and width)


def rough_thickness(design: Design, stock: Stock) -> float:
    """The thickness as sold: that before planing where the market tells it, of one layer of what is glued up."""
    value = design.solve(stock.model.rough, LENGTH)[0] if stock.model.rough is not None else None
    return value.number if value is not None else stock.thickness


def pieces_of(
    content: Content,
    design: Design,
    parts: Mapping[str, Part],
    ways: Mapping[str, CuttingWay],
    units: Units,
) -> tuple[Pieces, ...]:
    """Of every part whose stock can be cut, by stock in the market's order, the longest first."""
    groups = {str(key): name for name, group in content.cutting.together.items() for key in group.parts}
    found = [
        _pieces(design, part, design.stock[part.stock], ways[part.stock], units, groups.get(part.key, ""))
        for part in parts.values()
        if part.stock in ways
    ]
    order = list(design.stock)
    return tuple(sorted(found, key=lambda each: (order.index(each.stock.key), -each.rough[0], each.part.number)))


def _pieces(design: Design, part: Part, stock: Stock, way: CuttingWay, units: Units, group: str) -> Pieces:
    length, width = (_rough(part, axis, way, units) for axis in (0, 1))
    strips = 1
    if stock.model.kind is StockKind.BOARD and (sizes := sizes_sold(design, stock)):
        widest = max(size[1] for size in sizes) - 2 * way.side_trim
        strips = _strips(part.blank.y, width - part.blank.y, widest)
        if strips > 1:
            width = round_to(part.blank.y / strips + way.wider, _STEPS[units], Direction.UP)
    turnable = stock.model.grain is Grain.NONE or part.model.grain is PartGrain.FREE
    thickness = rough_thickness(design, stock) if stock.model.layers == 1 else stock.thickness
    rough = length, width, thickness
    return Pieces(part, stock, strips, rough, turnable, group)


def _rough(part: Part, axis: int, way: CuttingWay, units: Units) -> float:
    """Finished size and what it is cut larger by: as its stock is, or as boards are where its sheet says so."""
    wish = part.model.dimensions.get(Text(f"blank/{SIZE_NAMES[axis]}"))
    told = wish is not None and wish.method is not None and wish.method.how is Method.OVERSIZE_THEN_TRIM
    usual, board = ((way.longer, way.board_longer), (way.wider, way.board_wider))[axis]
    more = max(usual, board) if told else usual
    finished = part.blank[axis]
    return round_to(finished + more, _STEPS[units], Direction.UP) if more > 0 else finished


def _strips(width: float, more: float, widest: float) -> int:
    """How many boards side by side make up a width when each is `more` wider at first."""
    room = widest - more
    return max(1, math.ceil(width / room - 1e-9)) if 0 < room < width else 1


def of_stock(pieces: Sequence[Pieces]) -> dict[str, tuple[Pieces, ...]]:
    """By stock, in their order."""
    keys = dict.fromkeys(each.stock.key for each in pieces)
    return {key: tuple(each for each in pieces if each.stock.key == key) for key in keys}
