"""Ramps, straight and along an arc: slope, force, self-locking, and what a roller needs at the foot."""

from __future__ import annotations

import math

from planbook.measure.degrees import arc_tangent, cosine, sine, tangent
from planbook.measure.dimensionality import ANGLE, FORCE, LENGTH, SCALAR, TORQUE
from planbook.mechanics.calculator import (
    Calculator,
    Input,
    OutOfRange,
    Output,
    friction,
    not_negative,
    size,
    slope,
    span,
)

MACHINERY = "Machinery's Handbook, mechanics: inclined plane"
_LOAD = not_negative("load", "W", "load that is lifted", FORCE)
_RUN = Input("turn", "θ", "turn of the arc", ANGLE, 0.0, 360.0, open_ended=True)


def ramp_slope(rise: float, run: float) -> float:
    """Degrees of a straight ramp: arctan(rise / run)."""
    return arc_tangent(rise / run)


def ramp_push(load: float, angle: float, rubbing: float) -> float:
    """Level force that drives a ramp under a load, or a load up a ramp: W tan(slope + arctan friction)."""
    raised = angle + arc_tangent(rubbing)
    if raised >= 90:
        raise OutOfRange(
            f"No level push raises a load up a slope of {angle:.1f} degrees at a friction of {rubbing:.2f}: it jams.",
            "Make the ramp flatter or let the load roll.",
        )
    return load * tangent(raised)


def ramp_pull(load: float, angle: float, rubbing: float) -> float:
    """Force along the slope that draws a load up: W (sin slope + friction cos slope)."""
    return load * (sine(angle) + rubbing * cosine(angle))


def ramp_hold(load: float, angle: float, rubbing: float) -> float:
    """Level force that keeps a load from running down: W tan(slope - arctan friction).

    Less than 0 where the ramp holds by itself: so much it takes to bring the load down.
    """
    return load * tangent(angle - arc_tangent(rubbing))


def friction_angle(rubbing: float) -> float:
    """Degrees of the steepest slope on which a load stays by itself: arctan friction."""
    return arc_tangent(rubbing)


def ramp_efficiency(angle: float, rubbing: float) -> float:
    """Share of the work that lifts, drawn along the slope: sin / (sin + friction cos)."""
    return sine(angle) / (sine(angle) + rubbing * cosine(angle))


def arc_length(radius: float, turned: float) -> float:
    """Length of an arc: radius times angle in radians."""
    return radius * math.radians(turned)


def arc_ramp_slope(rise: float, radius: float, turned: float) -> float:
    """Degrees of a ramp along an arc, where it runs at `radius`: arctan(rise / arc)."""
    return arc_tangent(rise / arc_length(radius, turned))


def arc_ramp_lift(rise: float, ramp_turn: float, turned: float) -> float:
    """Lift after a turn of a ramp that rises evenly over `ramp_turn`; never more than its rise."""
    return rise * min(1.0, max(0.0, turned / ramp_turn))


def arc_ramp_torque(load: float, angle: float, rubbing: float, radius: float) -> float:
    """Torque that turns a ring of ramps under a load: the level push at the radius where they run."""
    return ramp_push(load, angle, rubbing) * radius


def roller_foot(radius: float, angle: float) -> float:
    """Length of flat that a roller in the foot of a ramp stands away from the corner: r tan(slope / 2).

    The roller touches both flat and ramp; its centre is as far from the corner along one as along the other.
    """
    return radius * tangent(angle / 2)


def steepest_for_roller(radius: float, flat: float) -> float:
    """Degrees of the steepest ramp whose foot leaves a roller `flat` to stand on: 2 arctan(flat / r).

    A flat as long as the radius lets the roller stand before a wall: no more than 90.
    """
    return min(90.0, 2 * arc_tangent(flat / radius))


def steepest_for_guide(guide: float, reach: float, rubbing: float) -> float:
    """Degrees of the steepest ramp at which a follower in a guide does not jam.

    The guide of length b takes the side push at a distance a beyond its end; its two ends press with
    P (a + b) / b and P a / b, and rub. It jams where that takes all of the lift: tan slope = b / (friction (2a + b)).
    """
    return arc_tangent(guide / (rubbing * (2 * reach + guide)))


