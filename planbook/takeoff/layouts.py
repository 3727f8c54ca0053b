"""Plans of cutting: the pieces of each stock laid out on the sizes that it is sold in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Final

from planbook import cutting
from planbook.cutting import Job, Plan, whole_piece, whole_stock
from planbook.design import Design, Stock
from planbook.source.models.cutting import Machine
from planbook.source.models.market import Grain, StockKind
from planbook.takeoff.pieces import Pieces, sizes_sold
from planbook.takeoff.routing import routed_rings
from planbook.takeoff.ways import CuttingWay

MOST: Final = 600
"""Pieces of one stock for which a plan is drawn: more fill pages that nobody reads."""
EFFORT: Final = 400_000
"""Looks at a place for a piece, in the core's measure: a set is checked many times while it is written."""

NESTING: Final = 1_000_000
"""The same for a router: outlines are laid into one another, which takes more of them."""
_MIRRORED: Final = " mirrored"


@dataclass(frozen=True)
class StockPlan:
    """How the pieces of one stock come out of what is bought; `job` is the question to which `plan` is the answer."""

    stock: Stock
    way: CuttingWay
    pieces: tuple[Pieces, ...]
    job: Job
    plan: Plan

    @property
    def sizes(self) -> dict[str, cutting.Stock]:
        """The sizes sold, by the key that layouts name."""
        return {each.key: each for each in self.job.stocks}

    def of_key(self, key: str) -> Pieces:
        """The pieces that a key of the plan stands for, of whichever hand."""
        return next(each for each in self.pieces if each.part.key == key.removesuffix(_MIRRORED))


def plan_stock(design: Design, stock: Stock, way: CuttingWay, pieces: Sequence[Pieces]) -> StockPlan | None:
    """The best plan found, the same each time; None for a stock whose sizes nobody told."""
    sizes = sizes_sold(design, stock)
    if not sizes:
        return None
    routed = way.machine is Machine.ROUTER and stock.model.kind is StockKind.SHEET
    job = Job(
        tuple(asked for each in pieces for asked in _asked(each, routed=routed)),
        tuple(_sold(f"{number}", size, stock, way) for number, size in enumerate(sizes)),
        whole_piece(way.kerf),
    )
    return StockPlan(stock, way, tuple(pieces), job, _planned(job, stock.model.kind, way.machine))


@lru_cache(maxsize=64)
def _planned(job: Job, kind: StockKind, machine: Machine) -> Plan:
    if kind is not StockKind.SHEET:
        return cutting.cut_boards(job, EFFORT)
    if machine is Machine.ROUTER:
        return cutting.nest_sheets(job, NESTING)
    return cutting.cut_sheets(job, EFFORT)


def _sold(key: str, size: tuple[float, float], stock: Stock, way: CuttingWay) -> cutting.Stock:
    """A size as the core takes it, its length along the grain."""
    length, width = reversed(size) if stock.model.grain is Grain.WIDTH else size
    ends, sides = way.end_trim, way.side_trim
    return cutting.Stock(
        key, whole_stock(length), whole_stock(width), end_trim=whole_piece(ends), edge_trim=whole_piece(sides)
    )


def _asked(pieces: Pieces, *, routed: bool) -> Iterator[cutting.Piece]:
    """As the core takes them: both hands have the same rough size; for a router each has an outline of its own."""
    part, size = pieces.part, (whole_piece(pieces.rough[0]), whole_piece(pieces.rough[1]))
    asked = cutting.Piece(part.key, *size, pieces.count, pieces.turnable, pieces.group or None)
    rings = routed_rings(part, size, mirrored=False) if routed else ()
    if rings:
        asked = replace(asked, outline=rings[0], holes=rings[1:])
    if not rings or not part.mirrored:
        yield asked
        return
    if part.as_drawn:
        yield replace(asked, quantity=part.as_drawn)
    outline, *holes = routed_rings(part, size, mirrored=True)
    yield replace(asked, key=part.key + _MIRRORED, quantity=part.mirrored, outline=outline, holes=tuple(holes))
