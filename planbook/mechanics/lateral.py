"""Lateral load of screws, bolts and pins in wood by the yield model, for joints of two and of three members.

The model is Johansen's: wood and fastener are taken as perfectly plastic, each way in which the joint can give is
weighed by itself, and the one that bears least governs. The equations are those of the American Wood Council's
Technical Report 12, "General Dowel Equations for Calculating Lateral Connection Values" (2015), table 1-1; what a yield
load is divided by to arrive at a value to design with is in the National Design Specification for Wood Construction
2018 (NDS), table 12.3.1B.

Both are published in inches and pounds. Nothing is rounded here, whereas the NDS rounds bearing strengths to 50 psi.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final, NamedTuple

from planbook.measure.degrees import cosine, sine
from planbook.measure.dimensionality import ANGLE, FORCE, LENGTH, PRESSURE, SCALAR
from planbook.mechanics.calculator import Calculator, Input, Output, Way, above_zero, size, span

_INCH: Final = 25.4e6
_PSI: Final = 4.4482216152605e9 / _INCH**2
_THIN: Final = 0.25 * _INCH
"""Under this diameter the way of the grain does not count, and all ways are divided by the same."""
_MAIN, _SIDE, _LEANS = "I (main member)", "I (side member)", "II"
_BENDS_IN_SIDE, _BENDS_IN_MAIN, _BENDS_IN_BOTH = "III (main member)", "III (side member)", "IV"
_WORDS: Final[Mapping[str, str]] = {
    _MAIN: "the main member is crushed along its whole hole, and the fastener stays straight",
    _SIDE: "the side member is crushed along its whole hole, and the fastener stays straight",
    _LEANS: "the fastener stays straight, leans, and crushes the wood of both members",
    _BENDS_IN_SIDE: "the fastener leans in the main member and bends in the side member",
    _BENDS_IN_MAIN: "the fastener leans in the side member and bends in the main member",
    _BENDS_IN_BOTH: "the fastener bends in both members",
}


def dowel_bearing(gravity: float, diameter: float, angle: float) -> float:
    """Pressure at which a fastener crushes the wood of its hole: NDS 2018, table 12.3.3 and appendix J.

    From 1/4 in up it is 11,200 G psi along the grain and 6,100 G^1.45 / sqrt(D) psi across it (D in inches), and
    between the two by Hankinson's formula; thinner ones get 16,600 G^1.84 psi whichever way they press.
    """
    if diameter < _THIN:
        return 16_600 * math.pow(gravity, 1.84) * _PSI
    along = 11_200 * gravity * _PSI
    across = 6_100 * math.pow(gravity, 1.45) / math.sqrt(diameter / _INCH) * _PSI
    return along * across / (along * sine(angle) ** 2 + across * cosine(angle) ** 2)


class _Face(NamedTuple):
    """What a member does where it faces the other: under a load P it holds a moment c - b P - a P^2."""

    a: float
    b: float
    c: float


@dataclass(frozen=True, slots=True)
class _Member:
    """`bearing` is force for a length of hole, `moment` what bends the fastener for good."""

    bearing: float
    length: float
    moment: float

    @property
    def crushed(self) -> float:
        """What crushes it along the whole hole."""
        return self.bearing * self.length

    @property
    def leaning(self) -> _Face:
        """The fastener leans in it and presses one way near the face and the other way beyond."""
        return _Face(1 / (4 * self.bearing), self.length / 2, self.bearing * self.length**2 / 4)

    @property
    def bending(self) -> _Face:
        """The fastener bends in it, where the load has been taken up."""
        return _Face(1 / (2 * self.bearing), 0.0, self.moment)


def _balance(main: _Face, side: _Face, gap: float) -> float:
    """The load whose moment over the gap is what both faces hold together: the root of A P^2 + B P + C = 0 in TR12."""
    a, b, c = main.a + side.a, main.b + side.b + gap, main.c + side.c
    return 2 * c / (b + math.sqrt(b * b + 4 * a * c))


class _Joint(NamedTuple):
    """What a joint is made of: bearing strengths, lengths, the fastener, the gap. In the order of the inputs.

    Where thread bears, `diameter` is that of the root. `main_length` of a pointed screw is its depth less half of the
    point, which is about one diameter.
    """

    main_bearing: float
    main_length: float
    side_bearing: float
    side_length: float
    diameter: float
    bending: float
    gap: float

    @property
    def members(self) -> tuple[_Member, _Member]:
        """Main and side: q = F D and M = Fyb D^3 / 6."""
        moment = self.bending * self.diameter**3 / 6
        return (
            _Member(self.main_bearing * self.diameter, self.main_length, moment),
            _Member(self.side_bearing * self.diameter, self.side_length, moment),
        )


def _single_shear(joint: _Joint) -> tuple[Way, ...]:
    """The six ways of a joint of two members, each with its yield load (5 % offset)."""
    main, side = joint.members
    return (
        _way(_MAIN, main.crushed),
        _way(_SIDE, side.crushed),
        _way(_LEANS, _balance(main.leaning, side.leaning, joint.gap)),
        _way(_BENDS_IN_SIDE, _balance(main.leaning, side.bending, joint.gap)),
        _way(_BENDS_IN_MAIN, _balance(main.bending, side.leaning, joint.gap)),
        _way(_BENDS_IN_BOTH, _balance(main.bending, side.bending, joint.gap)),
    )


def _double_shear(joint: _Joint) -> tuple[Way, ...]:
    """The four ways of a main member between two equal side members, each with the load on the main one.

    The fastener cannot lean in the middle of a joint that is even, and what a side bears counts twice.
    """
    crushed, *others = _single_shear(joint)
    twice = (_way(way.name, 2 * way.value) for way in others if way.name in {_SIDE, _BENDS_IN_MAIN, _BENDS_IN_BOTH})
    return (crushed, *twice)


def _way(name: str, value: float) -> Way:
    return Way(name, _WORDS[name], value)


def _reduction(way: str, diameter: float, angle: float) -> float:
    """What divides a way's yield load: NDS 2018 table 12.3.1B. `angle` is the greatest between load and grain."""
    slanted = 1 + 0.25 * angle / 90
    if diameter < _THIN:
        return max(2.2, 10 * diameter / _INCH + 0.5) * slanted
    return {_MAIN: 4.0, _SIDE: 4.0, _LEANS: 3.6}.get(way, 3.2) * slanted


