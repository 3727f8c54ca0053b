"""Guides: tilt from clearance, when they bind, and how far a tongue pulls edges level."""

from __future__ import annotations

from planbook.measure.degrees import arc_tangent
from planbook.measure.dimensionality import ANGLE, LENGTH
from planbook.mechanics.calculator import Calculator, OutOfRange, Output, friction, size, span


def bush_tilt(clearance: float, guide: float) -> float:
    """Degrees that a shaft can lean in a bush: arctan(clearance on the diameter / length of the bush)."""
    return arc_tangent(clearance / guide)


def bush_sway(clearance: float, guide: float, reach: float) -> float:
    """How far a point at `reach` from the middle of the bush sways to one side.

    A shaft that leans as far as it can, by c / l, passes the middle of the bush in the axis: (c / l) reach.
    """
    return clearance / guide * reach


def guide_binds(guide: float, rubbing: float) -> float:
    """Greatest offset of a push from the guide's axis at which it still slides: l / (2 friction).

    A push P at offset e turns the slide; the guide's ends press with P e / l each and rub; it jams when
    2 friction P e / l reaches P.
    """
    return guide / (2 * rubbing)


def tongue_step(tongue: float, groove: float) -> float:
    """Greatest step between edges that a tongue in a groove pulls level: all of the play across the tongue.

    With the tongue against one side the edges are off by half of the play, against the other side by half the other
    way; two boards that meet can be off by the whole.
    """
    if groove < tongue:
        raise OutOfRange(
            "The tongue is wider than its groove: it does not go in.", "Make the groove wider or the tongue narrower."
        )
    return groove - tongue


GUIDES = (
    Calculator(
        "bush_tilt", "How far a shaft leans in its bush",
        (span("clearance", "c", "clearance on the diameter"), size("guide", "l", "length of the bush")),
        Output("δ", "lean", ANGLE), "δ = arctan(c / l)", "geometry", "shaft and bush are straight", bush_tilt,
    ),
    Calculator(
        "bush_sway", "How far a point sways in its guide",
        (span("clearance", "c", "clearance on the diameter"), size("guide", "l", "length of the bush"),
         span("reach", "a", "from the middle of the bush")),
        Output("y", "sway to one side", LENGTH), "y = c / l · a", "geometry", "shaft and bush are straight", bush_sway,
    ),
    Calculator(
        "guide_binds", "Offset at which a guided slide binds",
        (size("guide", "l", "length of the guide"), friction()), Output("e", "greatest offset of the push", LENGTH),
        "e = l / (2 · μ)", "statics: friction at both ends of a guide",
        "the push is parallel to the guide; two ends bear",
        guide_binds,
    ),
    Calculator(
        "tongue_step", "Step left by a tongue in its groove",
        (size("tongue", "t", "width of the tongue"), size("groove", "g", "width of the groove")),
        Output("s", "greatest step", LENGTH), "s = g − t", "geometry",
        "the next pair may lie against the other side of its groove", tongue_step,
    ),
)  # fmt: skip
