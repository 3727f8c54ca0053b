"""A block: one view with its linear dimensions and its name, free of overlaps within itself."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from planbook.drawing.angles import corners_of, is_angle, place_angles
from planbook.drawing.curves import XY
from planbook.drawing.footprint import NOTHING, Footprint, boxes_met, footprint, grown, strokes_met, together
from planbook.drawing.ink import Box, Segment, around, label_box, segments_of
from planbook.drawing.ledger import Ledger
from planbook.drawing.lettering import text_width
from planbook.drawing.linear import place_spans
from planbook.drawing.recording import Ink, Label, Primitive, Pt
from planbook.drawing.running import place_running, running_groups
from planbook.drawing.scales import Scale
from planbook.drawing.side import Side
from planbook.drawing.solid import XYZ
from planbook.drawing.tracing import Setting
from planbook.drawing.views import View
from planbook.drawing.ways import FIRST_ROW, Span
from planbook.drawing.wording import linear_lines
from planbook.statement.model import DimensionStated

NAME: Final = 3.5
_SMALL: Final = 2.5
_MOVED: Final = "view moved"
"""Under the name of a view that does not stand where the projection method would have it."""
_PITCH: Final = 4.2
_UNDER: Final = 4.5
"""From what stands lowest to the top of the view's name."""
_AIR: Final = 2.4
MM: Final = 1e-6


@dataclass(frozen=True, slots=True)
class Block:
    """Primitives with the view's own zero at (0, 0); `view_box` is the box of the part in it, `box` of everything.

    `called` are the keys of the callouts that stand in it; most find room between blocks.
    """

    view: View
    scale: Scale
    view_box: Box
    box: Box
    primitives: tuple[Primitive, ...]
    ink: Footprint
    unplaced: tuple[str, ...]
    called: frozenset[str] = frozenset()

    @property
    def name(self) -> str:
        """The view's face name."""
        return self.view.name


def bare_block(view: View, scale: Scale) -> Block:
    """The view with nothing but room for its name: the least that any block of it can take."""
    x0, y0, x1, y1 = (scale.factor * v for v in view.box)
    box = Box(x0, -y1, x1, -y0)
    return Block(view, scale, box, Box(x0, -y1, x1, -y0 + _UNDER + NAME), (), NOTHING, ())


@dataclass(frozen=True, slots=True)
class Unnamed:
    """A view with its dimensions round it, before its name is put where they leave room."""

    view: View
    scale: Scale
    view_box: Box
    primitives: tuple[Primitive, ...]
    ink: Footprint
    unplaced: tuple[str, ...]
    called: frozenset[str] = frozenset()

    def named(self, moved: bool) -> Block:
        """The block; `moved` says so under the name."""
        name = _name(self.view, self.scale, self.view_box, self.ink, moved)
        ink = together([self.ink, footprint(name)])
        drawn = (*self.primitives, *name)
        return Block(self.view, self.scale, self.view_box, ink.extent, drawn, ink, self.unplaced, self.called)


def lay_out(
    view: View, scale: Scale, dimensions: Sequence[DimensionStated], narrow: bool, styles: Mapping[str, str]
) -> Unnamed:
    """Lay one view's linear dimensions and angles round it at a scale; `styles` are those of the part.

    Angles come last, since they cross more; where one then finds no room, they come first if that leaves less out.
    """
    setting = Setting(scale.factor)
    strokes = view.draw(setting)
    x0, y0, x1, y1 = view.box
    view_box = around([setting(XY(x0, y0)), setting(XY(x1, y1))])
    linear = [dimension for dimension in dimensions if not is_angle(dimension)]
    spans = [replace(span_of(each, view, setting), style=styles.get(f"{view.name}/{each.axis}", "")) for each in linear]
    corners = [corners_of(dimension, view.facing, setting) for dimension in dimensions if is_angle(dimension)]

    def entered(angles_first: bool) -> tuple[Ledger, tuple[str, ...], tuple[str, ...]]:
        ledger = Ledger(walls=[segment for segment in segments_of(strokes) if _is_square(segment)])
        _mark_cuts(view, setting, view_box, spans, ledger)
        _letter_details(view, setting, strokes, ledger)
        missing = place_angles(corners, strokes, ledger, _extended(spans, view_box)) if angles_first else ()
        left = list(spans)
        for group in running_groups(left):
            if place_running(group, view_box, ledger):
                left = [span for span in left if span not in group]
        ledger, unplaced = place_spans(left, view_box, ledger, narrow)
        missing = missing if angles_first else place_angles(corners, strokes, ledger)
        return ledger, tuple(span.key for span in unplaced), missing

    ledger, unplaced, missing = entered(angles_first=False)
    if missing:
        ledger, unplaced, missing = min(
            ((ledger, unplaced, missing), entered(angles_first=True)), key=lambda each: len(each[1]) + len(each[2])
        )
    drawn = (*strokes, *ledger.drawn())
    return Unnamed(view, scale, view_box, drawn, footprint(drawn), (*unplaced, *missing))


