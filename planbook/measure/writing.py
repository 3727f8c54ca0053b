"""A quantity as an author would type it: for messages, and where a value stands in the place of a formula."""

from __future__ import annotations

from planbook.measure.quantity import Quantity
from planbook.measure.rounding import settled
from planbook.measure.units import UNITS, USUAL_UNIT


def written(quantity: Quantity, digits: int = 6) -> str:
    """`17.2 mm`: with the usual unit of its kind; what has none in base units."""
    kind = quantity.dimensionality
    if kind not in USUAL_UNIT:
        return f"{settled(quantity.value):.{digits}g}"
    unit = USUAL_UNIT[kind]
    return f"{settled(quantity.value / float(UNITS[unit].factor)):.{digits}g} {unit}"
