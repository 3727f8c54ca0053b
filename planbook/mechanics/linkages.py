"""Four-bar and scissor linkages by position."""

from __future__ import annotations

import math

from planbook.measure.degrees import arc_cosine, cosine, direction, sine, tangent
from planbook.measure.dimensionality import ANGLE, FORCE, LENGTH, SCALAR
from planbook.measure.quantity import Quantity
from planbook.measure.writing import written_in_both
from planbook.mechanics.calculator import Calculator, Input, OutOfRange, Output, not_negative, size, turn

_TEXTBOOK = "Constans, Dyer, Sangelkar, A New Method for Teaching the Fourbar Linkage (ASEE 2019): law of cosines"


def four_bar_angle(ground: float, crank: float, coupler: float, rocker: float, turned: float) -> float:
    """Degrees of the rocker over the line from the crank's pivot to its own, open configuration.

    The coupler closes a triangle with the diagonal from the crank's pin to the rocker's pivot (law of cosines);
    in the open configuration crank and rocker do not cross.
    """
    x, y = ground - crank * cosine(turned), -crank * sine(turned)
    diagonal = math.hypot(x, y)
    if diagonal == 0 or not abs(coupler - rocker) <= diagonal <= coupler + rocker:
        raise OutOfRange(
            f"The linkage does not close at {turned:.1f} degrees: coupler and rocker do not span the "
            f"{written_in_both(Quantity(diagonal, LENGTH), 4)} between their far pins.",
            "Change a link's length, or keep the crank within the turn where it closes.",
        )
    at_rocker = arc_cosine((diagonal**2 + rocker**2 - coupler**2) / (2 * diagonal * rocker))
    return (direction(-y, -x) - at_rocker) % 360


def four_bar_transmission(ground: float, crank: float, coupler: float, rocker: float, turned: float) -> float:
    """Degrees between coupler and rocker, from 0 to 90: far from 90 the rocker is pulled along itself and sticks."""
    squared = ground**2 + crank**2 - 2 * ground * crank * cosine(turned)
    four_bar_angle(ground, crank, coupler, rocker, turned)
    between = arc_cosine((coupler**2 + rocker**2 - squared) / (2 * coupler * rocker))
    return min(between, 180 - between)


def scissor_height(arm: float, stages: float, angle: float) -> float:
    """Height of a scissor of `stages` crossed pairs whose arms stand at `angle` over the level: n l sin(angle)."""
    return stages * arm * sine(angle)


def scissor_push(load: float, stages: float, angle: float) -> float:
    """Level force that draws the feet of a loaded scissor together: n W / tan(angle), by its work."""
    return stages * load / tangent(angle)


_LINKS = (
    size("ground", "d", "between the fixed pivots"),
    size("crank", "a", "crank"),
    size("coupler", "b", "coupler"),
    size("rocker", "c", "rocker"),
    turn("turned", "θ", "crank over the line of the pivots"),
)
_STAGES = Input("stages", "n", "crossed pairs", SCALAR, 1.0, 50.0, whole=True)
_LEAN = Input("angle", "φ", "arms over the level", ANGLE, 0.0, 90.0, open_ended=True)

LINKAGES = (
    Calculator(
        "four_bar_angle", "Angle of the rocker of a four-bar linkage", _LINKS, Output("ψ", "rocker", ANGLE),
        "ψ from d, a, b, c and θ by the law of cosines", _TEXTBOOK,
        "the open configuration: crank and rocker do not cross",
        four_bar_angle,
    ),
    Calculator(
        "four_bar_transmission", "Transmission angle of a four-bar linkage", _LINKS,
        Output("μ", "transmission angle", ANGLE), "cos μ = (b² + c² − d² − a² + 2 · d · a · cos θ) / (2 · b · c)",
        _TEXTBOOK, "keep it over 40 degrees (common practice, no source)", four_bar_transmission,
    ),
    Calculator(
        "scissor_height", "Height of a scissor", (size("arm", "l", "arm, pin to pin"), _STAGES, _LEAN),
        Output("h", "height", LENGTH), "h = n · l · sin φ", "geometry", "all arms are alike", scissor_height,
    ),
    Calculator(
        "scissor_push", "Level force that raises a scissor",
        (not_negative("load", "W", "load on top", FORCE), _STAGES, _LEAN),
        Output("F", "force between the feet", FORCE), "F = n · W / tan φ", "statics, by the work of both forces",
        "no friction; the scissor's own weight is left out", scissor_push,
    ),
)  # fmt: skip
