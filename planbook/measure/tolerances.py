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
    INCH_DECIMALS,
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
from planbook.measure.rounding import Direction, round_plain, round_to, snap
from planbook.measure.systems import Precision, Units
from planbook.measure.units import INCH, MILLIMETRE

_LIMITS = {
    (Units.INCH, Precision.WOODWORK): INCH_SIXTY_FOURTHS,
    (Units.INCH, Precision.CALIPER): INCH_THOUSANDTHS,
    (Units.MILLIMETRE, Precision.WOODWORK): TENTHS,
    (Units.MILLIMETRE, Precision.CALIPER): HUNDREDTHS,
}


class _Rung(NamedTuple):
    """From `least` nanometres on a deviation is stated as a multiple of the style's step, or as `least` itself."""

    least: float
    style: Style
    multiples: bool = False


def _inches(*rungs: float) -> tuple[_Rung, ...]:
    return tuple(_Rung(least * INCH, INCH_THOUSANDTHS) for least in rungs)


def _millimetres(*rungs: float) -> tuple[_Rung, ...]:
    return tuple(_Rung(least * MILLIMETRE, HUNDREDTHS) for least in rungs)


_LADDERS: dict[tuple[Units, Precision], tuple[_Rung, ...]] = {
    (Units.INCH, Precision.WOODWORK): (
        _Rung(INCH / 64, INCH_SIXTY_FOURTHS, multiples=True),
        *_inches(0.010, 0.005, 0.002, 0.001),
        _Rung(0.0, INCH_TEN_THOUSANDTHS, multiples=True),
    ),
    (Units.INCH, Precision.CALIPER): (
        _Rung(0.010 * INCH, INCH_DECIMALS, multiples=True),
        *_inches(0.005, 0.002, 0.001),
        _Rung(0.0, INCH_TEN_THOUSANDTHS, multiples=True),
    ),
    (Units.MILLIMETRE, Precision.WOODWORK): (
        _Rung(0.1 * MILLIMETRE, TENTHS, multiples=True),
        *_millimetres(0.05, 0.02, 0.01),
        _Rung(0.0, THOUSANDTHS, multiples=True),
    ),
    (Units.MILLIMETRE, Precision.CALIPER): (
        _Rung(0.1 * MILLIMETRE, TENTHS, multiples=True),
        *_millimetres(0.05, 0.02, 0.01),
        _Rung(0.0, THOUSANDTHS, multiples=True),
    ),
}
"""The steps that a builder knows, the coarsest first: what was given in the other system comes out in one of them."""
_OWN = {Units.INCH: (INCH_SIXTY_FOURTHS, INCH_THOUSANDTHS), Units.MILLIMETRE: (HUNDREDTHS,)}
"""An exact multiple of these is the author's own number, and kept."""
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

    Each is rounded towards 0, so that the stated limits lie within the author's: to steps that a builder knows, unless
    it is such a number already.
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
    style = _LIMITS[units, precision]

    def printed(nm: float, direction: Direction) -> Printed:
        stated = round_to(nm, style.step, direction)
        return Printed(style.text(stated), "", stated, UNIT_SIGNS[units])

    return printed(lower, Direction.UP), printed(upper, Direction.DOWN)


def _length_stater(units: Units, precision: Precision) -> Callable[[float], tuple[float, str]]:
    own = _OWN[units] if precision is Precision.WOODWORK else _OWN[units][-1:]

    def state(deviation: float) -> tuple[float, str]:
        for style in own:
            kept = round_to(deviation, style.exact)
            if kept and snap(kept) == snap(deviation):
                return kept, style.text(kept)
        rung = next(rung for rung in _LADDERS[units, precision] if snap(rung.least) <= snap(deviation))
        stated = round_to(deviation, rung.style.step, Direction.DOWN) if rung.multiples else rung.least
        return stated, rung.style.text(stated) if stated else "0"

    return state


def _state_angle(deviation: float) -> tuple[float, str]:
    stated = next((angle for step in _ANGLE_STEPS if (angle := round_plain(deviation, step, Direction.DOWN))), 0.0)
    return stated, f"{decimal_text(Fraction(stated), 2)}°"
