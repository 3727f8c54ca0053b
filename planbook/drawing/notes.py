"""The notes beside the title block: what the part's file says, and the box for the stock as measured."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import partial
from typing import Final

from planbook.drawing.frame import BLOCK_HEIGHT
from planbook.drawing.ink import Box
from planbook.drawing.lettering import text_width, wrap
from planbook.drawing.lines import stroke
from planbook.drawing.recording import Ink, Label, LineTo, Pen, Primitive, Pt, Stroke
from planbook.drawing.signs import Sign, draw_sign, sign_width, signs_of
from planbook.drawing.title_block import CAPTION, VALUE
from planbook.statement.model import DimensionStated

_PAD: Final = 2.4
_LINE: Final = 4.2
_STEP: Final = 3
"""Lines by which the room for notes grows."""
_AFTER: Final = 0.9
"""Between a sign and what it means."""
_HEAD: Final = 1.1 + CAPTION + 1.6
_BOX_WIDTH: Final = 22.0
_BOX_HEIGHT: Final = 6.0


@dataclass(frozen=True, slots=True)
class Notes:
    """What is to be said beside the title block; `legend` are the signs that the sheet has, with what they mean."""

    sentences: tuple[str, ...]
    stock_note: str
    legend: tuple[tuple[Sign, str], ...]


def legend_of(dimensions: Iterable[DimensionStated], caliper_tolerance: str) -> tuple[tuple[Sign, str], ...]:
    """The signs that some dimensions have, with what they mean; an older release says no tolerance for caliper work."""
    words = {
        Sign.CALIPER: f"by caliper, {caliper_tolerance} unless stated"
        if caliper_tolerance
        else "work to this by caliper",
        Sign.CRITICAL: "critical to the fit: keep to it",
        Sign.FREE: "yours to change: see “What you may change”",
    }
    used = {sign for dimension in dimensions for sign in signs_of(dimension)}
    return tuple((sign, meaning) for sign, meaning in words.items() if sign in used)


def notes_height(notes: Notes, width: float) -> float:
    """Height in millimetres that the notes need."""
    lines = sum(len(piece) for piece in _wrapped(notes, width)) + sum(len(piece) for _, piece in _legend(notes, width))
    return _HEAD + _LINE * lines + (_stock_height(notes, width) if notes.stock_note else 0.0) + 1.5


def in_steps(height: float) -> float:
    """A height of notes rounded up, so far as it is more than that of the title block, to whole steps of lines."""
    step = _STEP * _LINE
    return BLOCK_HEIGHT + step * math.ceil(max(0.0, height - BLOCK_HEIGHT) / step)


def draw_notes(notes: Notes, box: Box) -> Iterator[Primitive]:
    """A caption, the notes one under the other, and at the foot the box for the measured thickness."""
    yield stroke(Pt(box.left, box.top), Pt(box.right, box.top), pen=Pen.OUTLINE)
    base = box.top + 1.1 + CAPTION
    if notes.sentences or notes.legend:
        yield Label("NOTES", Pt(box.left + _PAD, base), CAPTION, ink=Ink.GREY)
    base += 1.6 + VALUE
    for lines in _wrapped(notes, box.right - box.left):
        for line in lines:
            yield Label(line, Pt(box.left + _PAD, base), VALUE)
            base += _LINE
    for sign, lines in _legend(notes, box.right - box.left):
        yield from draw_sign(sign, partial(_at, Pt(box.left + _PAD, base - VALUE / 2)))
        for line in lines:
            yield Label(line, Pt(box.left + _PAD + _indent(notes), base), VALUE)
            base += _LINE
    if notes.stock_note:
        yield from _stock(notes.stock_note, box)


def _at(start: Pt, along: float, up: float) -> Pt:
    return Pt(start.x + along, start.y - up)


def _indent(notes: Notes) -> float:
    """Where what the signs mean begins, past the widest of them."""
    return max(sign_width(sign) for sign, _ in notes.legend) + _AFTER


def _legend(notes: Notes, width: float) -> list[tuple[Sign, tuple[str, ...]]]:
    """Each sign with the lines of what it means."""
    return [(sign, wrap(meaning, VALUE, width - 2 * _PAD - _indent(notes))) for sign, meaning in notes.legend]


def _wrapped(notes: Notes, width: float) -> list[tuple[str, ...]]:
    return [wrap(sentence, VALUE, width - 2 * _PAD) for sentence in notes.sentences]


def _stock_height(notes: Notes, width: float) -> float:
    return 12.8 + _LINE * len(wrap(notes.stock_note, VALUE, width - 2 * _PAD))


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
