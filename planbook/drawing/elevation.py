"""Pictures of the assembly with hidden lines removed: from a side, isometric, taken apart, and as a step adds to it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from typing import Final

import numpy as np

from planbook.drawing.hidden import NATURAL, SIDES, Scene, facing_area, isometric, regions_of, scene_of
from planbook.drawing.picture import Bounds, Canvas, Look, draw_scene
from planbook.drawing.recording import Drawing
from planbook.drawing.trace_lines import Shift, trace_lines
from planbook.shape.model import Component
from planbook.shape.solids import Mesh, mesh_of_component
from planbook.source.models.figures import Corner

PLAIN: Final = Canvas()
_BELOW: Final = 1.6
"""So much more must show from below before a step is shown from there: a person seldom looks at a desk so."""
_MARGIN: Final = 0.35
"""What is left round what a step adds, as part of its greater measure."""
_WORTH: Final = 1.5
"""A picture is cropped if that makes it so much larger."""


def draw_elevation(
    components: Sequence[Component],
    side: str,
    canvas: Canvas = PLAIN,
    *,
    emphasise: Collection[str] = (),
    show: Collection[str] | None = None,
) -> Drawing:
    """The components (all, or those named in `show`) from a side: front, rear, left, right, top or below.

    Components in `emphasise` are tinted with black edges, and dashed where something covers them; all others then turn
    grey. The drawing's height is what is really used.
    """
    chosen = [c for c in components if show is None or c.name in show]
    return draw_scene(scene_of(_meshes(chosen), SIDES[side]), Look(canvas, 1.0, frozenset(emphasise)))


def draw_isometric(
    components: Sequence[Component],
    corner: str,
    canvas: Canvas = PLAIN,
    *,
    emphasise: Collection[str] = (),
    show: Collection[str] | None = None,
    shaded: bool = False,
) -> Drawing:
    """The same from over a corner, or from below one: a value of `Corner`.

    Lengths along the three axes of the assembly are true to the scale of the bar (ISO 5456-3); others are not.
    `shaded`: faces are in tones by the way they face the light.
    """
    chosen = [c for c in components if show is None or c.name in show]
    look = Look(canvas, NATURAL, frozenset(emphasise), shaded=shaded)
    return draw_scene(scene_of(_meshes(chosen), isometric(Corner(corner))), look)


def draw_exploded(
    components: Sequence[Component], corner: str, moves: Mapping[str, Shift], canvas: Canvas = PLAIN
) -> Drawing:
    """The components taken apart: each moved by its entry in `moves` (millimetres in the world), with trace lines."""
    meshes = _meshes(components)
    moved = {name: _moved(mesh, moves.get(name, (0.0, 0.0, 0.0))) for name, mesh in meshes.items()}
    facing = isometric(Corner(corner))
    scene = scene_of(moved, facing)
    return draw_scene(scene, Look(canvas, NATURAL, traces=trace_lines(meshes, moves, scene, facing)))


def draw_step(
    components: Sequence[Component], corner: str | None, added: Collection[str], canvas: Canvas = PLAIN
) -> Drawing:
    """What a step adds in black, the other components grey; cropped to what is added where that is small.

    Without a corner, from the one from which most of what is added shows.
    """
    meshes = _meshes(components)
    scenes = {each: scene_of(meshes, isometric(each)) for each in ([Corner(corner)] if corner else Corner)}
    scene = scenes[best_corner(scenes, added)]
    crop = _crop(scene, added, canvas.width / canvas.height)
    return draw_scene(scene, Look(canvas, NATURAL, frozenset(added), crop))


def best_corner(scenes: Mapping[Corner, Scene], added: Collection[str]) -> Corner:
    """The corner from which the largest part of what is added shows; one below only if it shows far more, the first of
    equals."""
    if len(scenes) == 1:
        return next(iter(scenes))
    most = {corner: _worth(corner, facing_area(scene, added)) for corner, scene in scenes.items()}
    shown: dict[Corner, float] = {}
    for corner in sorted(scenes, key=most.__getitem__, reverse=True):
        if shown and most[corner] < max(shown.values()):  # nor do those after it show as much
            break
        area = sum(region.area for region in regions_of(scenes[corner], added).values())
        shown[corner] = _worth(corner, area)
    return max((corner for corner in scenes if corner in shown), key=shown.__getitem__)


def _worth(corner: Corner, area: float) -> float:
    """Of what shows (mm^2, to a hundred so that the first of equal corners is taken) from a corner."""
    return float(round(area, -2)) / (_BELOW if "below" in corner else 1.0)


def _crop(scene: Scene, added: Collection[str], wanted: float) -> Bounds | None:
    """What is shown round what is added, `wanted` times as wide as high where the scene has so much; None for all."""
    numbers = [number for number, name in enumerate(scene.names) if name in added]
    points = scene.corners[np.isin(scene.owners, numbers)].reshape(-1, 3)[:, :2]
    x0, y0, x1, y1 = scene.box
    if not len(points):
        return None
    low, high = points.min(axis=0), points.max(axis=0)
    half = (high - low) / 2 + _MARGIN * (high - low).max() / 2
    half = np.maximum(half, (half[1] * wanted, half[0] / wanted))
    middle = (low + high) / 2
    left, bottom = np.maximum(middle - half, (x0, y0)).tolist()
    right, top = np.minimum(middle + half, (x1, y1)).tolist()
    larger = min((x1 - x0) / (right - left), (y1 - y0) / (top - bottom))
    return (left, bottom, right, top) if larger >= _WORTH else None


def _meshes(components: Iterable[Component]) -> dict[str, Mesh]:
    return {component.name: mesh_of_component(component) for component in components}


def _moved(mesh: Mesh, by: Shift) -> Mesh:
    """The mesh elsewhere; what its surfaces are does not change, but where their axes lie does."""
    way = np.array(by)
    return Mesh(mesh.points + way, mesh.triangles, mesh.faces, mesh.surfaces.moved(np.eye(3), way))
