"""Tolerances and limits as printed: never wider than the author said.

Limits are rounded towards the inside (IEEE/ASTM SI 10, absolute method: 11 +/- 0.3 mm is .422 to .444 in).
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import NamedTuple

from planbook.measure.dimensionality import ANGLE, LENGTH, Dimensionality
from planbook.measure.lengths import (
    HUNDREDTHS,
    INCH_SIXTY_FOURTHS,
    INCH_TEN_THOUSANDTHS,
    INCH_THOUSANDTHS,
    TENTHS,
    THOUSANDTHS,
    UNIT_SIGNS,
    Style,
)
from planbook.measure.numerals import MINUS, decimal_text
from planbook.measure.printed import Printed
from planbook.measure.rounding import Direction, round_plain, round_to
from planbook.measure.systems import Precision, Units
from planbook.measure.units import INCH, MILLIMETRE

_STYLES: dict[tuple[Units, Precision], tuple[Style, ...]] = {
    (Units.INCH, Precision.WOODWORK): (INCH_SIXTY_FOURTHS, INCH_THOUSANDTHS, INCH_TEN_THOUSANDTHS),
    (Units.INCH, Precision.CALIPER): (INCH_THOUSANDTHS, INCH_TEN_THOUSANDTHS),
    (Units.MILLIMETRE, Precision.WOODWORK): (TENTHS, HUNDREDTHS, THOUSANDTHS),
    (Units.MILLIMETRE, Precision.CALIPER): (HUNDREDTHS, THOUSANDTHS),
}
CALIPER_TOLERANCE = {Units.INCH: 0.005 * INCH, Units.MILLIMETRE: 0.1 * MILLIMETRE}
"""Plus or minus in nanometres: how near caliper work is held where no tolerance is stated, as fine as it is printed."""
_ANGLE_STEPS = (0.5, 0.1, 0.01)


class ToleranceText(NamedTuple):
    """A tolerance as printed. The text states the deviations `upper` (>= 0) and `lower` (<= 0), in base units."""

    text: str
    upper: float
    lower: float


def print_tolerance(
    plus: float, minus: float, units: Units, precision: Precision, kind: Dimensionality = LENGTH
) -> ToleranceText:
    """`±1/32`, `+0.5/0` for deviations `plus` and `minus` (both >= 0, base units) of a length or an angle.

    Each is rounded towards 0, so that the stated limits lie within the author's.
    """
    state = _state_angle if kind == ANGLE else _length_stater(units, precision)
    (upper, upper_text), (lower, lower_text) = state(plus), state(minus)
    if upper == lower:
        return ToleranceText(f"±{upper_text}", upper, 0.0 - lower)
    first = f"+{upper_text}" if upper else "0"
    second = f"{MINUS}{lower_text}" if lower else "0"
    slash = " / " if "/" in first + second else "/"
    return ToleranceText(f"{first}{slash}{second}", upper, 0.0 - lower)


def print_limits(lower: float, upper: float, units: Units, precision: Precision) -> tuple[Printed, Printed]:
    """The least and greatest accepted length, the first rounded up and the second down; without a second system."""
    style = _STYLES[units, precision][0]

    def printed(nm: float, direction: Direction) -> Printed:
        stated = round_to(nm, style.step, direction)
        return Printed(style.text(stated), "", stated, UNIT_SIGNS[units])

    return printed(lower, Direction.UP), printed(upper, Direction.DOWN)


def _length_stater(units: Units, precision: Precision) -> Callable[[float], tuple[float, str]]:
    def state(deviation: float) -> tuple[float, str]:
        for style in _STYLES[units, precision]:
            if stated := round_to(deviation, style.step, Direction.DOWN):
                return stated, style.text(stated)
        return 0.0, "0"

    return state


def _state_angle(deviation: float) -> tuple[float, str]:
    stated = next((angle for step in _ANGLE_STEPS if (angle := round_plain(deviation, step, Direction.DOWN))), 0.0)
    return stated, f"{decimal_text(Fraction(stated), 2)}°"
