"""Whether stock as sold holds a part, and what is wrong with sizes and thicknesses."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from planbook.cutting import Why
from planbook.design import Design, Stock
from planbook.measure import Precision, Quantity, Units, print_gauged, print_quantity
from planbook.measure.dimensionality import LENGTH
from planbook.shape.model import Part
from planbook.source.content import Content
from planbook.source.findings import Finding, Place, Severity
from planbook.source.models.market import StockKind
from planbook.takeoff.layouts import StockPlan
from planbook.takeoff.pieces import Pieces, Size, sizes_sold
from planbook.takeoff.ways import CuttingWay, kerf_place

FINE = 1024.0
"""Nanometres that are no difference."""


def holds(kind: StockKind, size: Size, length: float, width: float) -> bool:
    """A sheet may be turned; boards are glued up in width, so only their length counts, as a rod's does."""
    long, wide = length - FINE, width - FINE
    if kind is StockKind.SHEET:
        return max(size) >= max(long, wide) and min(size) >= min(long, wide)
    return size[0] >= long


def check_kerf(content: Content, stock: Stock, way: CuttingWay, pieces: Sequence[Pieces]) -> Iterator[Finding]:
    """A kerf as wide as a piece."""
    smallest = min(pieces, key=lambda each: min(each.rough[:2]))
    if way.kerf < min(smallest.rough[:2]) - FINE:
        return
    kerf = kerf_place(content, stock)
    message = f"The kerf for {stock.model.title} is `{kerf}`, and {smallest.part.title} is no wider than that."
    remedy = "Give what the saw or the cutter takes away, for example `kerf: 3 mm`."
    yield Finding("kerf-size", Severity.STOP, message, remedy, kerf.place if kerf is not None else None)


def check_plan(design: Design, plan: StockPlan) -> Iterator[Finding]:
    """Pieces that could not be placed and that are not too large for the stock as sold."""
    kind, sizes = plan.stock.model.kind, sizes_sold(design, plan.stock)
    for left in plan.plan.unplaced:
        part = plan.of_key(left.piece).part
        if left.why is Why.TOO_LARGE and any(holds(kind, size, part.blank.x, part.blank.y) for size in sizes):
            message = f"{part.title} fits {plan.stock.model.title} as sold, but not once that is trimmed, or not rough."
            remedy = f"Trim less or cut less oversize in cutting.yaml, or name a larger size of `{plan.stock.key}`."
            yield Finding("too-large-to-cut", Severity.WARN, message, remedy, part.size[0].place)


def check_thickness(design: Design, parts: Mapping[str, Part], units: Units) -> Iterator[Finding]:
    """Parts thicker than their stock, and parts of sheet that are not as thick as the sheet."""
    for part in parts.values():
        stock = design.stock.get(part.stock)
        if stock is None:
            continue
        sold, own = stock.thickness, part.blank.z
        planed = stock.model.kind is not StockKind.SHEET and own < sold
        if abs(own - sold) > FINE and not planed:
            yield _thickness(design, part, stock, units)


def _thickness(design: Design, part: Part, stock: Stock, units: Units) -> Finding:
    own, sold = (print_gauged(each, units) for each in (part.blank.z, stock.thickness))
    message = f"{part.title} is {own.text} {own.unit} thick, and {stock.model.title} is {sold.text} {sold.unit}."
    same = [each.key for each in design.stock.values() if abs(each.thickness - part.blank.z) <= FINE]
    title = (
        f"Name `{same[0]}`, which is that thick" if same else f"Take it from the stock, `stock.{stock.key}.thickness`"
    )
    return Finding("thickness-unsold", Severity.WARN, message, f"{title}, or correct the size.", part.size[2].place)


def check_together(content: Content, parts: Mapping[str, Part]) -> Iterator[Finding]:
    """Parts that are to come from one piece, and are of different stock."""
    for name, group in content.cutting.together.items():
        stocks = {parts[str(key)].stock for key in group.parts if str(key) in parts}
        if len(stocks) > 1:
            message = f"The parts of `{name}` come from different stock: {', '.join(sorted(stocks))}."
            remedy = "Take out those that cannot come from the same piece, or give them the same stock."
            yield Finding("together-apart", Severity.STOP, message, remedy, name.place)


def check_group(content: Content, name: str) -> Finding:
    """Parts that do not fit in one piece of stock together."""
    message = f"The parts of `{name}` do not fit in one piece of stock, so they are laid out apart."
    remedy = "Take out one of them, name a larger size sold, or ask for fewer pieces."
    key = next(each for each in content.cutting.together if each == name)
    return Finding("together-too-large", Severity.WARN, message, remedy, key.place)


def check_many(stock: Stock, count: int, most: int, place: Place) -> Finding:
    """More pieces of a stock than a plan is drawn for."""
    message = f"{count} pieces come from {stock.model.title}; layouts are drawn for up to {most}."
    return Finding("too-many-pieces", Severity.WARN, message, "Ask for fewer pieces at a time.", place)


def print_sizes(lengths: Sequence[float], units: Units) -> str:
    """`2440 × 1220 mm`."""
    printed = [print_quantity(Quantity(each, LENGTH), units, Precision.WOODWORK) for each in lengths]
    return f"{' × '.join(each.text for each in printed)} {printed[0].unit}"
