"""Boxes of short pieces of edges and triangles on the plane of view: a tree over them finds few needless pairs."""

from __future__ import annotations

from typing import Final

import numpy as np
import shapely

from planbook.shape.solids.surfaces import Floats, Whole

LONGEST: Final = 80.0
"""Millimetres. Shorter pieces make more boxes, longer ones more pairs."""


def split_triangles(corners: Floats) -> tuple[Whole, Floats, Floats]:
    """Triangle numbers and boxes of pieces of triangles: halved across the longest side until short enough."""
    number = np.arange(len(corners))
    numbers, whole = [], []
    while len(corners):
        x, y = (corners[:, (1, 2, 0), k] - corners[:, :, k] for k in range(2))
        sides = np.sqrt(x**2 + y**2)
        longest = sides.argmax(axis=1)
        small = sides.max(axis=1) <= LONGEST
        numbers.append(number[small])
        whole.append(corners[small])
        rest, number, longest = corners[~small], number[~small], longest[~small]
        a, b, c = (rest[np.arange(len(rest)), (longest + k) % 3] for k in range(3))
        middle = (a + b) / 2
        corners = np.concatenate([np.stack([a, middle, c], axis=1), np.stack([middle, b, c], axis=1)])
        number = np.tile(number, 2)
    a, b, c = np.concatenate([*whole, np.zeros((0, 3, 3))]).swapaxes(0, 1)
    low, high = (least(least(a, b), c) for least in (np.minimum, np.maximum))
    return np.concatenate([*numbers, number]), low, high


def chopped_edges(start: Floats, end: Floats) -> tuple[Whole, Floats, Floats]:
    """Edge numbers and boxes of pieces of edges."""
    count = np.maximum(np.ceil(np.linalg.norm(end[:, :2] - start[:, :2], axis=1) / LONGEST), 1).astype(np.int64)
    edge = np.repeat(np.arange(len(start)), count)
    place = np.arange(len(edge)) - np.repeat(np.cumsum(count) - count, count)
    way = end[edge] - start[edge]
    a = start[edge] + way * (place / count[edge])[:, None]
    b = start[edge] + way * ((place + 1) / count[edge])[:, None]
    return edge, np.minimum(a, b), np.maximum(a, b)


def diagonals(low: Floats, high: Floats) -> np.ndarray:
    """Lines across boxes, seen from above: to a tree they are what the boxes are, and sooner made."""
    return np.asarray(shapely.linestrings(np.stack([low[:, :2], high[:, :2]], axis=1)))
