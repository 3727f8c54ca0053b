"""The assembly in several positions side by side, all to one scale: how it moves, at a glance."""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence
from typing import Final

from planbook.drawing.facing import Facing
from planbook.drawing.hidden import NATURAL, SIDES, Scene, isometric, scene_of
from planbook.drawing.ink import shifted
from planbook.drawing.picture import BAR, Bounds, Canvas, drawn_scene, setting_of
from planbook.drawing.recording import Drawing, Ink, Label, Primitive, Pt
from planbook.drawing.scale_bar import HEIGHT as BAR_HEIGHT
from planbook.drawing.scale_bar import scale_bar
from planbook.shape.model import Component
from planbook.shape.solids import mesh_of_component
from planbook.source.models.figures import Corner

_HEAD: Final = 6.0
"""Millimetres over each picture for its name."""
_GUTTER: Final = 5.0
_LETTER: Final = 2.5


def draw_row(
    frames: Sequence[tuple[str, Sequence[Component]]],
    seen_from: str,
    canvas: Canvas,
    *,
    emphasise: Collection[str] = (),
    show: Collection[str] | None = None,
) -> Drawing:
    """A picture for each frame, under its name, from a side or a corner; in as many columns as make them largest.

    All have one scale and one frame, so that what moves is seen to move. The drawing's height is what is really used.
    """
    is_side = seen_from in SIDES
    facing = SIDES[seen_from] if is_side else isometric(Corner(seen_from))
    scenes = [(name, _scene(components, facing, show)) for name, components in frames]
    enlarged = 1.0 if is_side else NATURAL
    bounds = _union([scene.box for _, scene in scenes])
    columns, cell = _cells(bounds, len(scenes), canvas)
    setting, picture = setting_of(bounds, cell, 0.0, enlarged, bar=False)
    strong = frozenset(emphasise)
    drawn: list[Primitive] = []
    for number, (name, scene) in enumerate(scenes):
        right = (number % columns) * (cell[0] + _GUTTER)
        down = (number // columns) * (picture.bottom + _HEAD + _GUTTER) + _HEAD
        drawn.append(Label(name.replace("_", " "), Pt(right + picture.left, down - 2.0), _LETTER, ink=Ink.GREY))
        inks = drawn_scene(scene, setting, strong & set(scene.names), grey=bool(emphasise))
        drawn += (shifted(each, right, down) for each in inks)
    rows = math.ceil(len(scenes) / columns)
    bottom = rows * (picture.bottom + _HEAD) + (rows - 1) * _GUTTER + BAR_HEIGHT - 1.5
    drawn += scale_bar(setting.scale / enlarged, BAR, picture.left, bottom, canvas.units)
    return Drawing(canvas.width, bottom + 1.5, tuple(drawn), canvas.title)


def _scene(components: Sequence[Component], facing: Facing, show: Collection[str] | None) -> Scene:
    return scene_of({c.name: mesh_of_component(c) for c in components if show is None or c.name in show}, facing)


def _union(boxes: Sequence[Bounds]) -> Bounds:
    lows, highs = [box[:2] for box in boxes], [box[2:] for box in boxes]
    return (
        min(x for x, _ in lows), min(y for _, y in lows), max(x for x, _ in highs), max(y for _, y in highs),
    )  # fmt: skip


def _cells(bounds: Bounds, count: int, canvas: Canvas) -> tuple[int, tuple[float, float]]:
    """How many columns make the pictures largest, and the room of each."""
    wide, high = bounds[2] - bounds[0], bounds[3] - bounds[1]

    def cell(columns: int) -> tuple[float, float]:
        rows = math.ceil(count / columns)
        across = (canvas.width - (columns - 1) * _GUTTER) / columns
        down = (canvas.height - BAR_HEIGHT - (rows - 1) * _GUTTER) / rows - _HEAD
        return across, max(down, 1.0)

    best = max(range(1, count + 1), key=lambda n: (min(cell(n)[0] / wide, cell(n)[1] / high), n))
    return best, cell(best)
