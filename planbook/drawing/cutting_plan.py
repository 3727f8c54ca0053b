"""A sheet, board or rod with its pieces where they are cut, to scale: references, sizes, cuts by number, offcuts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import Final

from planbook.drawing.box_lettering import Line, letter_box
from planbook.drawing.footprint import footprint
from planbook.drawing.ink import Box, label_box, shifted
from planbook.drawing.inner_boxes import rooms_within
from planbook.drawing.lettering import text_width
from planbook.drawing.lines import stroke
from planbook.drawing.outside_numbers import OUT, numbers_outside
from planbook.drawing.recording import Anchor, Circle, Drawing, Ink, Label, LineTo, Pen, Primitive, Pt, Stroke
from planbook.drawing.scale_bar import HEIGHT as BAR_HEIGHT
from planbook.drawing.scale_bar import scale_bar
from planbook.drawing.stock_on_paper import StockOnPaper, lay
from planbook.statement.cut_order import Numbered
from planbook.statement.model import LayoutStated, PieceStated

_PAD: Final = 4.5
"""Room round the stock for the numbers of cuts."""
_BAR: Final = 40.0
_NUMBER: Final = 1.8


def draw_cutting_plan(
    layout: LayoutStated, order: Sequence[Numbered], room: tuple[float, float], units: str
) -> Drawing:
    """At most `room` wide and high (mm). `order` is that of its cuts; on sheets their numbers stand on their lines."""
    paper = lay(layout, (room[0] - 2 * _PAD, room[1] - 2 * _PAD - BAR_HEIGHT), _PAD)
    drawn: list[Primitive] = [_rectangle(paper, (0.0, 0.0, *layout.size), Pen.EDGE)]
    labels = [label for offcut in layout.offcuts for label in letter_box(*paper.box(offcut.box), _grey(offcut.text))]
    bare = []
    for piece in layout.pieces:
        drawn.append(_outline(paper, piece))
        labels += (lettering := _lettering(paper, piece))
        bare += [] if lettering else [(piece.number, _where(paper, piece))]
    numbers = list(_cut_numbers(paper, order, labels)) if layout.kind == "sheet" else []
    drawn += (*_cut_lines(paper, order), *paper.break_lines(), *labels, *numbers)
    stock = Box(paper.left, paper.top, paper.at(layout.size[0], 0.0).x, paper.bottom)
    outside = numbers_outside(bare, stock, footprint([*labels, *numbers]).boxes)
    above = OUT if any(label_box(each).bottom < paper.top for each in outside if isinstance(each, Label)) else 0.0
    below = OUT if any(label_box(each).top > paper.bottom for each in outside if isinstance(each, Label)) else 0.0
    bottom = paper.bottom + _PAD + BAR_HEIGHT - 2.0 + below
    drawn += (*outside, *scale_bar(paper.scale, _BAR, paper.left, bottom, units))
    if layout.grain:
        drawn += _grain(Pt(room[0] - paper.left, bottom))
    return Drawing(room[0], above + bottom + 1.5, tuple(shifted(each, 0.0, above) for each in drawn), _title(layout))


def _title(layout: LayoutStated) -> str:
    pieces = ", ".join(f"part {piece.number}, {piece.text}" for piece in layout.pieces)
    return f"{layout.title}, {layout.text}, cut into: {pieces}."


def _rectangle(paper: StockOnPaper, box: tuple[float, float, float, float], pen: Pen, fill: str = "") -> Stroke:
    x, y, length, width = box
    corners = ((x, y), (x + length, y), (x + length, y + width), (x, y + width))
    first, *rest = (paper.at(*corner) for corner in corners)
    return Stroke(first, tuple(map(LineTo, rest)), pen, closed=True, fill=fill)


def _outline(paper: StockOnPaper, piece: PieceStated) -> Stroke:
    if not piece.outline:
        return _rectangle(paper, piece.box, Pen.EDGE, "tint")
    outer, *holes = (_ring(paper, ring) for ring in (piece.outline, *piece.holes))
    return replace(outer, fill="tint", holes=tuple(holes))


def _ring(paper: StockOnPaper, corners: Sequence[tuple[float, float]]) -> Stroke:
    first, *rest = (paper.at(*corner) for corner in corners)
    return Stroke(first, tuple(map(LineTo, rest)), Pen.EDGE, closed=True)


def _lettering(paper: StockOnPaper, piece: PieceStated) -> list[Label]:
    """Number and size, or the number alone; nothing where there is no room."""
    number = Line(piece.number, bold=True)
    rooms = [paper.box(box) for box in _rooms(piece)]
    for lines in ((number, Line(piece.text)), (number,)):
        for room in rooms:
            if labels := letter_box(*room, lines):
                return labels
    return []


def _where(paper: StockOnPaper, piece: PieceStated) -> Box:
    """The best rectangle of a piece, on paper."""
    middle, long, wide = paper.box(_rooms(piece)[0])
    return Box(middle.x - long / 2, middle.y - wide / 2, middle.x + long / 2, middle.y + wide / 2)


def _rooms(piece: PieceStated) -> tuple[tuple[float, float, float, float], ...]:
    """Rectangles of wood for lettering, the best first."""
    return rooms_within(piece.outline, piece.holes) if piece.outline else (piece.box,)


def _grey(text: str) -> tuple[Line, ...]:
    return (Line(text, ink=Ink.GREY),)


def _cut_lines(paper: StockOnPaper, order: Iterable[Numbered]) -> Iterator[Stroke]:
    """Trims are dashed."""
    for cut in order:
        for x0, y0, x1, y1 in cut.lines:
            pen = Pen.HIDDEN if cut.trim else Pen.DIMENSION
            yield Stroke(paper.at(x0, y0), (LineTo(paper.at(x1, y1)),), pen)


def _cut_numbers(paper: StockOnPaper, order: Iterable[Numbered], labels: Sequence[Label]) -> Iterator[Primitive]:
    """The number of each cut at an end of its line, where it meets nothing; the list under the picture has them all."""
    taken = [label_box(label) for label in labels]
    for cut in order:
        if cut.trim:
            continue
        text = str(cut.number)
        radius = max(_NUMBER * 0.85, text_width(text, _NUMBER, bold=True) / 2 + 0.4)
        x0, y0, x1, y1 = cut.lines[0]
        spots = (paper.at(x0, y0), paper.at(x1, y1), paper.at((x0 + x1) / 2, (y0 + y1) / 2))
        for spot in spots:
            box = Box(spot.x - radius, spot.y - radius, spot.x + radius, spot.y + radius)
            if not any(box.meets(other) for other in taken):
                taken.append(box)
                yield Circle(spot, radius, Pen.DIMENSION, "white")
                yield Label(text, Pt(spot.x, spot.y + _NUMBER / 2), _NUMBER, Anchor.MIDDLE, bold=True)
                break


def _grain(right: Pt) -> Iterator[Primitive]:
    """A double arrow along the grain, with its word."""
    end, start = Pt(right.x, right.y - 1.0), Pt(right.x - 16.0, right.y - 1.0)
    yield stroke(start, end)
    for tip, back in ((start, 1), (end, -1)):
        wings = (Pt(tip.x + back * 2.0, tip.y + side * 0.55) for side in (-1, 1))
        yield Stroke(tip, tuple(map(LineTo, wings)), None, closed=True, fill="solid")
    yield Label("grain", Pt(start.x - 1.6, right.y), 2.5, Anchor.END, ink=Ink.GREY)
