"""Turning that pushes slides: crank and rod, arm and slot, spiral; segments that open before they rise."""

from __future__ import annotations

import math

from planbook.measure.degrees import arc_sine, cosine, sine
from planbook.measure.dimensionality import ANGLE, LENGTH, SCALAR
from planbook.mechanics.calculator import Calculator, Input, OutOfRange, Output, size, span, turn

_TEXTBOOK = "MATLAB Essentials, page 77, P2.8: a piston on its crank"
_CRANK = size("crank", "r", "from the axis to the rod's pin")
_ROD = size("rod", "l", "rod, pin to pin")
_TURNED = turn("turned", "θ", "turn from the far dead centre")


def _along(crank: float, rod: float, turned: float) -> float:
    """What the rod takes along the slide's line."""
    beside = crank * sine(turned)
    if abs(beside) > rod:
        raise OutOfRange(
            f"At a turn of {turned:.1f} degrees the rod does not reach from the crank to the slide.",
            "Make the rod at least as long as the crank.",
        )
    return math.sqrt(rod * rod - beside * beside)


def crank_travel(crank: float, rod: float, turned: float) -> float:
    """Travel of the slide that a crank pulls by a rod, from where crank and rod lie stretched in one line.

    r (1 - cos turned) + l - sqrt(l^2 - r^2 sin^2 turned): the slide comes towards the axis.
    """
    return crank * (1 - cosine(turned)) + rod - _along(crank, rod, turned)


def crank_speed(crank: float, rod: float, turned: float) -> float:
    """Travel of the slide for each radian of the crank; torque over force is the same, without friction.

    The derivative of `crank_travel`: r sin (1 + r cos / sqrt(l^2 - r^2 sin^2)).
    """
    along = _along(crank, rod, turned)
    if along == 0:
        raise OutOfRange(
            f"At a turn of {turned:.1f} degrees the rod stands square to the slide, which cannot move.",
            "Make the rod longer than the crank.",
        )
    return crank * sine(turned) * (1 + crank * cosine(turned) / along)


def crank_pressure_angle(crank: float, rod: float, turned: float) -> float:
    """Degrees between the rod and the slide's line: arcsin(r sin turned / l)."""
    _along(crank, rod, turned)
    return arc_sine(crank * sine(turned) / rod)


def slot_travel(arm: float, start: float, end: float) -> float:
    """Travel of a slide whose cross slot a pin on an arm moves; angles from the middle of the stroke: r (sin - sin)."""
    return arm * (sine(end) - sine(start))


def slot_pressure_angle(turned: float) -> float:
    """Degrees between the pin's path and the slide's line in a cross slot: the turn from the middle of the stroke."""
    return abs(turned)


def slot_speed(arm: float, turned: float) -> float:
    """Travel of a slide with a cross slot for each radian of the arm: r cos turned, greatest at mid-stroke."""
    return arm * cosine(turned)


def arm_travel(offset: float, start: float, end: float) -> float:
    """Travel of a slide whose pin runs in the straight slot of a turning arm: h (tan end - tan start).

    The slide's line passes the axis at `offset`; angles from where the arm stands square to that line.
    """
    return offset * (_tangent(end) - _tangent(start))


def arm_speed(offset: float, turned: float) -> float:
    """Travel of such a slide for each radian of the arm: h / cos^2 turned, the derivative of `arm_travel`."""
    return offset * (1 + _tangent(turned) ** 2)


def arm_pressure_angle(turned: float) -> float:
    """Degrees between the push of a slotted arm, square to its slot, and the slide's line: the turn itself."""
    return abs(turned)


def _tangent(degrees: float) -> float:
    return sine(degrees) / cosine(degrees)


def spiral_travel(lead: float, turned: float) -> float:
    """Travel of a slide whose pin runs in a spiral slot of a turning plate: lead times turn over 360 degrees."""
    return lead * turned / 360


def spiral_pressure_angle(lead: float, radius: float) -> float:
    """Degrees between a spiral slot's push and the slide's line where the pin stands at `radius`.

    The slot climbs `lead` in a whole turn; its slope over the circle is arctan(lead / (2 pi radius)), and it pushes
    square to itself.
    """
    return math.degrees(math.atan(lead / (2 * math.pi * radius)))


def segment_gap(travel: float, count: float) -> float:
    """Gap between neighbours of a round plate cut into `count` equal segments that each slide out by `travel`.

    Two neighbours part along directions 360 / count apart; square to the cut between them each moves
    travel sin(180 / count): 2 travel sin(180 / count).
    """
    return 2 * travel * sine(180 / count)


def segment_travel(gap: float, count: float) -> float:
    """How far each of `count` equal segments slides out for a gap: gap / (2 sin(180 / count))."""
    return gap / (2 * sine(180 / count))


_ARM = "geometry: a pin in the slot of a turning arm"
_OFFSET = size("offset", "h", "from the axis to the slide's line")
_SWING = (-90.0, 90.0)
_ARM_TURNED = Input("turned", "θ", "angle of the arm from square to the slide's line", ANGLE, *_SWING, True)
_COUNT = Input("count", "n", "number of segments", SCALAR, 2.0, 100.0, whole=True)

