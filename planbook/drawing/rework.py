"""The picture of a rework: the old shape grey, what goes hatched, what is lacking black, and the new measures."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from planbook.drawing.angles import is_angle
from planbook.drawing.block import Unnamed, lay_out
from planbook.drawing.calling_out import called_out
from planbook.drawing.callouts import is_linear
from planbook.drawing.curves import XY
from planbook.drawing.detail import WORTH, Detail
from planbook.drawing.facing import FACINGS
from planbook.drawing.footprint import footprint, together
from planbook.drawing.ink import extent, shifted
from planbook.drawing.lettering import text_width
from planbook.drawing.picture import polygons_of
from planbook.drawing.recording import Drawing, Ink, Label, Primitive, Pt
from planbook.drawing.rework_layers import Layers, layers_of, seen
from planbook.drawing.scales import Scale, scales_for
from planbook.drawing.tracing import Setting
from planbook.drawing.views import View, detail_of
from planbook.impact import Reshaped
from planbook.statement.model import DimensionStated

_PAD: Final = 1.5
_KEY: Final = 2.5
_KEY_PITCH: Final = 4.5
_SMALL: Final = 6.0
"""What is no larger on paper than so many millimetres is shown again, larger."""
_DETAIL: Final = 40.0
"""Millimetres on paper that the circle of a detail takes at most."""
_ROUND: Final = 0.9
"""Radius of that circle, in parts of what it shows."""
_APART: Final = 10.0


def draw_rework(part: Reshaped, units: str, width: float = 160.0, height: float = 110.0) -> Drawing:
    """The view in which most of what changes is dimensioned, at the largest standard scale at which all finds room.

    If all that differs is small in it, the first of it is shown again in an enlarged detail.
    """
    layers, scales = layers_of(part, _view_of(part)), scales_for(units)
    drawn: list[Primitive] = []
    for scale in scales:
        detail = _detail(layers, scale, scales)
        unnamed = _dimensioned(part, layers.new, scale, detail)
        under = [*layers.under(Setting(scale.factor))]
        clear = replace(unnamed, ink=together([unnamed.ink, footprint(under)]))
        drawn = [*under, *clear.named(moved=False).primitives]
        box = extent(drawn)
        if box.right - box.left <= width and box.bottom - box.top <= height and not unnamed.unplaced:
            break
    if detail is not None:
        drawn += _beside(drawn, _enlarged(layers, detail), width)
    box = extent(drawn)
    moved = [shifted(each, _PAD - box.left, _PAD - box.top) for each in drawn]
    key = tuple(_key(part, box.bottom - box.top + 2 * _PAD))
    whole = extent([*moved, *key])
    title = f"{part.new.title}: {part.impact.because or part.impact.impact.value}"
    return Drawing(whole.right + _PAD, whole.bottom + _PAD, (*moved, *key), title)


def _view_of(part: Reshaped) -> str:
    """The view that has most of the measures; without any, that from which most of what differs is seen."""
    views = Counter(each.view for each in part.dimensions if each.view in FACINGS)
    if views:
        return views.most_common(1)[0][0]
    return max(FACINGS, key=lambda name: sum(seen(each, FACINGS[name]).area for each in (part.goes, part.lacks)))


def _dimensioned(part: Reshaped, view: View, scale: Scale, detail: Detail | None) -> Unnamed:
    marked = view if detail is None else replace(view, details=(detail,))
    here = [each for each in part.dimensions if each.view == view.name]
    laid = lay_out(marked, scale, [each for each in here if _is_laid(each)], False, part.new.dimensioning)
    return called_out(laid, here, part.new.features)


def _is_laid(dimension: DimensionStated) -> bool:
    return is_linear(dimension) or is_angle(dimension)


def _detail(layers: Layers, scale: Scale, scales: Sequence[Scale]) -> Detail | None:
    """A circle round the largest piece that differs, if even that is small at this scale."""
    pieces = [piece for area in (layers.goes, layers.lacks) for piece in polygons_of(area)]
    if not pieces:
        return None
    x0, y0, x1, y1 = max(pieces, key=lambda piece: piece.area).bounds
    reach = max(x1 - x0, y1 - y0)
    larger = [each for each in scales if 2 * _ROUND * reach * each.factor <= _DETAIL]
    if reach * scale.factor > _SMALL or not larger or larger[0].factor < WORTH * scale.factor:
        return None
    centre = XY((x0 + x1) / 2, (y0 + y1) / 2)
    return Detail("A", layers.new.name, centre, _ROUND * reach, (larger[0],), frozenset())


def _enlarged(layers: Layers, detail: Detail) -> list[Primitive]:
    """The detail with its name and scale under it."""
    scale = detail.scales[0]
    setting = Setting(scale.factor)
    drawn = [*layers.under(setting, detail), *detail_of(layers.new, detail).draw(setting)]
    box = extent(drawn)
    words = f"{detail.title} {scale}"
    at = Pt((box.left + box.right - text_width(words, _KEY)) / 2, box.bottom + 2 * _KEY)
    return [*drawn, Label(words, at, _KEY)]


def _beside(drawn: Sequence[Primitive], other: Sequence[Primitive], width: float) -> Iterator[Primitive]:
    """To the right of what is drawn, level with its middle; below it where that would be wider than `width`."""
    here, there = extent(drawn), extent(other)
    if here.right - here.left + _APART + there.right - there.left > width:
        return (shifted(each, here.left - there.left, here.bottom + _APART - there.top) for each in other)
    down = (here.top + here.bottom - there.top - there.bottom) / 2
    return (shifted(each, here.right + _APART - there.left, down) for each in other)


def _key(part: Reshaped, top: float) -> Iterator[Label]:
    """What the tints mean, and what to do."""
    said = ["grey: the piece as it was"]
    said += ["hatched: goes"] if len(part.goes) else []
    said += ["black: wood is wanted there"] if len(part.lacks) else []
    turned = [part.impact.moved_words] if part.impact.turn else []
    lines = [", ".join(said), *turned, *(work.words for work in part.impact.works)]
    for row, text in enumerate(lines):
        at = Pt(_PAD, top + _KEY + row * _KEY_PITCH)
        yield Label(text, at, _KEY, ink=Ink.GREY if row == 0 else Ink.BLACK)
