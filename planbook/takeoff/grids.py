"""The lists as tables for a spreadsheet: numbers are numbers, lengths in millimetres and in inches."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from planbook.measure import INCH, MILLIMETRE
from planbook.source.models.prices import Per
from planbook.takeoff.buying import Purchase
from planbook.takeoff.costing import Cost
from planbook.takeoff.cut_list import edge_words, grain_words, rough_sizes
from planbook.takeoff.hardware import Use
from planbook.takeoff.model import ListRow
from planbook.takeoff.pieces import Pieces
from planbook.takeoff.weight import Weight

Value = str | int | float
POUND = 0.45359237
"""Kilograms (NIST SP 811)."""
_UNITS = (("mm", MILLIMETRE, 3), ("in", INCH, 4))


@dataclass(frozen=True, slots=True)
class Grid:
    """A table: a title in each column, a value or "" in each cell."""

    name: str
    columns: tuple[str, ...]
    rows: tuple[tuple[Value, ...], ...]


def cutting_grid(pieces: Sequence[Pieces], told: Sequence[ListRow]) -> Grid:
    """The cut list; `told` has its rows as they are printed, for their remarks."""
    columns = (
        "stock", "part", "description", "quantity", *_lengths("finished", 3), *_lengths("rough", 3),
        "grain", "edges", "strips", "sheet", "remarks",
    )  # fmt: skip
    rows = (
        (
            str(each.stock.model.title), each.part.number, each.part.title, each.count, *_both(each.part.blank, 3),
            *_both(rough_sizes(each), 3), grain_words(each), edge_words(each.part), each.strips, each.part.sheet,
            row.cells["Remarks"],
        )
        for each, row in zip(pieces, told, strict=True)
    )  # fmt: skip
    return Grid("cutting", columns, tuple(rows))


def hardware_grid(uses: Sequence[Use]) -> Grid:
    """The hardware list."""
    columns = ("item", *_lengths("", 1), "quantity", "spares", "use", "parts")
    rows = (
        (
            str(use.item.model.title), *_both((use.length.number,) if use.length else (), 1), use.count, use.spares,
            use.use, " ".join(str(number) for number in use.parts),
        )
        for use in uses
    )  # fmt: skip
    return Grid("hardware", columns, tuple(rows))


def shopping_grid(purchases: Sequence[Purchase], cost: Cost | None, told: Sequence[ListRow]) -> Grid:
    """The shopping list, with its cost where there are prices; `told` has its rows as they are printed."""
    measures = [per for per in Per if any(per in purchase.measures for purchase in purchases)]
    priced = (f"cost {cost.prices.currency}",) if cost is not None else ()
    columns = (
        "group",
        "item",
        *_lengths("", 2),
        "buy",
        *(str(per).replace("_", " ") for per in measures),
        *priced,
        "note",
    )
    rows = (
        (
            str(each.group), each.title, *_both(each.size, 2), each.count,
            *(round(each.measures[per], 6) if per in each.measures else "" for per in measures),
            *((float(cost.lines[at]) if at in cost.lines else "",) if cost is not None else ()),
            row.cells["Note"],
        )
        for at, (each, row) in enumerate(zip(purchases, told, strict=True))
    )  # fmt: skip
    return Grid("shopping", columns, tuple(rows))


def cost_grid(cost: Cost) -> Grid:
    """Cost by group, and the sum."""
    rows = [(str(group), float(amount), "") for group, amount in cost.groups.items()]
    without = f"without {', '.join(cost.without)}" if cost.without else ""
    total = ("total", float(cost.total), f"{cost.prices.asked.isoformat()} {without}".strip())
    return Grid("cost", ("of", f"cost {cost.prices.currency}", "note"), (*rows, total))


def weight_grid(weight: Weight) -> Grid:
    """What it weighs, in kilograms and in pounds."""
    rows = (("parts", weight.parts), ("hardware", weight.hardware), ("to ship", weight.shipped))
    note = f"without {', '.join(weight.without)}" if weight.without else ""
    told = ((name, round(kg, 3), round(kg / POUND, 3), note if name == "to ship" else "") for name, kg in rows)
    return Grid("weight", ("of", "kg", "lb", "note"), tuple(told))


def _lengths(prefix: str, count: int) -> tuple[str, ...]:
    names = ("length", "width", "thickness")[:count]
    return tuple(f"{prefix} {name} {unit}".strip() for unit, _, _ in _UNITS for name in names)


def _both(lengths: Sequence[float], count: int) -> tuple[Value, ...]:
    """In millimetres, then in inches; "" for a length that is not told."""
    return tuple(
        round(lengths[at] / size, digits) if at < len(lengths) else ""
        for _, size, digits in _UNITS
        for at in range(count)
    )
