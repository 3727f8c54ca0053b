"""A sheet's revision table: under each number what was printed before, and why that changed.

It stands in what room the sheet has left, as near to the title block as that goes.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from planbook.drawing.footprint import Floats
from planbook.drawing.ground import Ground
from planbook.drawing.ink import Box
from planbook.drawing.lettering import text_width, wrap
from planbook.drawing.lines import stroke
from planbook.drawing.recording import Ink, Label, LineTo, Pen, Primitive, Pt, Stroke
from planbook.drawing.title_block import CAPTION, VALUE
from planbook.drawing.triangles import height_of, triangle
from planbook.statement.marks import SheetMark

Told = tuple[SheetMark, bool]
"""A mark, and whether a triangle stands at its place."""
_HEAD: Final = 4.6
_LINE: Final = 3.7
_PAD: Final = 1.4
_NUMBER: Final = 8.0
"""Width of the column of numbers."""
_WIDTHS: Final = (120.0, 96.0, 76.0, 60.0)
_SHARE: Final = 0.42
"""Of what the number leaves, for the former value where reasons stand beside it."""
_MOST_LINES: Final = 3
_AIR: Final = 1.2
"""Room round the table."""
_MORE: Final = "The rest: see “Former values”"
_ELSEWHERE: Final = "Changed: see “Former values”"


@dataclass(frozen=True, slots=True)
class _Row:
    number: int
    was: tuple[str, ...]
    why: tuple[str, ...]

    @property
    def height(self) -> float:
        lines = max(len(self.was), len(self.why))
        return max(height_of(self.number) + 1.2, _LINE * lines + _PAD)


@dataclass(frozen=True, slots=True)
class _Table:
    """Rows set for one width; `split` is where the reasons begin, the whole width where there are none."""

    rows: tuple[_Row, ...]
    width: float
    split: float
    cut: bool = False

    @property
    def height(self) -> float:
        return _HEAD + sum(row.height for row in self.rows) + (_LINE + _PAD if self.cut else 0.0)

    @property
    def holds_its_words(self) -> bool:
        """Whether no word is longer than its column is wide."""
        columns = ((row.was, self.split - _NUMBER) for row in self.rows)
        reasons = ((row.why, self.width - self.split) for row in self.rows)
        return all(text_width(line, VALUE) <= room for lines, room in (*columns, *reasons) for line in lines)


def draw_table(told: Sequence[Told], since: str, ground: Ground) -> tuple[tuple[Primitive, ...], tuple[SheetMark, ...]]:
    """The table of all marks of a page, noted on the ground, and the marks for which it had no room.

    Where not even one row has room, a line says where the former values stand; that may be inside a view.
    """
    line = _line(ground.places(text_width(_ELSEWHERE, VALUE) + 2 * _AIR, VALUE + 2 * _AIR), ground.block)
    ground.close()
    for count in range(len(told), 0, -1):
        for table in _tables(told, count, since):
            spot = _spot(table, ground) if table.holds_its_words else None
            if spot is not None:
                ground.take(spot)
                return tuple(_draw(table, spot, since)), tuple(mark for mark, _ in told[count:])
    return line, tuple(mark for mark, _ in told)


def _line(places: Floats, block: Box) -> tuple[Primitive, ...]:
    spot = _nearest_place(places, block)
    return (Label(_ELSEWHERE, Pt(spot.left + _AIR, spot.bottom - _AIR), VALUE),) if spot else ()


def _tables(told: Sequence[Told], count: int, since: str) -> Iterator[_Table]:
    """The first of the marks as a table: with reasons in several widths; then without, for the change log has them."""
    marks, cut = told[:count], count < len(told)
    head = text_width(_was_in(since), CAPTION) + 2 * _PAD
    longest = max(text_width(_was(*each), VALUE) for each in marks) + _PAD
    if any(mark.why for mark, _ in marks):
        for width in _WIDTHS:
            split = _NUMBER + max(head, min(longest, _SHARE * (width - _NUMBER)))
            seen: dict[str, int] = {}
            yield _Table(tuple(_row(*each, split, width, seen) for each in marks), width, split, cut)
    least = max(head, text_width(_MORE, VALUE) + _PAD if cut else 0.0)
    for width in _WIDTHS:
        whole = _NUMBER + max(least, min(longest, width - _NUMBER))
        yield _Table(tuple(_row(*each, whole, whole, None) for each in marks), whole, whole, cut)


def _was_in(since: str) -> str:
    return f"WAS IN VERSION {since}".upper()


def _was(mark: SheetMark, pointed: bool) -> str:
    return mark.beside if pointed else mark.words


def _row(mark: SheetMark, pointed: bool, split: float, width: float, seen: dict[str, int] | None) -> _Row:
    """A reason that was `seen` in the table is named by the number where it stands; None leaves reasons out."""
    was = _short(_was(mark, pointed), split - _NUMBER - _PAD / 2)
    if seen is None or not mark.why:
        return _Row(mark.number, was, ())
    why = f"as {seen[mark.why]}" if mark.why in seen else mark.why
    seen.setdefault(mark.why, mark.number)
    return _Row(mark.number, was, _short(why, width - split - _PAD))


def _short(text: str, width: float) -> tuple[str, ...]:
    lines = wrap(text, VALUE, width)
    if len(lines) <= _MOST_LINES:
        return lines
    last = lines[_MOST_LINES - 1]
    while " " in last and text_width(f"{last} …", VALUE) > width:
        last = last.rpartition(" ")[0]
    return (*lines[: _MOST_LINES - 1], f"{last} …")


def _spot(table: _Table, ground: Ground) -> Box | None:
    """The free place that is nearest to the title block's upper left corner."""
    spot = _nearest_place(ground.places(table.width + 2 * _AIR, table.height + 2 * _AIR), ground.block)
    return spot.grown(-_AIR) if spot else None


