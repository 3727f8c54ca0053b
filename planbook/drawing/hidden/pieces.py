"""Edges in pieces, each of them seen or hidden as a whole, and an outline or an inner edge as a whole."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from planbook.drawing.hidden.cover import Cover
from planbook.drawing.hidden.edges import Edges, edges_of
from planbook.drawing.hidden.model import Kind, Sight
from planbook.drawing.hidden.scene import Scene
from planbook.drawing.hidden.spans import Spans, gaps, together
from planbook.shape.solids.surfaces import Floats

LEAST: Final = 0.02
"""Millimetres under which a piece is dropped: far below a line's width at any scale."""
_HAIR: Final = 0.02
"""How far beside an outline (mm) its component is looked for."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A straight piece of an edge on the plane of view."""

    start: tuple[float, float]
    end: tuple[float, float]
    owner: int
    kind: Kind
    sight: Sight


def pieces_of(scene: Scene) -> list[Piece]:
    """All edges of a scene in pieces; edges turned away are hidden behind their own component."""
    edges = edges_of(scene)
    cover = Cover(scene)
    away, facing = edges.only(edges.away), edges.only(~edges.away)
    own, others = cover.hiding(facing)
    lengths = facing.length
    seen = gaps(together(own, others), lengths, LEAST)
    covered = gaps(together(own, seen), lengths, LEAST)
    # Own hidden intervals alone are what `covered` and `seen` leave.
    behind = gaps(together(seen, covered), lengths, LEAST)
    whole = Spans(np.arange(len(away)), np.zeros(len(away)), np.ones(len(away)))
    return [
        *_told_apart(cover, facing, seen, Sight.SEEN),
        *_told_apart(cover, facing, covered, Sight.COVERED),
        *_pieces(facing, behind, Kind.INNER, Sight.BEHIND),
        *_pieces(away, whole, Kind.INNER, Sight.BEHIND),
    ]


def _told_apart(cover: Cover, edges: Edges, spans: Spans, sight: Sight) -> list[Piece]:
    """Borders beside which their component goes on are inner edges, those that touch another are joints."""
    flat = edges.border[spans.edge]
    parts = _cut(edges, spans.only(flat))
    lengths = parts.length
    goes_on, touches = cover.beside(parts, _HAIR)
    ends = gaps(goes_on, lengths, LEAST)
    outline = gaps(together(goes_on, touches), lengths, LEAST)
    inner = gaps(ends, lengths, LEAST)
    joint = gaps(together(inner, outline), lengths, LEAST)
    return [
        *_pieces(edges, spans.only(~flat), Kind.INNER, sight),
        *_pieces(parts, inner, Kind.INNER, sight),
        *_pieces(parts, joint, Kind.JOINT, sight),
        *_pieces(parts, outline, Kind.OUTLINE, sight),
    ]


def _cut(edges: Edges, spans: Spans) -> Edges:
    """Intervals of edges as edges of their own."""
    chosen = edges.only(spans.edge)
    way = chosen.end - chosen.start
    start, end = chosen.start + way * spans.low[:, None], chosen.start + way * spans.high[:, None]
    return Edges(start, end, chosen.owner, chosen.away, chosen.border, chosen.aside)


def _pieces(edges: Edges, spans: Spans, kind: Kind, sight: Sight) -> list[Piece]:
    cut = _cut(edges, spans)
    ends = zip(_points(cut.start), _points(cut.end), cut.owner.tolist(), strict=True)
    return [Piece((a[0], a[1]), (b[0], b[1]), owner, kind, sight) for a, b, owner in ends]


def _points(points: Floats) -> list[list[float]]:
    return list(points[:, :2].tolist())
