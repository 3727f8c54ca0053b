"""A sheet, board or rod with its pieces where they are cut, to scale: references, sizes, cuts by number, offcuts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from planbook.drawing.box_lettering import Line, letter_box
from planbook.drawing.inner_boxes import rooms_within
from planbook.drawing.lettering import label_corners, text_width
from planbook.drawing.lines import stroke
from planbook.drawing.recording import Anchor, Circle, Drawing, Ink, Label, LineTo, Pen, Primitive, Pt, Stroke
from planbook.drawing.scale_bar import HEIGHT as BAR_HEIGHT
from planbook.drawing.scale_bar import scale_bar
from planbook.statement.cut_order import Numbered
from planbook.statement.model import Box, LayoutStated, PieceStated

_NM: Final = 1e-6
"""Millimetres in a nanometre."""
_PAD: Final = 4.5
"""Room round the stock for the numbers of cuts."""
_BAR: Final = 40.0
_NUMBER: Final = 1.8
_OUTSIDE: Final = 2.0
_OUT: Final = 5.0
"""How far over or under the stock the numbers stand of pieces that are too small for one."""


@dataclass(frozen=True, slots=True)
class _Paper:
    """Where the stock lies on paper: its lower left corner is at (left, bottom)."""

    scale: float
    left: float
    top: float
    bottom: float

    def at(self, x: float, y: float) -> Pt:
        return Pt(self.left + x * _NM * self.scale, self.bottom - y * _NM * self.scale)

    def box(self, box: Box) -> tuple[Pt, float, float]:
        """Its middle, length and width on paper."""
        x, y, length, width = box
        return self.at(x + length / 2, y + width / 2), length * _NM * self.scale, width * _NM * self.scale


def draw_cutting_plan(
    layout: LayoutStated, order: Sequence[Numbered], room: tuple[float, float], units: str
) -> Drawing:
    """At most `room` wide and high (mm). `order` is that of its cuts; on sheets their numbers stand on their lines."""
    length, width = (each * _NM for each in layout.size)
    scale = min((room[0] - 2 * _PAD) / length, (room[1] - 2 * _PAD - BAR_HEIGHT) / width)
    bare = [piece for piece in layout.pieces if not _lettering(_Paper(scale, 0.0, 0.0, 0.0), piece)]
    high = [piece for piece in bare if piece.box[1] + piece.box[3] / 2 > layout.size[1] / 2]
    low = [piece for piece in bare if piece not in high]
    top = _PAD + (_OUT if high else 0.0)
    paper = _Paper(scale, (room[0] - length * scale) / 2, top, top + width * scale)
    drawn: list[Primitive] = [_rectangle(paper, (0.0, 0.0, *layout.size), Pen.EDGE)]
    labels = [label for offcut in layout.offcuts for label in letter_box(*paper.box(offcut.box), _grey(offcut.text))]
    for piece in layout.pieces:
        drawn.append(_outline(paper, piece))
        labels += _lettering(paper, piece)
    drawn += (*_cut_lines(paper, order), *labels)
    drawn += _cut_numbers(paper, order, labels) if layout.kind == "sheet" else ()
    drawn += (*_outside(paper, high, above=True), *_outside(paper, low, above=False))
    bottom = paper.bottom + _PAD + BAR_HEIGHT - 2.0 + (_OUT if low else 0.0)
    drawn += scale_bar(scale, _BAR, paper.left, bottom, units)
    if layout.grain:
        drawn += _grain(Pt(room[0] - paper.left, bottom))
    return Drawing(room[0], bottom + 1.5, tuple(drawn), _title(layout))


def _title(layout: LayoutStated) -> str:
    pieces = ", ".join(f"part {piece.number}, {piece.text}" for piece in layout.pieces)
    return f"{layout.title}, {layout.text}, cut into: {pieces}."


def _rectangle(paper: _Paper, box: Box, pen: Pen, fill: str = "") -> Stroke:
    x, y, length, width = box
    corners = ((x, y), (x + length, y), (x + length, y + width), (x, y + width))
    first, *rest = (paper.at(*corner) for corner in corners)
    return Stroke(first, tuple(map(LineTo, rest)), pen, closed=True, fill=fill)


def _outline(paper: _Paper, piece: PieceStated) -> Stroke:
    if not piece.outline:
        return _rectangle(paper, piece.box, Pen.EDGE, "tint")
    first, *rest = (paper.at(*corner) for corner in piece.outline)
    return Stroke(first, tuple(map(LineTo, rest)), Pen.EDGE, closed=True, fill="tint")


def _lettering(paper: _Paper, piece: PieceStated) -> list[Label]:
    """Number and size, or the number alone; nothing where there is no room."""
    number = Line(piece.number, bold=True)
    rooms = [paper.box(box) for box in _rooms(piece)]
    for lines in ((number, Line(piece.text)), (number,)):
        for room in rooms:
            if labels := letter_box(*room, lines):
                return labels
    return []


def _rooms(piece: PieceStated) -> tuple[Box, ...]:
    """Rectangles of wood for lettering, the best first."""
    return rooms_within(piece.outline) if piece.outline else (piece.box,)


def _grey(text: str) -> tuple[Line, ...]:
    return (Line(text, ink=Ink.GREY),)


def _cut_lines(paper: _Paper, order: Iterable[Numbered]) -> Iterator[Stroke]:
    """Trims are dashed."""
    for cut in order:
        for x0, y0, x1, y1 in cut.lines:
            pen = Pen.HIDDEN if cut.trim else Pen.DIMENSION
            yield Stroke(paper.at(x0, y0), (LineTo(paper.at(x1, y1)),), pen)


def _cut_numbers(paper: _Paper, order: Iterable[Numbered], labels: Sequence[Label]) -> Iterator[Primitive]:
    """The number of each cut at an end of its line, where it meets nothing; the list under the picture has them all."""
    taken = [_box_of(label) for label in labels]
    for cut in order:
        if cut.trim:
            continue
        text = str(cut.number)
        radius = max(_NUMBER * 0.85, text_width(text, _NUMBER, bold=True) / 2 + 0.4)
        x0, y0, x1, y1 = cut.lines[0]
        spots = (paper.at(x0, y0), paper.at(x1, y1), paper.at((x0 + x1) / 2, (y0 + y1) / 2))
        for spot in spots:
            box = spot.x - radius, spot.y - radius, spot.x + radius, spot.y + radius
            if not any(_meet(box, other) for other in taken):
                taken.append(box)
                yield Circle(spot, radius, Pen.DIMENSION, "white")
                yield Label(text, Pt(spot.x, spot.y + _NUMBER / 2), _NUMBER, Anchor.MIDDLE, bold=True)
                break


def _box_of(label: Label) -> Box:
    corners = label_corners(label)
    xs, ys = [p.x for p in corners], [p.y for p in corners]
    return min(xs), min(ys), max(xs), max(ys)


def _meet(a: Box, b: Box) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def _outside(paper: _Paper, bare: Sequence[PieceStated], *, above: bool) -> Iterator[Primitive]:
    """Numbers over or under the stock, from left to right, each with a leader to its piece."""
    free = 0.0
    away = -1.0 if above else 1.0
    edge = paper.top if above else paper.bottom
    for piece in sorted(bare, key=lambda each: each.box[0] + each.box[2] / 2):
        middle, _, _ = paper.box(piece.box)
        text = piece.number
        width = text_width(text, _OUTSIDE, bold=True)
        x = max(middle.x, free + width / 2)
        free = x + width / 2 + 1.2
        near = edge + away * (_OUT - _OUTSIDE)
        yield stroke(middle, Pt(x, near - away * 0.6))
        yield Circle(middle, 0.35, None, "solid")
        yield Label(text, Pt(x, near if above else near + _OUTSIDE), _OUTSIDE, Anchor.MIDDLE, bold=True)


def _grain(right: Pt) -> Iterator[Primitive]:
    """A double arrow along the grain, with its word."""
    end, start = Pt(right.x, right.y - 1.0), Pt(right.x - 16.0, right.y - 1.0)
    yield stroke(start, end)
    for tip, back in ((start, 1), (end, -1)):
        wings = (Pt(tip.x + back * 2.0, tip.y + side * 0.55) for side in (-1, 1))
        yield Stroke(tip, tuple(map(LineTo, wings)), None, closed=True, fill="solid")
    yield Label("grain", Pt(start.x - 1.6, right.y), 2.5, Anchor.END, ink=Ink.GREY)
