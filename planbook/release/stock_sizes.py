"""Parts that are larger than the stock that they are cut from is sold."""

from __future__ import annotations

from collections.abc import Iterator

from planbook.measure import Units
from planbook.shape.model import Part
from planbook.source.findings import Finding, Place, Severity
from planbook.source.models.market import StockKind
from planbook.statement.stated import Stated
from planbook.takeoff.pieces import Size, sizes_sold
from planbook.takeoff.sizes import holds, print_sizes


def check_stock_sizes(stated: Stated) -> tuple[Finding, ...]:
    """A warning for each part that no size of its stock holds; a stock without sizes holds everything."""
    units = Units(stated.statement.edition.units)
    return tuple(
        finding
        for part in stated.parts.values()
        if (stock := stated.design.stock.get(part.stock)) is not None
        for finding in _check(part, stock.model.kind, sizes_sold(stated.design, stock), str(stock.model.title), units)
    )


def _check(part: Part, kind: StockKind, sizes: tuple[Size, ...], title: str, units: Units) -> Iterator[Finding]:
    if not sizes or any(holds(kind, size, part.blank.x, part.blank.y) for size in sizes):
        return
    largest = max(sizes, key=lambda size: size[0] * size[1] if kind is StockKind.SHEET else size[0])
    whole = kind is StockKind.SHEET
    own = print_sizes((part.blank.x, part.blank.y) if whole else (part.blank.x,), units)
    sold = print_sizes(largest if whole else largest[:1], units)
    axis = 0 if part.blank.x > max(largest) or not whole else 1
    message = f"{part.title} is {own}{'' if whole else ' long'}, and {title} is sold in sizes up to {sold}."
    remedy = (
        f"Correct a measure that has a wrong unit, join the part of pieces, or name a larger size of `{part.stock}`."
    )
    place: Place = part.size[axis].place
    yield Finding("larger-than-stock", Severity.WARN, message, remedy, place)
