"""A quantity as an author would type it: for messages, and where a value stands in the place of a formula."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from planbook.measure.dimensionality import FORCE, LENGTH, MASS, PRESSURE, Dimensionality
from planbook.measure.quantity import Quantity
from planbook.measure.rounding import settled
from planbook.measure.units import UNITS, USUAL_UNIT

_CUSTOMARY: Final[Mapping[Dimensionality, str]] = {LENGTH: "in", MASS: "lb", FORCE: "lbf", PRESSURE: "psi"}
_FEW: Final = 4
"""Digits of what stands beside for reference."""


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


def written_in_both(quantity: Quantity, digits: int = 6) -> str:
    """`3.96875 mm (0.1562 in)`: for who thinks in either system, where a message stands in no edition's."""
    metric, customary = written(quantity, digits), _CUSTOMARY.get(quantity.dimensionality)
    if customary is None or not quantity.value:
        return metric
    return f"{metric} ({settled(quantity.value / float(UNITS[customary].factor)):.{_FEW}g} {customary})"
