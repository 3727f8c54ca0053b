"""The notes beside the title block: what the part's file says, and the box for the stock as measured."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from planbook.drawing.ink import Box
from planbook.drawing.lettering import text_width, wrap
from planbook.drawing.lines import stroke
from planbook.drawing.recording import Ink, Label, LineTo, Pen, Primitive, Pt, Stroke
from planbook.drawing.title_block import CAPTION, VALUE
from planbook.statement.model import PartStated

_PAD: Final = 2.4
_LINE: Final = 4.2
_HEAD: Final = 1.3 + CAPTION + 1.6
_BOX_WIDTH: Final = 22.0
_BOX_HEIGHT: Final = 6.0


def notes_height(part: PartStated, width: float) -> float:
    """Height in millimetres that the notes need."""
    lines = sum(len(piece) for piece in _wrapped(part, width))
    return _HEAD + _LINE * lines + (_stock_height(part, width) if part.stock_note else 0.0) + 1.5


def notes(part: PartStated, box: Box) -> Iterator[Primitive]:
    """A caption, the notes one under the other, and at the foot the box for the measured thickness."""
    yield stroke(Pt(box.left, box.top), Pt(box.right, box.top), pen=Pen.OUTLINE)
    base = box.top + 1.3 + CAPTION
    if part.notes:
        yield Label("NOTES", Pt(box.left + _PAD, base), CAPTION, ink=Ink.GREY)
    base += 1.6 + VALUE
    for lines in _wrapped(part, box.right - box.left):
        for line in lines:
            yield Label(line, Pt(box.left + _PAD, base), VALUE)
            base += _LINE
    if part.stock_note:
        yield from _stock(part.stock_note, box)


def _wrapped(part: PartStated, width: float) -> list[tuple[str, ...]]:
    return [wrap(note, VALUE, width - 2 * _PAD) for note in part.notes]


def _stock_height(part: PartStated, width: float) -> float:
    return 13.5 + _LINE * len(wrap(part.stock_note, VALUE, width - 2 * _PAD))


def _stock(note: str, box: Box) -> Iterator[Primitive]:
    """The accepted range, and a box to write in what was measured."""
    lines = wrap(note, VALUE, box.right - box.left - 2 * _PAD)
    left, bottom = box.left + _PAD, box.bottom - 2.2
    base = bottom - 1.8
    word = "Measured"
    yield Label(word, Pt(left, base), VALUE)
    x = left + text_width(word, VALUE) + 2.0
    corners = Pt(x + _BOX_WIDTH, bottom - _BOX_HEIGHT), Pt(x + _BOX_WIDTH, bottom), Pt(x, bottom)
    yield Stroke(Pt(x, bottom - _BOX_HEIGHT), tuple(LineTo(p) for p in corners), Pen.GRID, closed=True)
    top = bottom - _BOX_HEIGHT - 1.8 - _LINE * (len(lines) - 1)
    for k, line in enumerate(lines):
        yield Label(line, Pt(left, top + k * _LINE), VALUE)
    yield Label("THICKNESS OF THE STOCK", Pt(left, top - VALUE - 1.6), CAPTION, ink=Ink.GREY)
