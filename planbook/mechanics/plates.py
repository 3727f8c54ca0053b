"""Plates that lie on all four edges, free to turn there: sag and stress in the middle.

A board on two ends is a strip, see `beams`. A panel in a frame or a shelf on four cleats is a plate, several times as
stiff. The series are those of M. Lévy (even load) and of Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells,
articles 30 and 34 (from memory); tests hold them against the tables of Roark and against Navier's double series.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from planbook.measure.dimensionality import FORCE, LENGTH, PRESSURE, SCALAR
from planbook.mechanics.calculator import Calculator, Input, OutOfRange, Output, above_zero, not_negative, size

_TERMS = 40


def _rigidity(thickness: float, modulus: float, poisson: float) -> float:
    """Stiffness of a plate against bending, for each width: E h^3 / (12 (1 - v^2))."""
    return modulus * thickness**3 / (12 * (1 - poisson * poisson))


def _waves(short: float, long: float) -> Iterator[tuple[int, float, float, float]]:
    """Of each odd wave over the short side: its number, sign in the middle, a = m pi long / (2 short), 1 / cosh a.

    Raises OutOfRange when the sides are given the wrong way round.
    """
    if short > long:
        raise OutOfRange("The short side of the plate is longer than its long side.", "Exchange the two sides.")
    for wave in range(1, 2 * _TERMS, 2):
        ratio = wave * math.pi * long / (2 * short)
        fading = 2 * math.exp(-ratio) / (1 + math.exp(-2 * ratio))
        yield wave, (-1.0) ** ((wave - 1) // 2), ratio, fading


def plate_sag_even(load: float, short: float, long: float, thickness: float, modulus: float, poisson: float) -> float:
    """Sag in the middle under an even load on the area.

    4 p b^4 / (pi^5 D) * sum over odd m of +-1/m^5 (1 - (a tanh a + 2) / (2 cosh a)).
    """
    shape = sum(
        sign / wave**5 * (1 - (ratio * math.tanh(ratio) + 2) / 2 * fading)
        for wave, sign, ratio, fading in _waves(short, long)
    )
    return 4 * load * short**4 / (math.pi**5 * _rigidity(thickness, modulus, poisson)) * shape


def plate_sag_middle(
    force: float, short: float, long: float, thickness: float, modulus: float, poisson: float
) -> float:
    """Sag under a force in the middle: P b^2 / (2 pi^3 D) * sum over odd m of 1/m^3 (tanh a - a / cosh^2 a)."""
    shape = sum(
        (math.tanh(ratio) - ratio * fading * fading) / wave**3 for wave, _, ratio, fading in _waves(short, long)
    )
    return force * short**2 / (2 * math.pi**3 * _rigidity(thickness, modulus, poisson)) * shape


def plate_stress_even(load: float, short: float, long: float, thickness: float, poisson: float) -> float:
    """Greatest stress under an even load, in the middle, over the short side: 6 M / h^2.

    M = 4 p b^2 / pi^3 * sum over odd m of +-1/m^3 (1 - (a tanh a + 2) / (2 cosh a) + v a tanh a / (2 cosh a)).
    """
    shape = sum(
        sign / wave**3 * (1 - ((1 - poisson) * ratio * math.tanh(ratio) + 2) / 2 * fading)
        for wave, sign, ratio, fading in _waves(short, long)
    )
    return 24 * load * short**2 / (math.pi**3 * thickness**2) * shape


_ROARK = "Roark's Formulas for Stress and Strain, table 11.4, case 1"
_EVEN = not_negative("load", "p", "load for each area", PRESSURE)
_SIDES = (
    size("short", "b", "short side between the supports"),
    size("long", "a", "long side between the supports"),
    size("thickness", "h", "thickness"),
)
_MODULUS = above_zero("modulus", "E", "modulus of elasticity", PRESSURE)
_POISSON = Input("poisson", "ν", "Poisson's ratio", SCALAR, 0.0, 0.5)
_PANEL = (
    "all four edges lie on something and are held down at the corners; a panel as stiff along as across "
    "(fibreboard, plywood roughly: take the lesser of its two moduli); sag at most half the thickness; for years "
    "multiply by creep"
)

PLATES = (
    Calculator(
        "plate_sag_even", "Sag of a panel on four edges under an even load", (_EVEN, *_SIDES, _MODULUS, _POISSON),
        Output("f", "sag", LENGTH), "f = α · p · b⁴ / (E · h³), α from a / b and ν by Lévy's series", _ROARK, _PANEL,
        plate_sag_even,
    ),
    Calculator(
        "plate_sag_middle", "Sag of a panel on four edges under a force in the middle",
        (not_negative("force", "P", "force", FORCE), *_SIDES, _MODULUS, _POISSON), Output("f", "sag", LENGTH),
        "f = α · P · b² / (E · h³), α from a / b and ν by Lévy's series", _ROARK, _PANEL, plate_sag_middle,
    ),
    Calculator(
        "plate_stress_even", "Stress of a panel on four edges under an even load", (_EVEN, *_SIDES, _POISSON),
        Output("σ", "stress", PRESSURE), "σ = β · p · b² / h², β from a / b and ν by Lévy's series", _ROARK,
        f"{_PANEL}; compare with an allowable stress, never with a breaking strength", plate_stress_even,
    ),
)  # fmt: skip
