"""Trace lines of exploded views: from each joint of a part that is moved to where it belongs."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from itertools import combinations, pairwise
from typing import Final

import numpy as np

from planbook.drawing.facing import Facing
from planbook.drawing.hidden import Scene
from planbook.drawing.hidden.cover import Cover
from planbook.drawing.hidden.edges import Edges
from planbook.drawing.hidden.spans import gaps, together
from planbook.shape.solids import Mesh
from planbook.shape.solids.surfaces import Floats

Shift = tuple[float, float, float]
"""Millimetres to the right, to the back and up."""

_TOUCH: Final = 0.5
"""Components whose boxes are this near (mm) are joined."""
_SAME: Final = 1e-3
"""Millimetres under which two components are moved alike."""
_LEAST: Final = 2.0
"""Millimetres in the world under which a piece of a trace line is not drawn."""
_NOBODY: Final = -1
_STRAIGHT: Final = 2
"""A straight way has two ends and no corner."""


def trace_lines(
    meshes: Mapping[str, Mesh], moves: Mapping[str, Shift], scene: Scene, facing: Facing
) -> tuple[tuple[tuple[float, float], tuple[float, float]], ...]:
    """The pieces that are seen of all trace lines, on the plane of view. `meshes` stand in their own places, `scene` is
    of the moved ones.

    A line leads from the middle of what two joined components have in common to the same place of the other. Where
    they are moved apart in several directions it goes along the axes, half of the longest way first; such a line is
    drawn only for a component that no straight one leads to.
    """
    ways = [way for corners in _needed(_ways(meshes, moves)) for way in pairwise(corners)]
    if not ways:
        return ()
    turn = np.array([facing.right, facing.up, facing.eye]).T
    start, end = (np.array([way[k] for way in ways]) @ turn for k in (0, 1))
    count = len(ways)
    nobody = np.full(count, _NOBODY)
    edges = Edges(start, end, nobody, np.zeros(count, bool), np.zeros(count, bool), np.zeros((count, 2)))
    seen = gaps(together(*Cover(scene).hiding(edges)), edges.length, _LEAST)
    along = end[seen.edge] - start[seen.edge]
    lows = (start[seen.edge] + along * seen.low[:, None])[:, :2].tolist()
    highs = (start[seen.edge] + along * seen.high[:, None])[:, :2].tolist()
    return tuple(((a[0], a[1]), (b[0], b[1])) for a, b in zip(lows, highs, strict=True))


def _ways(meshes: Mapping[str, Mesh], moves: Mapping[str, Shift]) -> dict[tuple[str, str], Sequence[Floats]]:
    """The corners of the way between each two joined components that are not moved alike."""
    boxes = {name: (mesh.points.min(axis=0), mesh.points.max(axis=0)) for name, mesh in meshes.items()}
    found = {}
    for a, b in combinations(boxes, 2):
        first, second = (np.array(moves.get(name, (0.0, 0.0, 0.0))) for name in (a, b))
        low, high = np.maximum(boxes[a][0], boxes[b][0]), np.minimum(boxes[a][1], boxes[b][1])
        if _joined(high - low) and np.abs(second - first).max() >= _SAME:
            found[a, b] = _along_axes((low + high) / 2 + first, second - first)
    return found


def _joined(common: Floats) -> bool:
    """Whether boxes with this in common touch in a face: an edge or a corner makes no joint."""
    least, middle, _ = sorted(common.tolist())
    return bool(least >= -_TOUCH and middle > _TOUCH)


def _needed(ways: Mapping[tuple[str, str], Sequence[Floats]]) -> list[Sequence[Floats]]:
    """All straight ways, and those with corners of components that have no straight one."""
    straight = {name for pair, corners in ways.items() if len(corners) == _STRAIGHT for name in pair}
    return [corners for pair, corners in ways.items() if len(corners) == _STRAIGHT or not straight.issuperset(pair)]


def _along_axes(start: Floats, apart: Floats) -> Sequence[Floats]:
    """Corners of a way along the axes: half of the longest, the others, the other half."""
    longest = int(np.abs(apart).argmax())
    half = np.zeros(3)
    half[longest] = apart[longest] / 2
    rest = apart - 2 * half
    if math.isclose(float(np.abs(rest).max()), 0.0, abs_tol=_SAME):
        return start, start + apart
    turns = [start, start + half]
    for axis in np.flatnonzero(np.abs(rest) > _SAME).tolist():
        turns.append(turns[-1] + np.where(np.arange(3) == axis, rest, 0.0))
    return [*turns, turns[-1] + half]
