"""Which of a part's edges exist, and which of them the eye sees. No facets and no sampling along an edge: each edge is
parted wherever anything can change, and one place tells for each piece."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from planbook.drawing.curves import Curve, meetings
from planbook.drawing.edges import Edge, Spot, edges_of
from planbook.drawing.faceted import is_faceted, see_faceted
from planbook.drawing.facing import Facing
from planbook.drawing.merge import Piece, merge
from planbook.drawing.nearby import Box, Nearby
from planbook.drawing.solid import XYZ, Prism, Solid

_NEAR = 0.01
"""How far from an edge (mm) the wood round it is felt. Nothing in a plan is thinner."""
_MARGIN = 0.05


@dataclass(frozen=True, slots=True)
class Shadow:
    """A cut with the box it takes in the view, and how near and far from the eye it reaches."""

    prism: Prism
    box: Box
    reach: tuple[float, float]


@lru_cache(maxsize=1024)
def see(
    solid: Solid, facing: Facing, emphasise: frozenset[str], foreground: tuple[Curve, ...] = ()
) -> tuple[Piece, ...]:
    """What a view shows: pieces of curves on its plane, each drawn once, ranked (0 emphasised, 1 visible, 2 hidden).

    `foreground` are lines before everything else, at which sight may change; they are not among the pieces. Remembered:
    sheets and figures share views.
    """
    if is_faceted(solid):
        return see_faceted(solid, facing, emphasise)
    edges = list(edges_of(solid, facing))
    shadows = tuple(_shadow(cut, facing) for cut in solid.cuts)
    under = Nearby([shadow.box for shadow in shadows])
    walls = [[shadows[k] for k in near] for near in under.of([edge.flat.box for edge in edges], _MARGIN)]
    parts = [(edge, a, b) for edge, stops in _parted(edges, walls, foreground) for a, b in pairwise(stops)]
    spots = [edge.flat.point((a + b) / 2) for edge, a, b in parts]
    pieces: list[Piece] = []
    for (edge, a, b), near in zip(parts, under.of([(*spot, *spot) for spot in spots], _MARGIN), strict=True):
        seen = _judge(solid, edge.spot((a + b) / 2), facing, edge.smooth, [shadows[k] for k in near])
        if seen is not None:
            rank = 2 if not seen else 0 if edge.feature in emphasise else 1
            pieces.append(Piece(edge.flat.part(a, b), rank))
    return merge(pieces)


def _parted(
    edges: Sequence[Edge], walls: Sequence[Sequence[Shadow]], foreground: Sequence[Curve]
) -> Iterator[tuple[Edge, list[float]]]:
    """Each edge with the parameters between which nothing changes; `walls` are the cuts that it may run through."""
    met = _met([*(edge.flat for edge in edges), *foreground])
    for edge, near in zip(edges, walls, strict=True):
        yield edge, _spaced(met[edge.flat].union(_walls_met(edge, near)), edge.flat)


def _met(curves: Sequence[Curve]) -> Mapping[Curve, set[float]]:
    """Where each curve meets others. Rims of equal holes, one behind the other, are one curve here."""
    unlike = tuple(dict.fromkeys(curves))
    boxes = [curve.box for curve in unlike]
    found = {curve: {0.0, 1.0} for curve in unlike}
    for curve, near in zip(unlike, Nearby(boxes).of(boxes, _MARGIN), strict=True):
        for other in (unlike[k] for k in near):
            if other is not curve:
                found[curve].update(meetings(curve, other))
    return found


def _walls_met(edge: Edge, shadows: Sequence[Shadow]) -> Iterator[float]:
    """Where a straight edge passes through a cut's surface, which need not show as an edge in this view."""
    a, b = edge.spot(0.0).at, edge.spot(1.0).at
    middle = edge.spot(0.5).at
    if math.dist(XYZ((a.x + b.x) / 2, (a.y + b.y) / 2, (a.z + b.z) / 2), middle) > 1e-6:
        return
    way = XYZ(b.x - a.x, b.y - a.y, b.z - a.z)
    for shadow in shadows:
        yield from (t for t in shadow.prism.crossings(a, way) if 0 < t < 1)


def _spaced(stops: set[float], curve: Curve) -> list[float]:
    """Sorted parameters at least a tenth of a micrometre apart."""
    least = 1e-4 / max(curve.length, 1e-4)
    kept = [0.0]
    for stop in sorted(stops):
        if stop - kept[-1] > least and 1 - stop > least:
            kept.append(stop)
    return [*kept, 1.0]


def _judge(solid: Solid, spot: Spot, facing: Facing, smooth: bool, here: Sequence[Shadow]) -> bool | None:
    """None where there is no edge; else whether it is seen. `here` are the cuts that lie there in the view."""
    far = spot.at.dot(facing.eye)
    beside = [s.prism for s in here if s.reach[0] - _MARGIN <= far <= s.reach[1] + _MARGIN]
    sectors = list(_sectors(spot))
    wood = [solid.is_wood(p, beside) for p, _ in sectors]
    if all(wood) or not any(wood) or (not smooth and _is_flat(wood, [width for _, width in sectors])):
        return None
    cuts = [s.prism for s in here if s.reach[1] >= far - _MARGIN]
    return any(solid.is_clear(p, facing.eye, cuts) for (p, _), full in zip(sectors, wood, strict=True) if not full)


def _sectors(spot: Spot) -> Iterator[tuple[XYZ, float]]:
    """A place in each sector between walls, with the sector's width."""
    (x, y, z), (ax, ay, az), (ox, oy, oz) = spot.at, spot.across, spot.out
    for a, b in zip(spot.angles, (*spot.angles[1:], spot.angles[0] + 2 * math.pi), strict=True):
        if b - a > 1e-6:
            cos, sin = _NEAR * math.cos((a + b) / 2), _NEAR * math.sin((a + b) / 2)
            yield XYZ(x + ax * cos + ox * sin, y + ay * cos + oy * sin, z + az * cos + oz * sin), b - a


def _is_flat(wood: Sequence[bool], widths: Sequence[float]) -> bool:
    """Whether the wood round a place is one half: then its surface goes on flat and nothing shows."""
    changes = sum(a != b for a, b in zip(wood, (*wood[1:], wood[0]), strict=True))
    filled = sum(width for full, width in zip(wood, widths, strict=True) if full)
    return changes == 2 and abs(filled - math.pi) < 1e-6


def _shadow(prism: Prism, facing: Facing) -> Shadow:
    x0, y0, x1, y1 = prism.box
    corners = [prism.plane.place(x, y, depth) for x in (x0, x1) for y in (y0, y1) for depth in (0.0, prism.depth)]
    xs, ys, ws = ([p.dot(way) for p in corners] for way in (facing.right, facing.up, facing.eye))
    return Shadow(prism, (min(xs), min(ys), max(xs), max(ys)), (min(ws), max(ws)))
