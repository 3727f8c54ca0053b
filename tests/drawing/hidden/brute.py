"""Visibility the slow way: every point against every triangle, and edges as another library finds them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
import trimesh

from planbook.drawing.facing import Facing
from planbook.shape.solids import Mesh
from planbook.shape.solids.surfaces import Flags, Floats

MARGIN = 0.15
"""Millimetres within which a point may count either way."""


@dataclass(frozen=True)
class Sharp:
    """Straight edges in the viewer's space: (k, 3) starts and ends; `sure` ones must be drawn where they are seen."""

    start: Floats
    end: Floats
    sure: Flags


def turned(meshes: Mapping[str, Mesh], facing: Facing) -> trimesh.Trimesh:
    """All components as one mesh, x to the right, y upwards, z to the eye."""
    turn = np.array([facing.right, facing.up, facing.eye])
    each = [trimesh.Trimesh(mesh.points @ turn.T, mesh.triangles, process=False) for mesh in meshes.values()]
    return trimesh.util.concatenate(each)


def sharp_edges(whole: trimesh.Trimesh) -> Sharp:
    """Edges where triangles meet at an angle; sure where it is more than any facet's, and well seen from the side."""
    pairs, edges, angles = whole.face_adjacency, whole.face_adjacency_edges, whole.face_adjacency_angles
    bends = angles > np.radians(0.1)
    pairs, edges, angles = pairs[bends], edges[bends], angles[bends]
    start, end = whole.vertices[edges[:, 0]], whole.vertices[edges[:, 1]]
    tilt = whole.face_normals[pairs][:, :, 2]
    sure = (angles > np.radians(20)) & (tilt.max(axis=1) > 1e-3)
    sure &= whole.area_faces[pairs].min(axis=1) > 0.1
    return Sharp(start, end, sure)


def clearly_hidden(whole: trimesh.Trimesh, points: Floats) -> Flags:
    """Whether a triangle that faces the viewer lies well before a point, the point well inside it."""
    return _covered(whole, points, MARGIN, MARGIN)


def clearly_seen(whole: trimesh.Trimesh, points: Floats) -> Flags:
    """Whether none lies before it, not even nearly; one that it lies on does not."""
    return ~_covered(whole, points, -MARGIN, 1e-4)


def _covered(whole: trimesh.Trimesh, points: Floats, inner: float, skin: float) -> Flags:
    corners = whole.triangles[whole.face_normals[:, 2] > 1e-6]
    normals = whole.face_normals[whole.face_normals[:, 2] > 1e-6]
    hidden = np.zeros(len(points), dtype=bool)
    for number, point in enumerate(points):
        inside = np.ones(len(corners), dtype=bool)
        for k in range(3):
            a, b = corners[:, k, :2], corners[:, (k + 1) % 3, :2]
            way = b - a
            way = way / np.maximum(np.linalg.norm(way, axis=1), 1e-12)[:, None]
            arm = point[:2] - a
            inside &= way[:, 0] * arm[:, 1] - way[:, 1] * arm[:, 0] > inner
        behind = -np.einsum("ij,ij->i", normals, point - corners[:, 0])
        hidden[number] = bool(np.any(inside & (behind > skin)))
    return hidden
