"""One view of a part without dimensions, for a page: features that matter drawn heavier."""

from __future__ import annotations

from collections.abc import Collection
from typing import Final

from planbook.drawing.ink import extent, shifted
from planbook.drawing.recording import Drawing, Label, Pt
from planbook.drawing.scales import scales_for
from planbook.drawing.stated_solid import solid_of_stated
from planbook.drawing.tracing import Setting
from planbook.drawing.views import view_of
from planbook.statement.model import Statement

_PAD: Final = 1.0
_NAME: Final = 2.5


def draw_part_figure(
    statement: Statement,
    part_key: str,
    view: str,
    emphasise: Collection[str] = (),
    width: float = 140.0,
    height: float = 70.0,
) -> Drawing:
    """A view by face name at the largest standard scale that fits, its name and scale under it.

    Raises KeyError for a part or a view that does not exist.
    """
    part = statement.parts[part_key]
    seen = view_of(solid_of_stated(part), view, part.features, frozenset(emphasise))
    x0, y0, x1, y1 = seen.box
    room = width - 8.0, height - 14.0
    scales = scales_for(statement.edition.units)
    scale = next((s for s in scales if (x1 - x0) * s.factor <= room[0] and (y1 - y0) * s.factor <= room[1]), scales[-1])
    strokes = seen.draw(Setting(scale.factor))
    box = extent(strokes)
    moved = [shifted(stroke, _PAD - box.left, _PAD - box.top) for stroke in strokes]
    wide, high = box.right - box.left + 2 * _PAD, box.bottom - box.top + 2 * _PAD
    name = Label(f"{seen.facing.title} {scale}", Pt(_PAD, high + 2.0 + _NAME), _NAME)
    title = f"{part.title}, {seen.facing.title.lower()}"
    return Drawing(max(wide, 40.0), high + 2.0 + _NAME + _PAD, (*moved, name), title)