SLOPES = (
    Calculator(
        "ramp_slope", "Slope of a ramp", (size("rise", "h", "rise"), size("run", "s", "run")),
        Output("α", "slope", ANGLE), "α = arctan(h / s)", "geometry", "the ramp is straight", ramp_slope,
    ),
    Calculator(
        "ramp_push", "Level push that raises a load on a ramp", (_LOAD, slope(), friction()),
        Output("P", "level push", FORCE), "P = W · tan(α + arctan μ)", MACHINERY,
        "the load is guided upright without friction; friction is the same all along the ramp", ramp_push,
    ),
    Calculator(
        "ramp_pull", "Pull along the slope that raises a load", (_LOAD, slope(), friction()),
        Output("P", "pull", FORCE), "P = W · (sin α + μ · cos α)", MACHINERY, "the load is drawn along the slope",
        ramp_pull,
    ),
    Calculator(
        "ramp_hold", "Level force that keeps a load from running down", (_LOAD, slope(), friction()),
        Output("H", "holding force", FORCE), "H = W · tan(α − arctan μ)", MACHINERY,
        "less than 0: the ramp holds by itself. Friction that holds today may not tomorrow: wax and shaking lower it",
        ramp_hold,
    ),
    Calculator(
        "friction_angle", "Slope on which a load just stays", (friction(),), Output("ρ", "angle of friction", ANGLE),
        "ρ = arctan μ", MACHINERY, "dry friction (Coulomb)", friction_angle,
    ),
    Calculator(
        "ramp_efficiency", "Share of the work that lifts", (slope(), friction()), Output("η", "efficiency", SCALAR),
        "η = sin α / (sin α + μ · cos α)", MACHINERY, "the load is drawn along the slope", ramp_efficiency,
    ),
    Calculator(
        "arc_length", "Length of an arc", (size("radius", "r", "radius"), _RUN), Output("s", "arc", LENGTH),
        "s = r · θ", "geometry", "θ counts in radians", arc_length,
    ),
    Calculator(
        "arc_ramp_slope", "Slope of a ramp along an arc",
        (size("rise", "h", "rise"), size("radius", "r", "radius where it runs"), _RUN), Output("α", "slope", ANGLE),
        "α = arctan(h / (r · θ))", "geometry: the ramp unrolled", "it rises evenly over its turn", arc_ramp_slope,
    ),
    Calculator(
        "arc_ramp_lift", "Lift after a turn on a ramp along an arc",
        (size("rise", "h", "rise"), _RUN, Input("turned", "φ", "turn so far", ANGLE, 0.0, 360.0)),
        Output("z", "lift", LENGTH), "z = h · φ / θ", "geometry", "it rises evenly over its turn, then is level",
        arc_ramp_lift,
    ),
    Calculator(
        "arc_ramp_torque", "Torque that turns a ring of ramps under a load",
        (_LOAD, slope(), friction(), size("radius", "r", "radius where the ramps run")),
        Output("M", "torque", TORQUE), "M = W · tan(α + arctan μ) · r", MACHINERY,
        "the ramps share the load and are alike", arc_ramp_torque,
    ),
    Calculator(
        "roller_foot", "Flat that a roller leaves before a ramp",
        (size("radius", "r", "radius of the roller"), slope()),
        Output("t", "from the foot to under the roller", LENGTH), "t = r · tan(α / 2)",
        "geometry: tangents to a circle", "the corner at the foot is sharp", roller_foot,
    ),
    Calculator(
        "steepest_for_roller", "Steepest ramp that leaves a roller its flat",
        (size("radius", "r", "radius of the roller"), size("flat", "t", "flat before the foot")),
        Output("α", "steepest slope", ANGLE), "α = 2 · arctan(t / r), 90° at most", "geometry: tangents to a circle",
        "the corner at the foot is sharp", steepest_for_roller,
    ),
    Calculator(
        "steepest_for_guide", "Steepest ramp at which a guide does not jam",
        (size("guide", "b", "length of the guide"), span("reach", "a", "from the guide's end to the ramp"), friction()),
        Output("α", "steepest slope", ANGLE), "α = arctan(b / (μ · (2 · a + b)))",
        "Rothbart, Cam Design Handbook, page 164: forces of a translating roller follower",
        "the guide has play and presses at its two ends; friction at the ramp itself is left out",
        steepest_for_guide,
    ),
)  # fmt: skip
