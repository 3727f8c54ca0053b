"""Weight, centre of gravity and tipping."""

from __future__ import annotations

from planbook.measure.dimensionality import FORCE, LENGTH, MASS, SCALAR
from planbook.mechanics.calculator import Calculator, Input, Output, not_negative, size

STANDARD_GRAVITY = 9.80665e9
"""Nanometres for each square second (NIST SP 811, appendix B.8)."""
_STATICS = "statics: moments about the edge that it tips over"
_WEIGHT = not_negative("weight", "W", "weight", FORCE)
_INSIDE = not_negative("inside", "a", "from the tipping edge to under the centre of gravity", LENGTH)


def weight_of(mass: float) -> float:
    """Weight of a mass: 9.80665 m/s2."""
    return mass * STANDARD_GRAVITY


def centre_of_two(first: float, first_at: float, second: float, second_at: float) -> float:
    """Where two masses balance, along one line."""
    return (first * first_at + second * second_at) / (first + second)


def tip_pull(weight: float, inside: float, height: float) -> float:
    """Level pull at a height that begins to tip the piece: W a / h."""
    return weight * inside / height


def tip_load(weight: float, inside: float, outside: float) -> float:
    """Load outside the tipping edge that begins to tip the piece: W a / b."""
    return weight * inside / outside


def tip_angle_share(inside: float, height: float) -> float:
    """Slope of the floor, rise over run, on which the piece tips by itself: a / h of its centre of gravity."""
    return inside / height


STABILITY = (
    Calculator(
        "weight_of", "Weight of a mass", (not_negative("mass", "m", "mass", MASS),), Output("W", "weight", FORCE),
        "W = m · 9.80665 m/s²", "NIST SP 811, appendix B.8", "standard gravity", weight_of,
    ),
    Calculator(
        "centre_of_two", "Where two masses balance",
        (not_negative("first", "m₁", "first mass", MASS), Input("first_at", "x₁", "where it is", LENGTH),
         not_negative("second", "m₂", "second mass", MASS), Input("second_at", "x₂", "where it is", LENGTH)),
        Output("x", "centre", LENGTH), "x = (m₁ · x₁ + m₂ · x₂) / (m₁ + m₂)", "statics", "along one line",
        centre_of_two,
    ),
    Calculator(
        "tip_pull", "Level pull that begins to tip the piece",
        (_WEIGHT, _INSIDE, size("height", "h", "height of the pull")), Output("F", "pull", FORCE), "F = W · a / h",
        _STATICS, "it does not slide first; level floor. It does not replace a test", tip_pull,
    ),
    Calculator(
        "tip_load", "Load on the edge that begins to tip the piece",
        (_WEIGHT, _INSIDE, size("outside", "b", "from the tipping edge out to the load")),
        Output("F", "load", FORCE), "F = W · a / b", _STATICS, "level floor. It does not replace a test", tip_load,
    ),
    Calculator(
        "tip_angle_share", "Slope of the floor on which the piece tips",
        (_INSIDE, size("height", "h", "height of the centre of gravity")), Output("i", "rise over run", SCALAR),
        "i = a / h", _STATICS, "it does not slide first", tip_angle_share,
    ),
)  # fmt: skip
