"""Levers: ratio, exact lift by angle, force and reaction; a lever on a fixed pivot under a plate."""

from __future__ import annotations

from planbook.measure.degrees import cosine, direction, sine, tangent
from planbook.measure.dimensionality import ANGLE, FORCE, LENGTH, SCALAR, TORQUE
from planbook.mechanics.calculator import Calculator, Input, OutOfRange, Output, not_negative, size, span, turn

_TEXTBOOK = "OpenStax, College Physics: simple machines"
_EFFORT = size("effort_arm", "a", "from the pivot to the hand")
_ARM = size("load_arm", "b", "from the pivot to the load")


def lever_ratio(effort_arm: float, load_arm: float) -> float:
    """How many times the load's travel is the hand's, and the hand's force the load's share: a / b."""
    return effort_arm / load_arm


def lever_effort(load: float, effort_arm: float, load_arm: float) -> float:
    """Force at the hand, square to the arm as the load is: W b / a."""
    return load * load_arm / effort_arm


def lever_reaction(load: float, effort_arm: float, load_arm: float) -> float:
    """Force on the pivot of a lever with the pivot between hand and load: W (1 + b / a)."""
    return load * (1 + load_arm / effort_arm)


def lever_reaction_one_side(load: float, effort_arm: float, load_arm: float) -> float:
    """Force on the pivot of a lever with hand and load on one side of it: W |1 - b / a|; it presses down on the pivot
    where the load is nearer to it, and lifts from it where the hand is.
    """
    return load * abs(1 - load_arm / effort_arm)


def lever_lift(arm: float, start: float, end: float) -> float:
    """Rise of the point at `arm` from the pivot, angles over the level: arm (sin end - sin start)."""
    return arm * (sine(end) - sine(start))


def lever_shift(arm: float, start: float, end: float) -> float:
    """How far that point moves towards the pivot, level: arm (cos start - cos end)."""
    return arm * (cosine(start) - cosine(end))


def lever_under_plate(offset: float, angle: float) -> float:
    """Height over a fixed pivot of a plate's point that stands `offset` beside the pivot and rests on a straight lever.

    The plate goes straight up, so the place of contact slides along the lever: offset tan(angle).
    """
    if abs(angle) >= 90:
        raise OutOfRange(
            f"A lever at {angle:.0f} degrees stands upright: no plate rests on it.",
            "Keep the lever's angle between -90 and 90 degrees.",
        )
    return offset * tangent(angle)


def lever_turns_plate(hinge_away: float, below: float, arm: float, angle: float) -> float:
    """Degrees over the level of a hinged plate that rests on a lever's tip: arctan((r sin - h) / (d + r cos)).

    The lever's pivot lies `hinge_away` from the hinge and `below` it; the lever points away from the hinge at 0,
    towards it at 180 degrees. The tip slides along the plate's underside, which runs through the hinge.
    """
    out, up = hinge_away + arm * cosine(angle), arm * sine(angle) - below
    if out <= 0:
        raise OutOfRange(
            f"At {angle:.0f} degrees the lever's tip does not stand under the plate, but behind its hinge.",
            "Move the lever's pivot away from the hinge, or make the lever shorter.",
        )
    return direction(up, out)


def lever_doubling(lift: float, lifted_at: float, tip_at: float) -> float:
    """Rise of a lever's tip that is lifted by `lift` nearer to its pivot: in the ratio of the arms."""
    return lift * tip_at / lifted_at


def lid_torque(weight: float, depth: float, angle: float) -> float:
    """Torque that holds a lid, hinged at its edge and open by `angle` over the level: W depth / 2 cos(angle)."""
    return weight * depth / 2 * cosine(angle)


def counterweight(load: float, load_arm: float, weight_arm: float) -> float:
    """Force of the weight that balances a load over a pivot: W b / c."""
    return load * load_arm / weight_arm


