"""Parts that are larger than the stock that they are cut from is sold."""

from __future__ import annotations

from collections.abc import Iterator

from planbook.design import Design
from planbook.measure import Precision, Quantity, Units, print_quantity
from planbook.measure.dimensionality import LENGTH
from planbook.shape.model import Part
from planbook.source.findings import Finding, Place, Severity
from planbook.source.models.market import StockKind
from planbook.statement.stated import Stated

_FINE = 1024.0
"""Nanometres that are no difference."""
Size = tuple[float, float]


def check_stock_sizes(stated: Stated) -> tuple[Finding, ...]:
    """A warning for each part that no size of its stock holds; a stock without sizes holds everything."""
    units = Units(stated.statement.edition.units)
    return tuple(
        finding
        for part in stated.parts.values()
        if (stock := stated.design.stock.get(part.stock)) is not None
        for finding in _check(part, stock.model.kind, _sizes(stated.design, part.stock), str(stock.model.title), units)
    )


def _sizes(design: Design, key: str) -> list[Size]:
    solved = [[design.solve(each, LENGTH)[0] for each in size] for size in design.stock[key].model.sizes]
    return [(length.number, width.number) for length, width in solved if length and width]


def _check(part: Part, kind: StockKind, sizes: list[Size], title: str, units: Units) -> Iterator[Finding]:
    if not sizes or any(_holds(kind, size, part) for size in sizes):
        return
    largest = max(sizes, key=lambda size: size[0] * size[1] if kind is StockKind.SHEET else size[0])
    whole = kind is StockKind.SHEET
    own = _print((part.blank.x, part.blank.y) if whole else (part.blank.x,), units)
    sold = _print(largest if whole else largest[:1], units)
    axis = 0 if part.blank.x > max(largest) or not whole else 1
    message = f"{part.title} is {own}{'' if whole else ' long'}, and {title} is sold in sizes up to {sold}."
    remedy = (
        f"Correct a measure that has a wrong unit, join the part of pieces, or name a larger size of `{part.stock}`."
    )
    place: Place = part.size[axis].place
    yield Finding("larger-than-stock", Severity.WARN, message, remedy, place)


def _holds(kind: StockKind, size: Size, part: Part) -> bool:
    """A sheet may be turned; boards are glued up in width, so only their length counts, as a rod's does."""
    long, wide = part.blank.x - _FINE, part.blank.y - _FINE
    if kind is StockKind.SHEET:
        return max(size) >= max(long, wide) and min(size) >= min(long, wide)
    return size[0] >= long


def _print(lengths: tuple[float, ...], units: Units) -> str:
    printed = [print_quantity(Quantity(each, LENGTH), units, Precision.WOODWORK) for each in lengths]
    return f"{' × '.join(each.text for each in printed)} {printed[0].unit}"
