"""How a length is printed in each system and fineness.

Woodwork: 1/32 in (an exact 1/64 in is kept) or 0.5 mm. Caliper: thousandths of an inch, derived values to .005 in, or
0.1 mm. A length that such a step would print as 0 is printed at the next finer one: a clearance must not vanish.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from planbook.measure.numerals import decimal_text, fraction_text, inch_decimal_text
from planbook.measure.printed import Printed
from planbook.measure.rounding import round_to, snap
from planbook.measure.systems import Precision, Units
from planbook.measure.units import INCH, MILLIMETRE


@dataclass(frozen=True, slots=True)
class Style:
    """Multiples of `step` nanometres, written by `write` from a count of units of `unit` nanometres.

    A value that is an exact multiple of `exact` is kept as it is.
    """

    step: float
    exact: float
    unit: float
    write: Callable[[Fraction], str]

    def round(self, nm: float) -> float:
        """What is stated for a length of `nm` nanometres."""
        kept = round_to(nm, self.exact)
        return kept if snap(kept) == snap(nm) else round_to(nm, self.step)

    def text(self, stated: float) -> str:
        """The text of a length that `round` gave."""
        return self.write(Fraction(stated) / Fraction(self.unit))


def _inches(step: float, exact: float, places: int) -> Style:
    return Style(step * INCH, exact * INCH, INCH, lambda count: inch_decimal_text(count, places))


def _millimetres(step: float) -> Style:
    return Style(step * MILLIMETRE, step * MILLIMETRE, MILLIMETRE, lambda count: decimal_text(count, 3))


INCH_FRACTIONS = Style(INCH / 32, INCH / 64, INCH, fraction_text)
INCH_SIXTY_FOURTHS = Style(INCH / 64, INCH / 64, INCH, fraction_text)
INCH_DECIMALS = _inches(0.005, 0.001, 3)
INCH_THOUSANDTHS = _inches(0.001, 0.001, 3)
INCH_TEN_THOUSANDTHS = _inches(0.0001, 0.0001, 4)
HALVES = _millimetres(0.5)
TENTHS = _millimetres(0.1)
HUNDREDTHS = _millimetres(0.01)
THOUSANDTHS = _millimetres(0.001)

_FIRST: dict[tuple[Units, Precision], tuple[Style, ...]] = {
    (Units.INCH, Precision.WOODWORK): (INCH_FRACTIONS, INCH_DECIMALS, INCH_THOUSANDTHS),
    (Units.INCH, Precision.CALIPER): (INCH_DECIMALS, INCH_THOUSANDTHS),
    (Units.MILLIMETRE, Precision.WOODWORK): (HALVES, TENTHS, HUNDREDTHS),
    (Units.MILLIMETRE, Precision.CALIPER): (TENTHS, HUNDREDTHS),
}
"""Styles by system and fineness, the coarsest first."""
_OFF = 0.2
"""How far the second system may be off, in parts of the length."""
UNIT_SIGNS = {Units.INCH: "in", Units.MILLIMETRE: "mm"}


def print_length(nm: float, units: Units, precision: Precision) -> Printed:
    """A length of `nm` nanometres in the edition's system, the other system beside it for reference.

    The reference beside millimetres is a fraction of an inch, never a decimal that looks like a setting, unless the
    fraction would be off by more than a fifth: half a millimetre is .020 in, not 1/32.
    """
    stated, text = _state(nm, _FIRST[units, precision])
    second = Units.MILLIMETRE if units is Units.INCH else Units.INCH
    styles = _FIRST[second, precision if second is Units.MILLIMETRE else Precision.WOODWORK]
    near = (style for style in styles if abs(style.round(nm) - nm) <= _OFF * abs(nm))
    _, other = _state(nm, (next(near, styles[-1]),))
    return Printed(text, other, stated, UNIT_SIGNS[units], UNIT_SIGNS[second])


def print_gauged(nm: float, units: Units) -> Printed:
    """To a hundredth of a millimetre or a thousandth of an inch: sums of tolerances; without the second system."""
    style = INCH_THOUSANDTHS if units is Units.INCH else HUNDREDTHS
    stated = style.round(nm)
    return Printed(style.text(stated) if stated else "0", "", stated, UNIT_SIGNS[units])


def _state(nm: float, styles: tuple[Style, ...]) -> tuple[float, str]:
    """What is stated and its text, in the first style that does not round it away."""
    for style in styles:
        if stated := style.round(nm):
            return stated, style.text(stated)
    return 0.0, "0"