LEVERS = (
    Calculator(
        "lever_ratio", "Ratio of a lever", (_EFFORT, _ARM), Output("i", "ratio", SCALAR), "i = a / b", _TEXTBOOK,
        "the lever is stiff", lever_ratio,
    ),
    Calculator(
        "lever_effort", "Force at the hand of a lever",
        (not_negative("load", "W", "load", FORCE), _EFFORT, _ARM), Output("F", "force at the hand", FORCE),
        "F = W · b / a", _TEXTBOOK, "both forces are square to the lever; the pivot has no friction", lever_effort,
    ),
    Calculator(
        "lever_reaction", "Force on the pivot of a lever",
        (not_negative("load", "W", "load", FORCE), _EFFORT, _ARM), Output("R", "force on the pivot", FORCE),
        "R = W · (1 + b / a)", _TEXTBOOK, "the pivot lies between hand and load; both forces are square to the lever",
        lever_reaction,
    ),
    Calculator(
        "lever_reaction_one_side", "Force on the pivot of a lever with hand and load on one side",
        (not_negative("load", "W", "load", FORCE), _EFFORT, _ARM), Output("R", "force on the pivot", FORCE),
        "R = W · |1 − b / a|", "statics", "hand and load lie on one side of the pivot; both forces are square to the "
        "lever; with the hand nearer to the pivot, the lever lifts from it", lever_reaction_one_side,
    ),
    Calculator(
        "lever_lift", "Rise of a point of a lever",
        (size("arm", "r", "from the pivot"), turn("start", "φ₁", "angle over the level before"),
         turn("end", "φ₂", "angle over the level after")),
        Output("z", "rise", LENGTH), "z = r · (sin φ₂ − sin φ₁)", "geometry", "the pivot stays where it is", lever_lift,
    ),
    Calculator(
        "lever_shift", "How far a point of a lever moves towards its pivot",
        (size("arm", "r", "from the pivot"), turn("start", "φ₁", "angle over the level before"),
         turn("end", "φ₂", "angle over the level after")),
        Output("x", "shift", LENGTH), "x = r · (cos φ₁ − cos φ₂)", "geometry", "the pivot stays where it is",
        lever_shift,
    ),
    Calculator(
        "lever_under_plate", "Height of a plate on a lever",
        (size("offset", "d", "from the pivot to under the plate's point"),
         Input("angle", "φ", "lever over the level", ANGLE)),
        Output("z", "height over the pivot", LENGTH), "z = d · tan φ", "geometry",
        "the lever's edge is straight and runs through its pivot; the plate goes straight up", lever_under_plate,
    ),
    Calculator(
        "lever_turns_plate", "Angle of a hinged plate on a lever",
        (span("hinge_away", "d", "from the plate's hinge to the lever's pivot, level"),
         Input("below", "h", "from the hinge down to the pivot", LENGTH), size("arm", "r", "from the pivot to the tip"),
         turn("angle", "φ", "lever over the level, 0 away from the hinge")),
        Output("ψ", "plate over the level", ANGLE), "ψ = arctan((r · sin φ − h) / (d + r · cos φ))", "geometry",
        "the tip is sharp and slides along the plate's underside, which runs through the hinge", lever_turns_plate,
    ),
    Calculator(
        "lever_doubling", "Rise of a lever's tip that is lifted nearer to its pivot",
        (not_negative("lift", "z", "lift where it is lifted", LENGTH),
         size("lifted_at", "p", "from the pivot to there"), size("tip_at", "q", "from the pivot to the tip")),
        Output("z₂", "rise of the tip", LENGTH), "z₂ = z · q / p", "geometry: similar triangles",
        "pivot, lifted point and tip stand in one straight line", lever_doubling,
    ),
    Calculator(
        "lid_torque", "Torque that holds an open lid",
        (not_negative("weight", "W", "weight of the lid", FORCE), size("depth", "d", "from the hinge to the front"),
         turn("angle", "φ", "angle over the level")),
        Output("M", "torque", TORQUE), "M = W · d / 2 · cos φ", "statics", "the lid is evenly heavy", lid_torque,
    ),
    Calculator(
        "counterweight", "Force of a weight that balances a load",
        (not_negative("load", "W", "load", FORCE), _ARM, size("weight_arm", "c", "from the pivot to the weight")),
        Output("G", "force of the weight", FORCE), "G = W · b / c", "statics", "both hang straight down",
        counterweight,
    ),
)  # fmt: skip
