"""Measures in lists: a column for each system, the edition's own first."""

from __future__ import annotations

from collections.abc import Sequence

from planbook.design import Value
from planbook.measure import UNIT_SIGNS, Precision, Printed, Units, print_quantity

_OTHER = {Units.INCH: Units.MILLIMETRE, Units.MILLIMETRE: Units.INCH}


def print_size(value: Value, precision: Precision | None, units: Units) -> Printed:
    """A size as the sheet of its part prints it."""
    return print_quantity(value.quantity, units, precision or value.precision)


def both_systems(title: str, sizes: Sequence[Printed], units: Units, between: str = "") -> dict[str, str]:
    """Two cells: the sizes in the edition's unit, and in the other one in brackets; both empty without sizes."""
    reference = between.join(size.other for size in sizes)
    return {
        f"{title}, {UNIT_SIGNS[units]}": between.join(size.text for size in sizes),
        f"{title}, {UNIT_SIGNS[_OTHER[units]]}": f"[{reference}]" if reference else "",
    }
