"""Screws in wood as far as published formulas go; pins that bend, rollers that press."""

from __future__ import annotations

import math

from planbook.measure.dimensionality import FORCE, LENGTH, PRESSURE, SCALAR
from planbook.mechanics.calculator import Calculator, Input, Output, above_zero, not_negative, size

_NEWTON, _MILLIMETRE = 1e9, 1e6
"""In base units, for formulas that are published in newtons and millimetres."""
_HANDBOOK = "Wood Handbook (FPL-GTR-282), chapter 8"
_GRAVITY = Input("gravity", "G", "specific gravity of the wood", SCALAR, 0.2, 1.2)
_DIAMETER = size("diameter", "D", "diameter of the shank")
_DEPTH = size("depth", "L", "depth of thread in the wood")


def screw_withdrawal(gravity: float, diameter: float, depth: float) -> float:
    """Force that pulls a wood screw out of side grain, at breaking: 108.25 G^2 D L (newton, millimetre)."""
    return 108.25 * gravity**2 * (diameter / _MILLIMETRE) * (depth / _MILLIMETRE) * _NEWTON


def lag_withdrawal(gravity: float, diameter: float, depth: float) -> float:
    """Force that pulls a lag screw out of side grain, at breaking: 125.4 G^1.5 D^0.75 L (newton, millimetre)."""
    return 125.4 * math.pow(gravity, 1.5) * math.pow(diameter / _MILLIMETRE, 0.75) * (depth / _MILLIMETRE) * _NEWTON


def pin_sag(force: float, length: float, diameter: float, modulus: float) -> float:
    """Bend of a round pin's free end under a force there: P L^3 / (3 E I), I = pi d^4 / 64."""
    return force * length**3 / (3 * modulus * math.pi * diameter**4 / 64)


def pin_stress(force: float, length: float, diameter: float) -> float:
    """Greatest stress of that pin: 32 P L / (pi d^3)."""
    return 32 * force * length / (math.pi * diameter**3)


def bearing_pressure(force: float, width: float, length: float) -> float:
    """Pressure of a pin on the wood of its hole, over its projected area: P / (d t)."""
    return force / (width * length)


def roller_pressure(force: float, radius: float, width: float, modulus: float) -> float:
    """Greatest pressure under a roller on a flat: sqrt(P E / (2 pi r b (1 - 0.3^2))), that is 0.418 sqrt(P E / (r b)).

    Hertz's line contact with E = 2 E1 E2 / (E1 + E2) as the modulus and 0.3 as Poisson's ratio; for a roller far
    harder than the floor take twice the floor's modulus.
    """
    return 0.418 * math.sqrt(force * modulus / (radius * width))


FASTENERS = (
    Calculator(
        "screw_withdrawal", "Force that pulls a wood screw out", (_GRAVITY, _DIAMETER, _DEPTH),
        Output("p", "force at breaking", FORCE), "p = 108.25 · G² · D · L (newton, millimetre)",
        f"{_HANDBOOK}, wood screws",
        "side grain, dry wood, lead holes as the handbook asks; a load in use is a fifth of it or less",
        screw_withdrawal,
    ),
    Calculator(
        "lag_withdrawal", "Force that pulls a lag screw out", (_GRAVITY, _DIAMETER, _DEPTH),
        Output("p", "force at breaking", FORCE), "p = 125.4 · G^1.5 · D^0.75 · L (newton, millimetre)",
        f"{_HANDBOOK}, lag screws",
        "side grain, dry wood, lead holes as the handbook asks; a load in use is a fifth of it or less", lag_withdrawal,
    ),
    Calculator(
        "pin_sag", "Bend of a pin held at one end",
        (not_negative("force", "P", "force at the free end", FORCE), size("length", "L", "free length"),
         size("diameter", "d", "diameter"), above_zero("modulus", "E", "modulus of elasticity", PRESSURE)),
        Output("f", "bend", LENGTH), "f = P · L³ / (3 · E · π · d⁴ / 64)",
        "American Wood Council, Design Aid No. 6: Beam Formulas", "the wood holds it as in a vice; steel about 205 GPa",
        pin_sag,
    ),
    Calculator(
        "pin_stress", "Stress of a pin held at one end",
        (not_negative("force", "P", "force at the free end", FORCE), size("length", "L", "free length"),
         size("diameter", "d", "diameter")),
        Output("σ", "stress", PRESSURE), "σ = 32 · P · L / (π · d³)",
        "American Wood Council, Design Aid No. 6: Beam Formulas", "the wood holds it as in a vice", pin_stress,
    ),
    Calculator(
        "bearing_pressure", "Pressure of a pin in its hole",
        (not_negative("force", "P", "force", FORCE), size("width", "d", "diameter"),
         size("length", "t", "length in the wood")),
        Output("q", "pressure", PRESSURE), "q = P / (d · t)", "common practice, no source",
        "spread evenly over the hole's length", bearing_pressure,
    ),
    Calculator(
        "roller_pressure", "Pressure under a roller",
        (not_negative("force", "P", "force on the roller", FORCE), size("radius", "r", "radius"),
         size("width", "b", "width that bears"), above_zero("modulus", "E", "modulus of both", PRESSURE)),
        Output("p", "greatest pressure", PRESSURE), "p = 0.418 · √(P · E / (r · b))",
        "Hertz, line contact (Jožef Stefan Institute, Medusa: Hertzian contact)",
        "E = 2 · E₁ · E₂ / (E₁ + E₂); wood is not elastic across the grain: a figure for comparing",
        roller_pressure,
    ),
)  # fmt: skip
