"""The materials: how much of each stock the parts take, before waste."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from planbook.design import Design, Stock
from planbook.measure import UNIT_SIGNS, Direction, Precision, Units, print_limits, printed_diameter, round_plain
from planbook.shape.model import Part
from planbook.source.models.market import StockKind
from planbook.takeoff.model import ListRow
from planbook.takeoff.printing import both_systems

METRE = 1e9
FOOT = 304_800_000.0
"""Nanometres."""
AREA_STEPS = (("ft²", FOOT**2, 0.1, 1), ("m²", METRE**2, 0.01, 2))
LENGTH_STEPS = (("ft", FOOT, 0.1, 1), ("m", METRE, 0.1, 1))
"""Unit, its size in base units, the step to which an amount is rounded up, and the decimals of that step."""


def materials_list(design: Design, parts: Mapping[str, Part], units: Units) -> tuple[ListRow, ...]:
    """One row a stock that parts are cut from, in the order of the market's table."""
    rows = []
    for key, stock in design.stock.items():
        cut = [part for part in parts.values() if part.stock == key]
        if cut:
            rows.append(ListRow(key, _cells(stock, cut, units)))
    return tuple(rows)


def _cells(stock: Stock, parts: Sequence[Part], units: Units) -> dict[str, str]:
    thickness = printed_diameter(stock.thickness, units, ())
    return {
        "Material": str(stock.model.title),
        **both_systems("Thickness", [thickness], units),
        f"Accepted, {UNIT_SIGNS[units]}": accepted_words(stock, units),
        **_amounts(stock, parts, units),
        "Parts": ", ".join(str(part.number) for part in parts),
    }


def accepted_words(stock: Stock, units: Units) -> str:
    """Least and greatest actual thickness: `17.6 to 18.4`; "" where any will do."""
    if stock.accepted is None:
        return ""
    least, greatest = print_limits(*stock.accepted, units, Precision.CALIPER)
    return f"{least.text} to {greatest.text}"


def _amounts(stock: Stock, parts: Sequence[Part], units: Units) -> dict[str, str]:
    """Sheets by the area of the blanks' faces, boards and rods by the sum of their lengths; waste is not in it."""
    by_area = stock.model.kind is StockKind.SHEET
    amount = sum(part.quantity * part.blank.x * (part.blank.y if by_area else _boards(stock, part)) for part in parts)
    inch, metric = (_amount(amount, *step) for step in (AREA_STEPS if by_area else LENGTH_STEPS))
    first, second = (inch, metric) if units is Units.INCH else (metric, inch)
    return {"Net amount": first, "For reference": f"[{second}]"}


def _boards(stock: Stock, part: Part) -> int:
    """Of how many boards side by side a part is glued up."""
    if stock.model.kind is not StockKind.BOARD or not stock.width:
        return 1
    return max(1, math.ceil(part.blank.y / stock.width - 1e-9))


def _amount(amount: float, unit: str, size: float, step: float, decimals: int) -> str:
    return f"{round_plain(amount / size, step, Direction.UP):.{decimals}f} {unit}"
