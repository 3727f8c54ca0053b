"""Pieces that look the same joined end to end to polylines."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import Final

from planbook.drawing.curves import XY
from planbook.drawing.hidden.model import Chain
from planbook.drawing.hidden.pieces import Piece

_NEAR: Final = 0.05
"""Millimetres within which ends meet: clipped ends lie a few hundredths off one another."""
_STRAIGHT: Final = 1e-4
"""Millimetres from a straight line within which a point of a polyline is left out."""

Node = tuple[int, int]


def chained(pieces: Iterable[Piece], names: Sequence[str]) -> tuple[Chain, ...]:
    """All pieces as polylines, of each component, kind and sight by themselves, in a sure order."""
    groups: dict[tuple[int, str, str], list[Piece]] = defaultdict(list)
    for piece in pieces:
        groups[piece.owner, piece.kind, piece.sight].append(piece)
    chains: list[Chain] = []
    for (owner, _, _), group in sorted(groups.items()):
        kind, sight = group[0].kind, group[0].sight
        chains += (Chain(names[owner], kind, sight, tuple(points)) for points in _walks(group))
    return tuple(chains)


def _walks(group: Sequence[Piece]) -> list[list[XY]]:
    """Polylines that use each piece once; where more than two meet, the straightest way on."""
    ends = sorted((min(p.start, p.end), max(p.start, p.end)) for p in group)
    links: dict[Node, list[int]] = defaultdict(list)
    for number, pair in enumerate(ends):
        for end in pair:
            links[_node(end)].append(number)
    free = [True] * len(ends)
    walks = []
    for number in range(len(ends)):
        if free[number]:  # followed both ways, so that it does not matter where in a polyline it lies
            free[number] = False
            back, forth = ends[number]
            forward = _walk(back, forth, ends, links, free)
            backward = _walk(forth, back, ends, links, free)
            walks.append(_closed(_plain([*reversed(backward), *(XY(*p) for p in ends[number]), *forward])))
    return walks


def _walk(
    before: tuple[float, float],
    here: tuple[float, float],
    ends: Sequence[tuple[tuple[float, float], tuple[float, float]]],
    links: dict[Node, list[int]],
    free: list[bool],
) -> list[XY]:
    """The points after `here`, coming from `before`."""
    found: list[XY] = []
    while True:
        node = _node(here)
        ways = [number for number in links[node] if free[number]]
        if not ways:
            return found
        came = math.atan2(here[1] - before[1], here[0] - before[0])
        number = min(ways, key=lambda k: (abs(_turn(came, here, _other(ends[k], node))), k))
        free[number] = False
        before, here = here, _other(ends[number], node)
        found.append(XY(*here))


def _node(p: tuple[float, float]) -> Node:
    return math.floor(p[0] / _NEAR + 0.37), math.floor(p[1] / _NEAR + 0.37)


def _other(pair: tuple[tuple[float, float], tuple[float, float]], node: Node) -> tuple[float, float]:
    return pair[1] if _node(pair[0]) == node else pair[0]


def _turn(came: float, here: tuple[float, float], there: tuple[float, float]) -> float:
    return math.remainder(math.atan2(there[1] - here[1], there[0] - here[0]) - came, math.tau)


def _closed(points: list[XY]) -> list[XY]:
    """A polyline that comes back to its start ends there exactly."""
    return [*points[:-1], points[0]] if _node(points[0]) == _node(points[-1]) else points


def _plain(points: Sequence[XY]) -> list[XY]:
    """Without the points between which the line runs straight on."""
    kept = [points[0]]
    for here, following in pairwise(points[1:]):
        (x0, y0), (x1, y1) = kept[-1], following
        length = math.dist(kept[-1], following)
        off = abs((x1 - x0) * (here.y - y0) - (y1 - y0) * (here.x - x0)) / length if length else math.inf
        if off > _STRAIGHT:
            kept.append(here)
    return [*kept, points[-1]]
