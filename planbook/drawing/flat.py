"""What of a part a machine can cut from its face: which parts are flat, and their cuts as closed chains by depth."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from planbook.drawing.curves import XY, Arc, Curve, Line
from planbook.drawing.profile import Chain, profile
from planbook.drawing.solid import XYZ, Plane, Prism, Solid
from planbook.drawing.stated_solid import solid_of_stated
from planbook.statement.model import PartStated

_FLAT: Final = ("face", "back")
_SLENDER: Final = 0.5
"""The thickness of a flat part is at most this part of its width and length (common practice, no source)."""
_WITHIN: Final = 1e-6
_SQUARE: Final = 1 - 1e-9


@dataclass(frozen=True, slots=True)
class Recess:
    """A cut that does not go through: from the `face` or the back, so deep (mm). `tapered`: it narrows downwards."""

    face: str
    depth: float
    chains: tuple[Chain, ...]
    """Its mouth, and islands that stay."""
    tapered: bool = False


@dataclass(frozen=True, slots=True)
class Centre:
    """The centre of a round cut, its radius, and the feature that it belongs to; of a leaning hole where it enters."""

    at: XY
    radius: float
    feature: str


@dataclass(frozen=True, slots=True)
class FlatPart:
    """A part seen from its face, in millimetres from its datum corner.

    `outline` has the wood on its left: all that goes through is cut out of it. `left_out` names features that
    are not in it, or only by their centres.
    """

    outline: tuple[Chain, ...]
    recesses: tuple[Recess, ...]
    centres: tuple[Centre, ...]
    left_out: tuple[str, ...]


def is_flat(part: PartStated) -> bool:
    """Whether a part is thin, and shaped from its face and back only, but for holes bored into edges and ends."""
    length, width, thickness = part.size
    thin = thickness <= _SLENDER * min(length, width)
    return thin and all(feature.face in _FLAT or feature.kind == "hole" for feature in part.features.values())


def flat_part(part: PartStated) -> FlatPart:
    """A flat part's outline, recesses and hole centres."""
    solid = solid_of_stated(part)
    square = [cut for cut in solid.cuts if abs(cut.plane.normal.z) > _SQUARE]
    through = [cut for cut in square if _is_through(cut, solid)]
    openings = [_seen(loop, cut.plane) for cut in through for loop in cut.loops[:1]]
    recesses = tuple(_recess(cut) for cut in square if cut not in through)
    outline = profile(tuple(solid.blank.loop), openings)
    leaning = [cut for cut in solid.cuts if cut.lift and part.features[cut.feature].face in _FLAT]
    only_centres = tuple(dict.fromkeys(cut.feature for cut in leaning))
    centres = (*_centres(square), *(_entry(cut) for cut in leaning))
    return FlatPart(outline, recesses, centres, (*left_out(part), *only_centres))


def left_out(part: PartStated) -> tuple[str, ...]:
    """Features that a plane cannot show: cut from edges and ends, or sloping."""
    square = {
        name: all(abs(cut.frame.normal[2]) > _SQUARE for cut in feature.cuts) for name, feature in part.features.items()
    }
    return tuple(name for name, feature in part.features.items() if feature.face not in _FLAT or not square[name])


def _entry(cut: Prism) -> Centre:
    """Where the axis of a leaning hole enters its face: all of it that a plane can show."""
    centre, radius = cut.round
    return Centre(_flat(cut.plane.place(*centre, cut.lift)), radius, cut.feature)


def _is_through(cut: Prism, solid: Solid) -> bool:
    return cut.cone is None and not cut.islands and cut.depth >= solid.size.z - _WITHIN


def _recess(cut: Prism) -> Recess:
    face = "face" if cut.plane.normal.z > 0 else "back"
    return Recess(face, cut.depth, tuple(_seen(loop, cut.plane) for loop in cut.loops), cut.cone is not None)


def _centres(cuts: list[Prism]) -> Iterator[Centre]:
    """Centres of round cuts, each once, with the largest of the circles round it."""
    found: dict[tuple[int, int], Centre] = {}
    for cut in cuts:
        first = _seen(cut.loop, cut.plane)[0]
        if isinstance(first, Arc) and first.full:
            key = round(first.centre.x / _WITHIN), round(first.centre.y / _WITHIN)
            known = found.get(key)
            if known is None or known.radius < first.radius:
                found[key] = Centre(first.centre, first.radius, cut.feature)
    yield from found.values()


def _seen(loop: Chain, plane: Plane) -> Chain:
    """A loop of a plane that is square to the thickness, in the part's own x and y."""
    return tuple(_seen_curve(curve, plane) for curve in loop)


def _seen_curve(curve: Curve, plane: Plane) -> Curve:
    if isinstance(curve, Line):
        return Line(_flat(plane.place(*curve.start)), _flat(plane.place(*curve.end)))
    centre, start = _flat(plane.place(*curve.centre)), _flat(plane.place(*curve.start))
    turn = plane.u.x * plane.v.y - plane.u.y * plane.v.x
    begin = math.atan2(start.y - centre.y, start.x - centre.x)
    return Arc(centre, curve.radius, begin, math.copysign(curve.sweep, curve.sweep * turn))


def _flat(p: XYZ) -> XY:
    return XY(p.x, p.y)
