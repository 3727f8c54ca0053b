"""Edges in pieces, each of them seen or hidden as a whole, and an outline, a joint or an inner edge as a whole."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from planbook.drawing.hidden.cover import Cover
from planbook.drawing.hidden.edges import Edges, edges_of
from planbook.drawing.hidden.model import Kind, Sight
from planbook.drawing.hidden.scene import Scene
from planbook.drawing.hidden.spans import Spans, gaps, together
from planbook.shape.solids.surfaces import Flags, Floats

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


def pieces_of(scene: Scene, hidden: frozenset[int] = frozenset()) -> list[Piece]:
    """All edges of a scene in pieces: those that are seen, and of the components in `hidden` the others too."""
    edges = edges_of(scene)
    cover = Cover(scene)
    facing = edges.only(~edges.away)
    own, others = cover.hiding(facing)
    seen = gaps(together(own, others), facing.length, LEAST)
    found = _told_apart(cover, facing, seen, Sight.SEEN)
    if hidden:
        found += _hidden(cover, facing, own, seen, np.isin(facing.owner, list(hidden)))
        away = edges.only(edges.away & np.isin(edges.owner, list(hidden)))
        found += _pieces(away, _whole(len(away)), Kind.INNER, Sight.BEHIND)
    return found


def _hidden(cover: Cover, edges: Edges, own: Spans, seen: Spans, wanted: Flags) -> list[Piece]:
    """What other components cover, and what only its own does."""
    covered = gaps(together(own, seen), edges.length, LEAST)
    behind = gaps(together(seen, covered), edges.length, LEAST)
    return [
        *_told_apart(cover, edges, covered.only(wanted[covered.edge]), Sight.COVERED),
        *_pieces(edges, behind.only(wanted[behind.edge]), Kind.INNER, Sight.BEHIND),
    ]


def _whole(count: int) -> Spans:
    return Spans(np.arange(count), np.zeros(count), np.ones(count))


def _told_apart(cover: Cover, edges: Edges, spans: Spans, sight: Sight) -> list[Piece]:
    """Borders beside which their component goes on are inner edges, those that touch another are joints."""
    at_border = edges.border[spans.edge]
    parts = _cut(edges, spans.only(at_border))
    lengths = parts.length
    goes_on, touches = cover.beside(parts, _HAIR)
    ends = gaps(goes_on, lengths, LEAST)
    outline = gaps(together(goes_on, touches), lengths, LEAST)
    inner = gaps(ends, lengths, LEAST)
    joint = gaps(together(inner, outline), lengths, LEAST)
    return [
        *_pieces(edges, spans.only(~at_border), Kind.INNER, sight),
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
