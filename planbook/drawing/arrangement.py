"""A part's views on a field with all their dimensions: the largest standard scale at which nothing touches."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Final

from planbook.drawing.block import Block, build_block
from planbook.drawing.callouts import callout_groups, callout_of, is_linear
from planbook.drawing.frame import Page
from planbook.drawing.ink import CLEAR, Box, label_box, segments_of, shifted
from planbook.drawing.layout import Placed, arrange
from planbook.drawing.leaders import Paper, place_callout
from planbook.drawing.recording import Label, Primitive
from planbook.drawing.room import Room
from planbook.drawing.scales import Scale
from planbook.drawing.stated_solid import solid_of_stated
from planbook.drawing.views import View, view_of
from planbook.statement.model import DimensionStated, PartStated

ORDER: Final = ("face", "front_edge", "rear_edge", "right_end", "left_end", "back")


ENDS: Final = ("right_end", "left_end")
_HOPELESS: Final = 8
"""A scale at which more dimensions find no room is not tried in other arrangements."""
_THIN: Final = 14.0
"""An end thinner than this on paper (mm) is shown larger, with its own scale under it."""
_END: Final = 42.0
"""No end is shown larger than this because of that."""


@dataclass(frozen=True, slots=True)
class Arrangement:
    """Views and dimensions on the sheet; `missing` names dimensions for which there was no room."""

    scale: Scale
    primitives: tuple[Primitive, ...]
    missing: tuple[str, ...]
    views: tuple[Placed, ...]


def views_needed(part: PartStated, dimensions: Sequence[DimensionStated]) -> tuple[View, ...]:
    """The face view and every view that a dimension names."""
    named = {"face", *(dimension.view for dimension in dimensions)}
    solid = solid_of_stated(part)
    kinds = {name: feature.kind for name, feature in part.features.items()}
    return tuple(view_of(solid, name, kinds) for name in ORDER if name in named)


def arrange_part(
    part: PartStated,
    dimensions: Sequence[DimensionStated],
    page: Page,
    scales: Sequence[Scale],
    projection: str,
) -> Arrangement | None:
    """Try scales from the largest; the first at which all is placed wins, else the one that misses least."""
    views = views_needed(part, dimensions)
    best: Arrangement | None = None
    for scale in scales:
        if not _could_fit(views, scale, page.field):
            continue
        for placed in _placings(views, scale, dimensions, page, scales, projection):
            most = len(best.missing) if best else len(dimensions)
            found = _with_callouts(placed, part, dimensions, page, scale, most)
            if not found.missing:
                return found
            if best is None or len(found.missing) < len(best.missing):
                best = found
            if len(found.missing) > _HOPELESS:
                break
    return best


def _placings(
    views: Sequence[View],
    scale: Scale,
    dimensions: Sequence[DimensionStated],
    page: Page,
    scales: Sequence[Scale],
    projection: str,
) -> Iterator[tuple[Placed, ...]]:
    """Arrangements at a scale, ends enlarged if they are small; with little width for wide views; ends to scale."""
    room = 0.5 * (page.field.right - page.field.left)
    wide = frozenset(view.name for view in views if (view.box[2] - view.box[0]) * scale.factor > room)
    enlarged = {view.name: _enlarged(view, scale, scales) for view in views}
    plain = dict.fromkeys(enlarged, scale)

    @cache
    def build(view: View, scale: Scale, narrow: bool) -> Block:
        return build_block(view, scale, _linear_in(view, dimensions), narrow)

    tried: list[tuple[dict[str, Scale], frozenset[str]]] = []
    free, every = frozenset[str](), frozenset(enlarged)
    for chosen in ((enlarged, free), (enlarged, wide), (enlarged, every), (plain, free), (plain, wide), (plain, every)):
        if chosen in tried:
            continue
        tried.append(chosen)
        by_view, narrow = chosen
        blocks = [build(view, by_view[view.name], view.name in narrow) for view in views]
        yield from arrange(blocks, page.field, projection, page.keep_out)


def _enlarged(view: View, scale: Scale, scales: Sequence[Scale]) -> Scale:
    """For an end view the largest scale, full size at most, at which it stays small; for other views the sheet's."""
    x0, y0, x1, y1 = view.box
    if view.name not in ENDS or min(x1 - x0, y1 - y0) * scale.factor >= _THIN:
        return scale
    fits = (s for s in scales if scale.factor < s.factor <= 1 and max(x1 - x0, y1 - y0) * s.factor <= _END)
    return next(fits, scale)


def _could_fit(views: Sequence[View], scale: Scale, field: Box) -> bool:
    boxes = [view.box for view in views]
    width = max(b[2] - b[0] for b in boxes) * scale.factor
    height = max(b[3] - b[1] for b in boxes) * scale.factor
    return width <= field.right - field.left and height <= field.bottom - field.top - 12.0


def _linear_in(view: View, dimensions: Sequence[DimensionStated]) -> list[DimensionStated]:
    return [d for d in dimensions if d.view == view.name and is_linear(d)]


def _with_callouts(
    placed: Sequence[Placed],
    part: PartStated,
    dimensions: Sequence[DimensionStated],
    page: Page,
    scale: Scale,
    most: int,
) -> Arrangement:
    """Blocks where they stand, and callouts in the room between; given up once it misses more than `most`."""
    primitives = [shifted(primitive, p.x, p.y) for p in placed for primitive in p.block.primitives]
    paper = _paper(primitives, placed, page)
    missing = [key for p in placed for key in p.block.unplaced]
    by_view: Mapping[str, Placed] = {p.block.name: p for p in placed}
    callouts = [
        (callout_of(group, by_view[group[0].view], part.features), group) for group in callout_groups(dimensions)
    ]
    for callout, group in sorted(callouts, key=lambda pair: (-len(pair[0].lines), pair[0].key)):
        drawn = place_callout(callout, paper) if len(missing) <= most else None
        if drawn is None:
            missing += [dimension.id for dimension in group]
        else:
            primitives += drawn
    return Arrangement(scale, tuple(primitives), tuple(missing), tuple(placed))


def _paper(primitives: Sequence[Primitive], placed: Sequence[Placed], page: Page) -> Paper:
    boxes = [label_box(primitive) for primitive in primitives if isinstance(primitive, Label)]
    strokes = segments_of(primitives)
    room = Room(page.field)
    if page.keep_out:
        room.mark_box(page.keep_out)
    for box in boxes:
        room.mark_box(box.grown(CLEAR))
    room.mark_segments(strokes, CLEAR)
    return Paper(room, boxes, strokes, [p.view_box for p in placed])
