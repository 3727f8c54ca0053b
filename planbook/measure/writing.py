"""A quantity as an author would type it: for messages, and where a value stands in the place of a formula."""

from __future__ import annotations

from planbook.measure.dimensionality import LENGTH
from planbook.measure.quantity import Quantity
from planbook.measure.rounding import settled
from planbook.measure.units import UNITS, USUAL_UNIT


def written(quantity: Quantity, digits: int = 6) -> str:
    """`17.2 mm`: with the usual unit of its kind; areas and the like in powers of it, what has none in base units."""
    kind = quantity.dimensionality
    if kind.length > 1 and kind == LENGTH**kind.length:
        millimetres = quantity.value / float(UNITS["mm"].factor) ** kind.length
        return f"{settled(millimetres):.{digits}g} mm^{kind.length}"
    if kind not in USUAL_UNIT:
        return f"{settled(quantity.value):.{digits}g}"
    unit = USUAL_UNIT[kind]
    return f"{settled(quantity.value / float(UNITS[unit].factor)):.{digits}g} {unit}"
