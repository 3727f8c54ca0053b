"""Meshes of parts and of placed components: bodies cut from a blank, remembered by geometry."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np
from manifold3d import Manifold, Mesh64, OpType

from planbook.shape.faces import frame_of
from planbook.shape.geometry import Loop, Vec
from planbook.shape.model import Component, Cut, Part
from planbook.shape.solids.bodies import MM, Body, prism, rod
from planbook.shape.solids.climbing import climbing
from planbook.shape.solids.mesh import Mesh, brought_there
from planbook.shape.solids.running_out import run_out
from planbook.shape.solids.surfaces import Floats, Surfaces, joined
from planbook.source.models.part import FaceName


def mesh_of(part: Part) -> Mesh:
    """The solid of a part about its datum corner; without triangles when its features leave nothing."""
    return mesh_of_cuts(part.blank, part.outline, cuts_of(part))


def cuts_of(part: Part) -> tuple[Cut, ...]:
    """All cuts of a part, in the order of its features."""
    return tuple(cut for feature in part.features.values() for cut in feature.cuts)


def mesh_of_component(component: Component) -> Mesh:
    """The solid of a component where it stands in the assembly."""
    return mesh_as_made(component).turned(*stand_of(component))


def mesh_as_made(component: Component) -> Mesh:
    """Its part's about the datum corner, or its rod's about its foot: one and the same mesh for all that are alike."""
    part = component.part
    return mesh_of(part) if part else _rod_mesh(component.rod_radius, component.rod_length, component.rod_bore)


def stand_of(component: Component) -> tuple[Floats, Floats]:
    """The turn, or mirror, (3, 3) and the shift (3,) in millimetres that bring that where the component stands."""
    return brought_there(component.placement, component.part.blank.y if component.part else 0.0)


@lru_cache(maxsize=1024)
def pieces_of(blank: Vec, outline: Loop, cuts: tuple[Cut, ...]) -> tuple[Mesh, ...]:
    """What the cuts leave, each piece that hangs together on its own."""
    solid, surfaces = _carve(blank, outline, cuts)
    return tuple(_read(piece, surfaces) for piece in solid.decompose())


@lru_cache(maxsize=1024)
def mesh_of_cuts(blank: Vec, outline: Loop, cuts: tuple[Cut, ...]) -> Mesh:
    """What the cuts leave of a blank with an outline."""
    return _read(*_carve(blank, outline, cuts))


def body_of_cuts(blank: Vec, outline: Loop, cuts: tuple[Cut, ...]) -> Manifold:
    """The same as the kernel has it, for boolean operations; millimetres."""
    return _carve(blank, outline, cuts)[0]


def spaces_of(blank: Vec, outline: Loop, cuts: tuple[Cut, ...]) -> Manifold:
    """All that cuts take away, as one body."""
    kernel = _Kernel()
    return Manifold.batch_boolean([_space(kernel, cut, blank) for cut in run_out(outline, cuts)], OpType.Add)


@lru_cache(maxsize=256)
def _rod_mesh(radius: float, length: float, bore: float) -> Mesh:
    body = rod(radius, length)
    if not bore:
        return Mesh(body.points, body.triangles, body.faces, body.surfaces)
    kernel = _Kernel()
    return _read(kernel.solid(body) - kernel.solid(rod(bore, length), hollow=True), kernel.surfaces)


@lru_cache(maxsize=1024)
def _carve(blank: Vec, outline: Loop, cuts: tuple[Cut, ...]) -> tuple[Manifold, Surfaces]:
    """The kernel's solid, whose face ids are rows of the surfaces."""
    kernel = _Kernel()
    wood = kernel.solid(prism(frame_of(FaceName.FACE, blank), outline, blank.z, blank=blank))
    removed = [_space(kernel, cut, blank) for cut in run_out(outline, cuts)]
    solid_left = Manifold.batch_boolean([wood, *removed], OpType.Subtract) if removed else wood
    return solid_left, kernel.surfaces


def gap_between(part: Part, one: Cut, other: Cut, most: float) -> float:
    """How far apart (nm) two cuts are in the wood of a part; infinite when that is `most` nm or more."""
    kernel = _Kernel()
    wood = kernel.solid(prism(frame_of(FaceName.FACE, part.blank), part.outline, part.blank.z, blank=part.blank))
    spaces = [_space(kernel, cut, part.blank) ^ wood for cut in (one, other)]
    if any(space.is_empty() for space in spaces):
        return math.inf
    gap = float(spaces[0].min_gap(spaces[1], most * MM))
    return math.inf if gap >= most * MM else gap / MM


def _space(kernel: _Kernel, cut: Cut, blank: Vec) -> Manifold:
    """What a cut takes away, its islands left out."""
    if cut.climbs is not None:
        return kernel.solid(climbing(cut.frame, cut.loop, cut.climbs, blank), hollow=True)
    space = kernel.solid(prism(cut.frame, cut.loop, cut.depth, cut.bottom, blank), hollow=True)
    islands = [kernel.solid(prism(cut.frame, island, cut.depth, blank=blank)) for island in cut.islands]
    return Manifold.batch_boolean([space, *islands], OpType.Subtract) if islands else space


class _Kernel:
    """Hands bodies to the kernel, and keeps one table of all their surfaces."""

    def __init__(self) -> None:
        self._tables: list[Surfaces] = []
        self._rows = 0

    def solid(self, body: Body, *, hollow: bool = False) -> Manifold:
        """The kernel's form of a body; `hollow` for one that is to be taken away."""
        faces = body.faces + self._rows
        self._rows += len(body.surfaces)
        self._tables.append(body.surfaces.turned_inside_out() if hollow else body.surfaces)
        return Manifold(Mesh64(body.points, body.triangles.astype(np.uint64), face_id=faces.astype(np.uint64)))

    @property
    def surfaces(self) -> Surfaces:
        """Of all bodies so far; face ids are its rows."""
        return joined(self._tables)


def _read(solid: Manifold, surfaces: Surfaces) -> Mesh:
    """Out of the kernel in double precision; points that it keeps apart at borders of faces are one again."""
    raw = solid.to_mesh64()
    points = np.asarray(raw.vert_properties, dtype=np.float64)[:, :3]
    number = np.arange(len(points))
    number[np.asarray(raw.merge_from_vert, dtype=np.int64)] = np.asarray(raw.merge_to_vert, dtype=np.int64)
    triangles = number[np.asarray(raw.tri_verts, dtype=np.int64).reshape(-1, 3)]
    used, flat = np.unique(triangles, return_inverse=True)
    faces = np.asarray(raw.face_id, dtype=np.int64)
    return Mesh(points[used], flat.reshape(-1, 3), faces, surfaces)
