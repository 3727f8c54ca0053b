"""What covers the edges of a scene, and what goes on beside them."""

from __future__ import annotations

from typing import Final

import numpy as np
import shapely

from planbook.drawing.hidden.boxes import chopped_edges, diagonals, split_triangles
from planbook.drawing.hidden.clipping import BORDER, Clip, Pairs
from planbook.drawing.hidden.edges import Edges
from planbook.drawing.hidden.scene import Scene
from planbook.drawing.hidden.spans import Spans
from planbook.shape.solids.surfaces import Floats

OWN_SKIN: Final = 1e-3
"""How far (mm) an edge must lie behind the plane of a triangle of its own component to be hidden by it."""
OTHER_SKIN: Final = 0.06
"""The same for another component: a round pin's facets stand out of those of its hole by up to 0.05 mm."""
TOUCH: Final = 0.1
"""Faces this near (mm) to an edge touch it: twice the depth of a facet."""


class Cover:
    """The triangles of a scene that face the viewer, with a tree over their boxes on the plane of view."""

    def __init__(self, scene: Scene) -> None:
        self._scene = scene
        facing = np.flatnonzero(scene.front)
        place, low, high = split_triangles(scene.corners[facing])
        self._triangle, self._nearest = facing[place], high[:, 2]
        self._tree = shapely.STRtree(diagonals(low, high))

    def hiding(self, edges: Edges) -> tuple[Spans, Spans]:
        """The intervals behind triangles of the edge's own component, and behind those of others."""
        clip = Clip(self._scene, self._pairs(edges.start, edges.end, behind=True), edges.start, edges.end)
        own = clip.owners == edges.owner[clip.pairs.edge]
        at, slope = clip.behind()
        clip.keep(at - np.where(own, OWN_SKIN, OTHER_SKIN), slope)
        return clip.spans(own), clip.spans(~own)

    def beside(self, edges: Edges, hair: float) -> tuple[Spans, Spans]:
        """The intervals of borders a hair beside which their own component goes on, at any depth; and those where
        another has a face so near that they touch."""
        shift = np.zeros_like(edges.start)
        shift[:, :2] = edges.aside * hair
        start, end = edges.start + shift, edges.end + shift
        clip = Clip(self._scene, self._pairs(start, end, behind=False), start, end)
        own = clip.owners == edges.owner[clip.pairs.edge]
        goes_on = clip.spans(own)
        at, slope = clip.behind()
        clip.keep(TOUCH + at, slope)
        clip.keep(TOUCH - at, -slope)
        return goes_on, clip.spans(~own)

    def _pairs(self, start: Floats, end: Floats, *, behind: bool) -> Pairs:
        """Edges and triangles whose boxes meet; `behind`: only where some of the triangle is nearer than the edge."""
        edge, low, high = chopped_edges(start, end)
        piece, place = self._tree.query(diagonals(low - BORDER, high + BORDER))
        if behind:
            nearer = self._nearest[place] > low[piece, 2]
            piece, place = piece[nearer], place[nearer]
        count = len(self._scene.triangles)
        key = np.sort(edge[piece] * np.int64(count) + self._triangle[place])
        # On a million numbers `np.unique` takes fifty times as long as sorting them.
        key = key[np.diff(key, prepend=-1) > 0]
        return Pairs(key // count, key % count)