CRANKS = (
    Calculator(
        "crank_travel", "Travel of a slide on a crank's rod", (_CRANK, _ROD, _TURNED), Output("x", "travel", LENGTH),
        "x = r · (1 − cos θ) + l − √(l² − r² · sin² θ)", _TEXTBOOK, "the slide's line runs through the axis",
        crank_travel,
    ),
    Calculator(
        "crank_speed", "Travel of the slide for a turn of one radian", (_CRANK, _ROD, _TURNED),
        Output("v", "travel for each radian", LENGTH), "v = r · sin θ · (1 + r · cos θ / √(l² − r² · sin² θ))",
        _TEXTBOOK, "torque over force is the same, without friction", crank_speed,
    ),
    Calculator(
        "crank_pressure_angle", "Angle between the rod and the slide's line", (_CRANK, _ROD, _TURNED),
        Output("β", "pressure angle", ANGLE), "β = arcsin(r · sin θ / l)", "geometry: law of sines",
        "the slide's line runs through the axis; over 30 degrees a slide of wood tends to bind (common practice, no "
        "source)", crank_pressure_angle,
    ),
    Calculator(
        "slot_travel", "Travel of a slide with a cross slot",
        (size("arm", "r", "from the axis to the pin"), turn("start", "θ₁", "angle from mid-stroke before"),
         turn("end", "θ₂", "angle from mid-stroke after")),
        Output("x", "travel", LENGTH), "x = r · (sin θ₂ − sin θ₁)", "geometry: Scotch yoke",
        "the slot is straight and square to the slide", slot_travel,
    ),
    Calculator(
        "slot_pressure_angle", "Angle between the pin's path and the slide",
        (Input("turned", "θ", "angle from mid-stroke", ANGLE, -90.0, 90.0),), Output("β", "pressure angle", ANGLE),
        "β = |θ|", "geometry: Scotch yoke", "the slot is straight and square to the slide", slot_pressure_angle,
    ),
    Calculator(
        "slot_speed", "Travel of a slide with a cross slot for a turn of one radian",
        (size("arm", "r", "from the axis to the pin"), turn("turned", "θ", "angle from mid-stroke")),
        Output("v", "travel for each radian", LENGTH), "v = r · cos θ", "geometry: Scotch yoke",
        "the slot is straight and square to the slide; torque over force is the same, without friction", slot_speed,
    ),
    Calculator(
        "arm_travel", "Travel of a slide that a slotted arm pushes",
        (_OFFSET, Input("start", "θ₁", "angle of the arm before, from square to the line", ANGLE, *_SWING, True),
         Input("end", "θ₂", "angle of the arm after", ANGLE, *_SWING, True)),
        Output("x", "travel", LENGTH), "x = h · (tan θ₂ − tan θ₁)", _ARM, "the slot points at the axis", arm_travel,
    ),
    Calculator(
        "arm_speed", "Travel of a slide that a slotted arm pushes for a turn of one radian", (_OFFSET, _ARM_TURNED),
        Output("v", "travel for each radian", LENGTH), "v = h / cos² θ", _ARM,
        "the slot points at the axis; torque over force is the same, without friction", arm_speed,
    ),
    Calculator(
        "arm_pressure_angle", "Angle between a slotted arm's push and the slide", (_ARM_TURNED,),
        Output("β", "pressure angle", ANGLE), "β = |θ|", _ARM,
        "the slot points at the axis; over 30 degrees a slide of wood tends to bind (common practice, no source)",
        arm_pressure_angle,
    ),
    Calculator(
        "spiral_travel", "Travel of a slide in a spiral slot",
        (size("lead", "p", "lead in a whole turn"), turn("turned", "θ", "turn of the plate")),
        Output("x", "travel", LENGTH), "x = p · θ / 360°", "geometry: spiral of Archimedes",
        "the slide's line runs through the axis", spiral_travel,
    ),
    Calculator(
        "spiral_pressure_angle", "Slope of a spiral slot over the circle",
        (size("lead", "p", "lead in a whole turn"), size("radius", "r", "radius of the pin")),
        Output("β", "pressure angle", ANGLE), "β = arctan(p / (2 · π · r))", "geometry: spiral of Archimedes",
        "the slide's line runs through the axis", spiral_pressure_angle,
    ),
    Calculator(
        "segment_gap", "Gap between segments that slide out", (span("travel", "x", "travel of each"), _COUNT),
        Output("g", "gap", LENGTH), "g = 2 · x · sin(180° / n)", "geometry",
        "equal segments, each sliding along its own middle", segment_gap,
    ),
    Calculator(
        "segment_travel", "Travel until segments stand apart", (span("gap", "g", "gap wanted"), _COUNT),
        Output("x", "travel of each", LENGTH), "x = g / (2 · sin(180° / n))", "geometry",
        "equal segments, each sliding along its own middle", segment_travel,
    ),
)  # fmt: skip