_Ways = Callable[[_Joint], tuple[Way, ...]]


def _yield_loads(ways: _Ways) -> Callable[..., tuple[Way, ...]]:
    return lambda *inputs: ways(_Joint(*inputs))


def _divided(ways: _Ways) -> Callable[..., tuple[Way, ...]]:
    """The same ways, each divided; the angle comes after what the joint is made of."""

    def divided(*inputs: float) -> tuple[Way, ...]:
        *joint, angle = inputs
        made = _Joint(*joint)
        return tuple(_way(way.name, way.value / _reduction(way.name, made.diameter, angle)) for way in ways(made))

    return divided


def _least(ways: Callable[..., tuple[Way, ...]]) -> Callable[..., float]:
    def least(*inputs: float) -> float:
        """What the way that governs bears."""
        return min(way.value for way in ways(*inputs))

    return least


_DIAMETER = Input("diameter", "D", "diameter of the fastener, of its root where thread bears", LENGTH, 2e6, _INCH)
_ANGLE = Input("angle", "θ", "greatest angle between load and grain", ANGLE, 0.0, 90.0)
_JOINT: Final = (
    above_zero("main_bearing", "F₁", "bearing strength of the main member", PRESSURE),
    size("main_length", "L₁", "length in the main member"),
    above_zero("side_bearing", "F₂", "bearing strength of the side member", PRESSURE),
    size("side_length", "L₂", "length in the side member"),
    _DIAMETER,
    above_zero("bending", "Fy", "bending yield strength of the fastener", PRESSURE),
    span("gap", "g", "gap between the members"),
)
_TR12: Final = "American Wood Council, Technical Report 12 (2015), table 1-1"
_NDS: Final = "National Design Specification for Wood Construction 2018, table {}"
_ROOT: Final = "A · P² + B · P + C = 0, after Fy, D and g"
_SINGLE: Final = f"P = least of F₁ · D · L₁ and F₂ · D · L₂ (I) and the roots (II, III, IV) of {_ROOT}"
_DOUBLE: Final = f"P = least of F₁ · D · L₁ and 2 · F₂ · D · L₂ (I) and twice the roots (III, IV) of {_ROOT}"
_PLASTIC: Final = (
    "one fastener at right angles to load and faces; dry wood that does not split before: the loaded end at least 7 "
    "diameters away (5 in hardwood), a loaded edge 4, other ends 4 and edges 1.5 (NDS 2018, 12.5.1)"
)
_DIVIDED: Final = (
    "for a load of about ten years; yield loads are divided by 2.2 to 5 (NDS 2018, table 12.3.1B); for fasteners "
    "called less than 1/4 in the angle counts as 0°"
)


def _yielding(name: str, title: str, formula: str, ways: _Ways) -> Calculator:
    gives, loads = Output("P", "yield load", FORCE), _yield_loads(ways)
    return Calculator(name, title, _JOINT, gives, formula, _TR12, _PLASTIC, _least(loads), loads)


def _valued(name: str, title: str, formula: str, ways: _Ways) -> Calculator:
    source = f"{_TR12}; {_NDS.format('12.3.1B')}"
    divided, takes = _divided(ways), (*_JOINT, _ANGLE)
    gives = Output("Z", "reference value", FORCE)
    return Calculator(name, title, takes, gives, formula, source, f"{_PLASTIC}; {_DIVIDED}", _least(divided), divided)


LATERAL = (
    Calculator(
        "dowel_bearing", "Pressure at which a fastener crushes the wood of its hole",
        (Input("gravity", "G", "specific gravity of the wood", SCALAR, 0.3, 0.75), _DIAMETER, _ANGLE),
        Output("F", "bearing strength", PRESSURE),
        "F = 77.2 · G along, 212 · G^1.45 / √D across the grain, between them after θ by Hankinson; under 1/4 in "
        "114.5 · G^1.84 (megapascal, millimetre)",
        f"{_NDS.format('12.3.3')} and appendix J",
        "solid wood, dry; in end grain take it across, and 0.67 of the joint's reference value (NDS 2018, 12.5.2)",
        dowel_bearing,
    ),
    _yielding("single_shear_yield", "Load at which a joint of two members yields", _SINGLE, _single_shear),
    _valued(
        "single_shear_value", "Reference value of a joint of two members",
        f"Z = least of P / R; {_SINGLE}; R after D and θ", _single_shear,
    ),
    _yielding("double_shear_yield", "Load at which a joint of three members yields", _DOUBLE, _double_shear),
    _valued(
        "double_shear_value", "Reference value of a joint of three members",
        f"Z = least of P / R; {_DOUBLE}; R after D and θ", _double_shear,
    ),
)  # fmt: skip
