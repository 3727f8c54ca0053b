"""Lines that run together drawn once: what is seen before what is hidden, outlines before inner edges."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final

import numpy as np

from planbook.drawing.hidden.model import Kind, Sight
from planbook.drawing.hidden.pieces import LEAST, Piece

_ANGLE: Final = 1e-5
_OFFSET: Final = 2e-3
"""Radians and millimetres under which two lines are one."""

Rank = Callable[[Piece], tuple[int, ...]]
Ends = tuple[float, float]


def merged(pieces: Sequence[Piece], foremost: frozenset[int] = frozenset()) -> list[Piece]:
    """The same picture with every place drawn once. Lines of `foremost` components come before those of others.

    A joint is one whichever of its two components says so; then come outlines, and inner edges last.
    """

    def rank(piece: Piece) -> tuple[int, ...]:
        return (
            (Sight.SEEN, Sight.COVERED, Sight.BEHIND).index(piece.sight),
            piece.owner not in foremost,
            (Kind.JOINT, Kind.OUTLINE, Kind.INNER).index(piece.kind),
            piece.owner,
        )

    return [line for group in _together(pieces) for line in _merge(group, rank)]


def _together(pieces: Sequence[Piece]) -> Iterator[list[Piece]]:
    """The pieces of each endless line."""
    if not pieces:
        return
    ends = np.array([(*piece.start, *piece.end) for piece in pieces])
    along = ends[:, 2:] - ends[:, :2]
    along *= np.where((along[:, 0] < 0) | ((along[:, 0] == 0) & (along[:, 1] < 0)), -1.0, 1.0)[:, None]
    angle = np.arctan2(along[:, 1], along[:, 0])
    # Upright lines lie at both ends of the range of angles.
    angle = np.where(angle < -math.pi / 2 + _ANGLE, angle + math.pi, angle)
    middle = (ends[:, :2] + ends[:, 2:]) / 2
    way = _clusters(angle, _ANGLE)
    mean = np.bincount(way, angle) / np.bincount(way)
    offset = middle[:, 1] * np.cos(mean[way]) - middle[:, 0] * np.sin(mean[way])
    order = np.lexsort((offset, way))
    new = (np.diff(way[order]) != 0) | (np.diff(offset[order]) > _OFFSET)
    for group in np.split(order, np.flatnonzero(new) + 1):
        yield [pieces[number] for number in group.tolist()]


def _clusters(values: np.ndarray, grain: float) -> np.ndarray:
    """The number of each value's cluster: sorted neighbours nearer than `grain` are in one."""
    order = np.argsort(values, kind="stable")
    number = np.zeros(len(values), dtype=np.int64)
    number[order[1:]] = np.cumsum(np.diff(values[order]) > grain)
    return number


def _merge(group: list[Piece], rank: Rank) -> list[Piece]:
    if len(group) == 1:
        return group
    longest = max(group, key=lambda piece: math.dist(piece.start, piece.end))
    length = math.dist(longest.start, longest.end)
    ux, uy = (longest.end[0] - longest.start[0]) / length, (longest.end[1] - longest.start[1]) / length
    x0, y0 = longest.start

    def extent(piece: Piece) -> Ends:
        low, high = sorted((p[0] - x0) * ux + (p[1] - y0) * uy for p in (piece.start, piece.end))
        return low, high

    spans = [(*extent(piece), piece) for piece in group]
    return [
        replace(piece, start=(x0 + a * ux, y0 + a * uy), end=(x0 + b * ux, y0 + b * uy))
        for a, b, piece in _joined(_foremost(spans, rank))
    ]


def _foremost(spans: Sequence[tuple[float, float, Piece]], rank: Rank) -> Iterator[tuple[float, float, Piece]]:
    """Between each two ends the piece that is drawn there."""
    stops = _stops(end for low, high, _ in spans for end in (low, high))
    for a, b in pairwise(stops):
        middle = (a + b) / 2
        here = [piece for low, high, piece in spans if low <= middle <= high]
        if here:
            yield a, b, min(here, key=rank)


def _stops(ends: Iterable[float]) -> list[float]:
    """Ends in order; those nearer than the least piece are one."""
    stops: list[float] = []
    for end in sorted(ends):
        if not stops or end - stops[-1] > LEAST:
            stops.append(end)
    return stops


def _joined(spans: Iterable[tuple[float, float, Piece]]) -> list[tuple[float, float, Piece]]:
    """Neighbours that look the same are one piece."""
    found: list[tuple[float, float, Piece]] = []
    for a, b, piece in spans:
        if found and found[-1][1] == a and _look(found[-1][2]) == _look(piece):
            found[-1] = found[-1][0], b, piece
        else:
            found.append((a, b, piece))
    return found


def _look(piece: Piece) -> tuple[int, Kind, Sight]:
    return piece.owner, piece.kind, piece.sight