def _nearest_place(places: Floats, block: Box) -> Box | None:
    if not len(places):
        return None
    corner = Pt(block.left, block.top)
    away = np.maximum(0.0, np.maximum(corner.x - places[:, 2], places[:, 0] - corner.x)) + abs(corner.y - places[:, 3])
    return Box(*places[int(np.argmin(away))].tolist())


def _draw(table: _Table, box: Box, since: str) -> Iterator[Primitive]:
    corners = Pt(box.right, box.top), Pt(box.right, box.bottom), Pt(box.left, box.bottom)
    yield Stroke(Pt(box.left, box.top), tuple(map(LineTo, corners)), Pen.DIMENSION, closed=True)
    base = box.top + (_HEAD + CAPTION) / 2
    yield Label(_was_in(since), Pt(box.left + _NUMBER, base), CAPTION, ink=Ink.GREY)
    if table.split < table.width:
        yield Label("CHANGED BECAUSE", Pt(box.left + table.split, base), CAPTION, ink=Ink.GREY)
    top = box.top + _HEAD
    for row in table.rows:
        yield stroke(Pt(box.left, top), Pt(box.right, top), pen=Pen.GRID)
        yield from triangle(row.number, Pt(box.left + _NUMBER / 2, top + (row.height + height_of(row.number)) / 2))
        yield from _lettered(row.was, box.left + _NUMBER, top, row.height)
        yield from _lettered(row.why, box.left + table.split, top, row.height)
        top += row.height
    if table.cut:
        yield stroke(Pt(box.left, top), Pt(box.right, top), pen=Pen.GRID)
        yield from _lettered((_MORE,), box.left + _NUMBER, top, _LINE + _PAD)


def _lettered(lines: Sequence[str], left: float, top: float, height: float) -> Iterator[Label]:
    """Lines of lettering in the middle of a row."""
    base = top + (height - _LINE * (len(lines) - 1) + VALUE) / 2
    return (Label(line, Pt(left, base + _LINE * at), VALUE) for at, line in enumerate(lines))
