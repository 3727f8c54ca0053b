"""Units that authors may write, each with its exact factor to the base units nanometre, kilogram, second, degree.

An inch is exactly 25.4 mm, a pound exactly 0.45359237 kg, standard gravity exactly 9.80665 m/s2
(NIST SP 811, appendix B.8); everything else follows from these.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

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


@dataclass(frozen=True, slots=True)
class Unit:
    """One of this unit is `factor` of the base unit that `dimensionality` names."""

    sign: str
    factor: Fraction
    dimensionality: Dimensionality

    def to_base(self, count: Fraction) -> float:
        """So many of this unit in base units, rounded once."""
        return float(count * self.factor)


_METRE = Fraction(10**9)
_INCH = Fraction(25_400_000)
_POUND = Fraction("0.45359237")
_NEWTON = _METRE
_PASCAL = 1 / _METRE
_POUND_FORCE = _POUND * Fraction("9.80665") * _METRE

_RAISED = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")

_LENGTHS = {"um": _METRE / 10**6, "mm": _METRE / 1000, "cm": _METRE / 100, "m": _METRE, "in": _INCH, "ft": 12 * _INCH}
_ANGLES = {"deg": Fraction(1), "rad": Fraction(180 / math.pi)}
_MASSES = {"g": Fraction(1, 1000), "kg": Fraction(1), "oz": _POUND / 16, "lb": _POUND}
_FORCES = {"N": _NEWTON, "kN": 1000 * _NEWTON, "lbf": _POUND_FORCE}
_PRESSURES = {
    "Pa": _PASCAL,
    "kPa": 10**3 * _PASCAL,
    "MPa": 10**6 * _PASCAL,
    "GPa": 10**9 * _PASCAL,
    "psi": _POUND_FORCE / _INCH**2,
}


def _table(*groups: tuple[Mapping[str, Fraction], Dimensionality]) -> Mapping[str, Unit]:
    return MappingProxyType(
        {sign: Unit(sign, factor, kind) for group, kind in groups for sign, factor in group.items()}
    )


UNITS: Mapping[str, Unit] = _table(
    (_LENGTHS, LENGTH),
    (_ANGLES, ANGLE),
    (_MASSES, MASS),
    (_FORCES, FORCE),
    (_PRESSURES, PRESSURE),
    ({"s": Fraction(1)}, TIME),
    ({"%": Fraction(1, 100)}, SCALAR),
)
"""Every unit of the formula language by its sign. Signs are case-sensitive, as in the SI."""

INCH = float(_INCH)
"""Nanometres in an inch."""
MILLIMETRE = float(_LENGTHS["mm"])
"""Nanometres in a millimetre."""

USUAL_UNIT: Mapping[Dimensionality, str] = MappingProxyType(
    {LENGTH: "mm", ANGLE: "deg", MASS: "kg", FORCE: "N", PRESSURE: "MPa", TIME: "s"}
)
"""The unit that is proposed where an author forgot one."""

_WORDS: Mapping[Dimensionality, str] = MappingProxyType(
    {
        SCALAR: "a plain number",
        LENGTH: "a length",
        AREA: "an area",
        VOLUME: "a volume",
        ANGLE: "an angle",
        MASS: "a mass",
        TIME: "a time",
        FORCE: "a force",
        TORQUE: "a moment",
        PRESSURE: "a pressure",
        DENSITY: "a density",
        ACCELERATION: "an acceleration",
        STIFFNESS: "a force for each length",
        INERTIA: "a moment of inertia",
    }
)


def in_words(kind: Dimensionality) -> str:
    """`a length`, `a force`; for what has no name of its own, `a quantity in kg mm/s²`."""
    return _WORDS.get(kind) or f"a quantity in {base_signs(kind)}"


def base_signs(kind: Dimensionality) -> str:
    """The coherent unit by its signs, metre for length: `kg m²/s³`."""
    exponents = {"kg": kind.mass, "m": kind.length, "s": kind.time, "deg": kind.angle}
    over = " ".join(_powered(sign, exponent) for sign, exponent in exponents.items() if exponent > 0)
    under = " ".join(_powered(sign, -exponent) for sign, exponent in exponents.items() if exponent < 0)
    return f"{over or '1'}/{under}" if under else over


def _powered(sign: str, exponent: int) -> str:
    return sign if exponent == 1 else f"{sign}{str(exponent).translate(_RAISED)}"
