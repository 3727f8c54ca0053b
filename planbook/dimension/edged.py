"""The measures of chamfers and edges rounded over, with words for what is done to which edge."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import replace
from typing import Final

from planbook.dimension.bored import callout
from planbook.dimension.measure import Measure, middle, note, on_view
from planbook.shape.geometry import Point
from planbook.shape.kinds import EdgeShape
from planbook.shape.model import Cut, Feature, Part
from planbook.source.models.part import Edge, FaceName

_EDGES: Final = {
    Edge.FRONT: "front edge",
    Edge.REAR: "rear edge",
    Edge.LEFT: "left end",
    Edge.RIGHT: "right end",
}
"""As the views are named in which each is seen from its side, in the order in which they are told."""


def edge_measures(part: Part, feature: Feature, shape: EdgeShape) -> Iterator[Measure]:
    """A note at the middle of the edge, in the face view: `R3 round-over, front edge of the face`."""
    cut = feature.cuts[0]
    corner = cut.loop.segments[0].start
    at = (on_view(part, FaceName.FACE, cut.frame.place(_inner(cut, corner), cut.depth / 2)),)
    name = (feature.name, "radius" if shape.round else "chamfer")
    said = note(FaceName.FACE, at, shape.size.number, name, shape.size)
    words = edge_words(shape.round, feature.face, [shape.edge])
    yield replace(said, prefix="R" if shape.round else "", suffix=words, callout=callout(part, feature))


def edge_words(rounded: bool, face: FaceName, edges: Collection[Edge]) -> str:
    """What is done to edges of the face or the back: `x 45° chamfer, front edge and left end of the back`."""
    what = "round-over" if rounded else "x 45° chamfer"
    named = [words for edge, words in _EDGES.items() if edge in edges]
    if len(named) == len(_EDGES):
        return f"{what}, all round the {face}"
    *first, last = named
    return f"{what}, {' and '.join(filter(None, (', '.join(first), last)))} of the {face}"


def _inner(cut: Cut, corner: Point) -> Point:
    """Half way in from the border, on the face."""
    ends = [side.end for side in cut.loop.segments if abs(side.end.y - corner.y) < 1.0 and side.end != corner]
    return middle(corner, ends[0])
