"""Springs, and rollers that springs press into a notch."""

from __future__ import annotations

import math

from planbook.measure.degrees import arc_sine, arc_tangent, tangent
from planbook.measure.dimensionality import ANGLE, FORCE, LENGTH, PRESSURE, SCALAR, STIFFNESS
from planbook.mechanics.calculator import (
    Calculator,
    OutOfRange,
    Output,
    above_zero,
    friction,
    not_negative,
    size,
    slope,
)

_DESIGN = "Bhandari, Design of Machine Elements, chapter 10: helical springs"


def spring_rate(wire: float, coil: float, turns: float, shear: float) -> float:
    """Force of a coil spring for each length it is pressed: G d^4 / (8 D^3 n)."""
    if coil <= wire:
        raise OutOfRange(
            "The coil's mean diameter is not greater than its wire.", "Give the mean diameter: outside less one wire."
        )
    return shear * wire**4 / (8 * coil**3 * turns)


def spring_force(rate: float, pressed: float) -> float:
    """Force of a spring that is pressed by so much: rate times length."""
    return rate * pressed


def detent_release(spring: float, angle: float, rubbing: float) -> float:
    """Force along the way that drives a spring-loaded roller out of a notch: F tan(slope + arctan friction)."""
    driven = angle + arc_tangent(rubbing)
    if driven >= 90:
        raise OutOfRange(
            f"A notch whose side stands at {angle:.0f} degrees does not let go at a friction of {rubbing:.2f}.",
            "Make the notch's sides flatter.",
        )
    return spring * tangent(driven)


def notch_depth(radius: float, width: float) -> float:
    """How far a roller that lies in a notch with sharp edges retracts to leave it: r - sqrt(r^2 - (w / 2)^2)."""
    half = _half(radius, width)
    return radius - math.sqrt(radius * radius - half * half)


def notch_slope(radius: float, width: float) -> float:
    """Degrees of the slope with which that roller leaves: where it lies on the edge, arcsin(w / (2 r))."""
    return arc_sine(_half(radius, width) / radius)


def _half(radius: float, width: float) -> float:
    if width >= 2 * radius:
        raise OutOfRange(
            "The notch is as wide as the roller: it lies in it to its axis or on its floor, and cannot be driven out.",
            "Make the notch narrower than the roller is thick.",
        )
    return width / 2


_ROLLER = size("radius", "r", "radius of the roller")
_NOTCH = size("width", "w", "width of the notch")

SPRINGS = (
    Calculator(
        "spring_rate", "Rate of a coil spring",
        (size("wire", "d", "wire"), size("coil", "D", "mean diameter of the coil"),
         above_zero("turns", "n", "turns that give", SCALAR), above_zero("shear", "G", "shear modulus", PRESSURE)),
        Output("k", "force for each length", STIFFNESS), "k = G · d⁴ / (8 · D³ · n)", _DESIGN,
        "round wire, pressed within its limit; music wire 79 to 83 GPa in makers' tables", spring_rate,
    ),
    Calculator(
        "spring_force", "Force of a spring",
        (above_zero("rate", "k", "rate", STIFFNESS), not_negative("pressed", "x", "pressed by", LENGTH)),
        Output("F", "force", FORCE), "F = k · x", "Hooke's law", "within its limit", spring_force,
    ),
    Calculator(
        "detent_release", "Force that drives a spring-loaded roller out of its notch",
        (not_negative("spring", "F", "force of the spring", FORCE), slope(), friction()),
        Output("R", "force along the way", FORCE), "R = F · tan(α + arctan μ)",
        "Machinery's Handbook, mechanics: inclined plane",
        "the notch's side is straight; the roller's guide has no friction",
        detent_release,
    ),
    Calculator(
        "notch_depth", "How far a spring-loaded roller retracts to leave its notch", (_ROLLER, _NOTCH),
        Output("d", "way of the roller", LENGTH), "d = r − √(r² − (w / 2)²)", "geometry: a chord of a circle",
        "the notch's edges are sharp, and it is deeper than the roller reaches in", notch_depth,
    ),
    Calculator(
        "notch_slope", "Slope with which a spring-loaded roller leaves its notch", (_ROLLER, _NOTCH),
        Output("α", "slope", ANGLE), "α = arcsin(w / (2 · r))", "geometry: a chord of a circle",
        "the notch's edges are sharp; it is steepest at first", notch_slope,
    ),
)  # fmt: skip
