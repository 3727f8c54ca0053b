"""A small isometric picture of the part in a free corner of its sheet, so that who opens it sees what it is.

It takes only room that views, dimensions and tables have left; where none is left there is none.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import Final

import numpy as np

from planbook.drawing.curves import TINY
from planbook.drawing.faceted import mesh_of_solid
from planbook.drawing.footprint import footprint, grown
from planbook.drawing.frame import Page
from planbook.drawing.hidden import Scene, isometric, scene_of
from planbook.drawing.ink import CLEAR, Box
from planbook.drawing.lettering import text_width
from planbook.drawing.picture import on_paper
from planbook.drawing.recording import Ink, Label, Primitive, Pt
from planbook.drawing.room import Room
from planbook.drawing.solid import Prism, Solid
from planbook.drawing.tracing import Setting
from planbook.source.models.figures import Corner

_MOST: Final = (64.0, 42.0)
_LEAST: Final = 26.0
"""Millimetres on paper: no wider and higher, and the longer of the two no shorter."""
_SMALLER: Final = 0.84
"""From one size that is tried to the next."""
_AIR: Final = 4.0
"""Between the picture and what else is drawn."""
_NEAR: Final = 45.0
"""From a corner of the field to the picture at most."""
_WORDS: Final = "not to scale"
_LETTER: Final = 2.5
_UNDER: Final = 2.0
_BELOW_COST: Final = 1.6
"""From below only if so many times as much shows there."""
_ABOVE: Final = (Corner.FRONT_RIGHT, Corner.FRONT_LEFT, Corner.REAR_RIGHT, Corner.REAR_LEFT)
_BELOW: Final = (
    Corner.FRONT_RIGHT_BELOW, Corner.FRONT_LEFT_BELOW, Corner.REAR_RIGHT_BELOW, Corner.REAR_LEFT_BELOW,
)  # fmt: skip


def draw_pictorial(
    solid: Solid, drawn: Sequence[Primitive], views: Sequence[Box], page: Page, most_scale: float
) -> tuple[Primitive, ...]:
    """The picture near that corner of the page's field where it can be largest; none where no corner has room.

    `drawn` is all that stands on the page, `views` are the parts in it; `most_scale` is that of the views.
    """
    room = _room(drawn, views, page)
    scene = _scene(solid)
    x0, y0, x1, y1 = scene.box
    for scale in _scales(x1 - x0, y1 - y0, most_scale):
        width, height = (x1 - x0) * scale, (y1 - y0) * scale
        words = text_width(_WORDS, _LETTER)
        wide, high = max(width, words), height + _UNDER + _LETTER
        corner = _free_corner(room, wide + 2 * _AIR, high + 2 * _AIR)
        if corner is not None:
            left, top = corner.x + _AIR, corner.y + _AIR
            setting = Setting(scale, left + (wide - width) / 2 - x0 * scale, top + y1 * scale)
            at = Pt(left + (wide - words) / 2, top + high)
            return *on_paper(scene, setting), Label(_WORDS, at, _LETTER, ink=Ink.GREY)
    return ()


def _scales(width: float, height: float, most: float) -> Iterator[float]:
    scale = min(_MOST[0] / width, _MOST[1] / height, most)
    while max(width, height) * scale >= _LEAST:
        yield scale
        scale *= _SMALLER


def _room(drawn: Sequence[Primitive], views: Sequence[Box], page: Page) -> Room:
    room = Room(page.field)
    for box in (*views, *((page.keep_out,) if page.keep_out else ())):
        room.mark_box(box)
    ink = footprint(drawn)
    room.mark_boxes(grown(ink.boxes, CLEAR))
    room.mark_strokes(ink.strokes, CLEAR)
    return room


def _free_corner(room: Room, width: float, height: float) -> Pt | None:
    """Left and top of the free place nearest to a corner of the field; at the right and at the top rather."""
    lefts, tops = room.places(width, height, room.rows * room.columns)
    if not len(lefts):
        return None
    field = room.field
    across = np.minimum(lefts - field.left + 2.0, field.right - lefts - width)
    down = np.minimum(tops - field.top, field.bottom - tops - height + 1.0)
    away = np.hypot(across, down)
    best = int(np.argmin(away))
    return Pt(float(lefts[best]), float(tops[best])) if away[best] <= _NEAR else None


@lru_cache(maxsize=256)
def _scene(solid: Solid) -> Scene:
    """Seen from the corner from which most cuts show: above if it is not much more from below."""
    above, below = (max(corners, key=lambda corner: _shown(solid, corner)) for corners in (_ABOVE, _BELOW))
    chosen = below if _shown(solid, below) > _BELOW_COST * _shown(solid, above) else above
    return scene_of({"part": mesh_of_solid(solid)}, isometric(chosen))


def _shown(solid: Solid, corner: Corner) -> int:
    eye = isometric(corner).eye
    return sum(cut.plane.normal.dot(eye) > 0 or _goes_through(cut, solid) for cut in solid.cuts)


def _goes_through(cut: Prism, solid: Solid) -> bool:
    """Whether it is as deep as the part is in its direction: then it shows from both sides."""
    reach = sum(abs(n) * size for n, size in zip(cut.plane.normal, solid.size, strict=True))
    return cut.depth >= reach - TINY
