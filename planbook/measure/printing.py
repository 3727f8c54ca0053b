"""The one way from a quantity to the text that a builder reads."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from planbook.measure.dimensionality import (
    ACCELERATION,
    ANGLE,
    AREA,
    DENSITY,
    FORCE,
    INERTIA,
    LENGTH,
    MASS,
    PRESSURE,
    SCALAR,
    STIFFNESS,
    TIME,
    TORQUE,
    VOLUME,
    Dimensionality,
)
from planbook.measure.lengths import print_length
from planbook.measure.numerals import decimal_text, significant, significant_text
from planbook.measure.printed import Printed
from planbook.measure.quantity import Quantity
from planbook.measure.rounding import round_plain
from planbook.measure.systems import Precision, Units
from planbook.measure.units import UNITS, base_signs

SIGNIFICANT_DIGITS = 3
_SMALL = 25.4e6
"""Nanometres under which calipers print too coarsely to say how large a thing is."""
_CALCULATED_ANGLE = 0.1
"""Degrees: the step of a calculated angle of 10 degrees or more; three digits tell less of a large one."""
_LARGE_ANGLE = 10.0
ANGLE_STEPS = (0.5, 0.1, 0.01)
"""Degrees: the floor of half a degree, and finer steps for an angle that it would print as 0."""


@dataclass(frozen=True, slots=True)
class _Scale:
    """A unit to print in: its sign and its factor to base units."""

    sign: str
    factor: Fraction


_METRIC: dict[Dimensionality, _Scale] = {
    FORCE: _Scale("N", UNITS["N"].factor),
    MASS: _Scale("kg", UNITS["kg"].factor),
    PRESSURE: _Scale("MPa", UNITS["MPa"].factor),
    TORQUE: _Scale("N·m", UNITS["N"].factor * UNITS["m"].factor),
    AREA: _Scale("m²", UNITS["m"].factor ** 2),
    VOLUME: _Scale("cm³", UNITS["cm"].factor ** 3),
    DENSITY: _Scale("kg/m³", UNITS["kg"].factor / UNITS["m"].factor ** 3),
    ACCELERATION: _Scale("m/s²", UNITS["m"].factor),
    STIFFNESS: _Scale("N/mm", UNITS["N"].factor / UNITS["mm"].factor),
    INERTIA: _Scale("cm⁴", UNITS["cm"].factor ** 4),
}
_CUSTOMARY: dict[Dimensionality, _Scale] = {
    FORCE: _Scale("lbf", UNITS["lbf"].factor),
    MASS: _Scale("lb", UNITS["lb"].factor),
    PRESSURE: _Scale("psi", UNITS["psi"].factor),
    TORQUE: _Scale("lbf·ft", UNITS["lbf"].factor * UNITS["ft"].factor),
    AREA: _Scale("ft²", UNITS["ft"].factor ** 2),
    VOLUME: _Scale("in³", UNITS["in"].factor ** 3),
    DENSITY: _Scale("lb/ft³", UNITS["lb"].factor / UNITS["ft"].factor ** 3),
    ACCELERATION: _Scale("ft/s²", UNITS["ft"].factor),
    STIFFNESS: _Scale("lbf/in", UNITS["lbf"].factor / UNITS["in"].factor),
    INERTIA: _Scale("in⁴", UNITS["in"].factor ** 4),
}


def print_quantity(quantity: Quantity, units: Units, precision: Precision) -> Printed:
    """The text that states `quantity` in the edition's system, and the other system for reference.

    Lengths follow `lengths.print_length`; angles go to half a degree; everything else to three significant digits, a
    count or ratio, an angle and a time without a second system.
    """
    kind, value = quantity.dimensionality, quantity.value
    if kind == LENGTH:
        return print_length(value, units, precision)
    if kind == ANGLE:
        return _print_angle(value)
    if kind in _METRIC:
        return _print_scaled(value, kind, units)
    return _print_single(value, kind)


def print_calculated(quantity: Quantity, units: Units) -> Printed:
    """The same for a figure that no tool is set to: a length under an inch to three significant digits, as a sag is, an
    angle to a tenth of a degree and under 10 degrees to three digits: a shaft leans by less than any protractor shows.
    """
    if quantity.dimensionality == ANGLE:
        return _print_calculated_angle(quantity.value)
    if quantity.dimensionality != LENGTH or not 0 < abs(quantity.value) < _SMALL:
        return print_quantity(quantity, units, Precision.CALIPER)
    value = quantity.value
    inches, millimetres = (significant(value / float(UNITS[unit].factor), SIGNIFICANT_DIGITS) for unit in ("in", "mm"))
    texts = {"in": significant_text(inches).replace("0.", ".", 1), "mm": significant_text(millimetres)}
    first, second = ("in", "mm") if units is Units.INCH else ("mm", "in")
    stated = float(inches if first == "in" else millimetres) * float(UNITS[first].factor)
    return Printed(texts[first], texts[second], stated, first, second)


def _print_angle(degrees: float) -> Printed:
    stated = next((rounded for step in ANGLE_STEPS if (rounded := round_plain(degrees, step))), 0.0)
    return Printed(decimal_text(Fraction(stated), 2), "", stated, "°")


def _print_calculated_angle(degrees: float) -> Printed:
    if abs(degrees) < _LARGE_ANGLE:
        number = significant(degrees, SIGNIFICANT_DIGITS)
        return Printed(significant_text(number), "", float(number), "°")
    stated = round_plain(degrees, _CALCULATED_ANGLE)
    return Printed(decimal_text(Fraction(stated), 1), "", stated, "°")


def _print_scaled(value: float, kind: Dimensionality, units: Units) -> Printed:
    scales = (_CUSTOMARY[kind], _METRIC[kind]) if units is Units.INCH else (_METRIC[kind], _CUSTOMARY[kind])
    first, second = (significant(value / float(scale.factor), SIGNIFICANT_DIGITS) for scale in scales)
    stated = float(Fraction(first) * scales[0].factor)
    return Printed(significant_text(first), significant_text(second), stated, scales[0].sign, scales[1].sign)


def _print_single(value: float, kind: Dimensionality) -> Printed:
    """A plain number whole if it is a count; what has no usual unit in metre, kilogram, second and degree."""
    factor = float(Fraction(10) ** (9 * kind.length))
    if kind == SCALAR and value == round(value):
        return Printed(decimal_text(Fraction(value), 0), "", value, "")
    number = significant(value / factor, SIGNIFICANT_DIGITS)
    sign = "" if kind == SCALAR else "s" if kind == TIME else base_signs(kind)
    return Printed(significant_text(number), "", float(number) * factor, sign)