def _extended(spans: Sequence[Span], box: Box) -> list[Segment]:
    """Where dimensions still to come may want their extension lines."""
    out = box.grown(FIRST_ROW)
    return [
        Segment(p, Pt(p.x, y) if span.level else Pt(x, p.y))
        for span in spans
        for p in (span.a, span.b)
        for x, y in ((out.left, out.top), (out.right, out.bottom))
    ]


def _mark_cuts(view: View, setting: Setting, box: Box, spans: Sequence[Span], ledger: Ledger) -> None:
    """The ends of cutting planes, before any dimension: their letters stand where no extension line will."""
    for mark in view.marks:
        taken = [p.y if mark.level else p.x for span in spans if span.level != mark.level for p in (span.a, span.b)]
        taken += [] if mark.level else [setting(XY(each.x, 0.0)).x for each in view.breaks]
        for end in mark.draw(box, setting, taken):
            ledger.boxes += [label_box(each) for each in end if isinstance(each, Label)]
            ledger.strokes += segments_of(end)
            ledger.primitives += end


def _letter_details(view: View, setting: Setting, strokes: Sequence[Primitive], ledger: Ledger) -> None:
    """The letters at the circles of details, before any dimension."""
    edges = segments_of(strokes, hatching=True) if view.details else []
    for detail in view.details:
        label = detail.lettered(setting, ledger.boxes, [*edges, *ledger.strokes])
        ledger.boxes.append(label_box(label))
        ledger.primitives.append(label)


def span_of(dimension: DimensionStated, view: View, setting: Setting) -> Span:
    """A linear dimension as this view shows it."""
    a, b = (setting(view.facing.flat(XYZ(*(c * MM for c in p)))) for p in dimension.points[:2])
    overall = dimension.feature == "blank"
    side = Side(dimension.side) if dimension.side else None
    return Span(a, b, is_level(dimension, view), linear_lines(dimension), dimension.id, overall, side, dimension.row)


def is_level(dimension: DimensionStated, view: View) -> bool:
    """Whether a linear dimension is measured from left to right in a view."""
    axis = XYZ(*(float(dimension.axis == name) for name in "xyz"))
    return abs(axis.dot(view.facing.right)) > abs(axis.dot(view.facing.up))


def _is_square(segment: Segment) -> bool:
    (a, b) = segment
    return abs(a.x - b.x) < 1e-6 or abs(a.y - b.y) < 1e-6


def _name(view: View, scale: Scale, box: Box, drawn: Footprint, moved: bool) -> tuple[Label, ...]:
    """The view's name in words with its scale: under the view, in the first room that its dimensions leave."""
    title, ratio = view.title, str(scale)
    words = [*([view.section.pattern.words] if view.section else ()), *([_MOVED] if moved else ())]
    words = [word for word in words if word]
    widths = text_width(title, NAME) + 2.0 + text_width(ratio, _SMALL), *(text_width(word, _SMALL) for word in words)
    width, under = max(widths), _PITCH * len(words)
    boxes = grown(drawn.boxes, _AIR)
    strokes = drawn.strokes[drawn.strokes[:, 1::2].max(axis=1) > box.bottom]
    lowest = drawn.extent.bottom + _UNDER + NAME
    base = box.bottom + _UNDER + NAME
    while base < lowest:
        for left in ((box.left + box.right - width) / 2, box.left, box.right - width):
            place = Box(left, base - NAME, left + width, base + under)
            if not boxes_met(boxes, place).any() and not strokes_met(strokes, place.grown(_AIR)).any():
                return _name_at(title, ratio, left, base, words)
        base += 1.0
    return _name_at(title, ratio, (box.left + box.right - width) / 2, lowest, words)


def _name_at(title: str, ratio: str, left: float, base: float, words: Sequence[str]) -> tuple[Label, ...]:
    """The name with its scale beside it, and each of the words in a line under it."""
    return (
        Label(title, Pt(left, base), NAME),
        Label(ratio, Pt(left + text_width(title, NAME) + 2.0, base), _SMALL, ink=Ink.GREY),
        *(Label(word, Pt(left, base + _PITCH * (k + 1)), _SMALL, ink=Ink.GREY) for k, word in enumerate(words)),
    )
