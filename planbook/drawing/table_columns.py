"""Hole tables on paper: rows under a head, in as many columns as needed, beside the views or on pages of their own."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from planbook.drawing.facing import FACINGS
from planbook.drawing.hole_tables import HoleRow, HoleTable
from planbook.drawing.ink import Box
from planbook.drawing.lettering import text_width
from planbook.drawing.lines import LETTER, letter, line_width, stroke
from planbook.drawing.recording import Anchor, Ink, Label, Pen, Primitive, Pt
from planbook.drawing.wording import Line

_ROW: Final = 4.6
_PAD: Final = 2.0
"""At both sides of what stands in a column."""
_BETWEEN: Final = 1.8
"""Between two sizes of one hole."""
GAP: Final = 6.0
"""Between columns of rows, and between a table and the views."""
_HEAD: Final = 2 * _ROW + 1.6
_TITLE: Final = "Holes in {view}, from the corner with the circle"


@dataclass(frozen=True, slots=True)
class Column:
    """Rows of one table that stand under one head."""

    title: str
    axes: str
    rows: tuple[HoleRow, ...]

    @property
    def widths(self) -> tuple[float, float, float, float]:
        """Of the tags, of both places, and of the sizes."""
        tags = max(text_width(row.tag, LETTER) for row in self.rows)
        first, second = (max(line_width(row.places[k]) for row in self.rows) for k in (0, 1))
        sizes = max(sum(line_width(size) + _BETWEEN for size in row.sizes) - _BETWEEN for row in self.rows)
        heads = (text_width("Hole", LETTER), *(text_width(axis, LETTER) for axis in self.axes), 0.0)
        a, b, c, d = (max(pair) + 2 * _PAD for pair in zip((tags, first, second, sizes), heads, strict=True))
        return a, b, c, d

    @property
    def width(self) -> float:
        """Of the whole column in millimetres, its title included."""
        return max(sum(self.widths), text_width(self.title, LETTER))

    @property
    def height(self) -> float:
        """With its head, in millimetres."""
        return _HEAD + _ROW * len(self.rows)


def columns_of(tables: Sequence[HoleTable], height: float) -> tuple[Column, ...]:
    """The tables parted into columns of this height at most."""
    most = max(1, int((height - _HEAD) / _ROW))
    return tuple(
        Column(_TITLE.format(view=_view_words(table.view)), table.axes, table.rows[start : start + most])
        for table in tables
        for start in range(0, len(table.rows), most)
    )


def _view_words(view: str) -> str:
    return f"the {FACINGS[view].title.lower()}"


def width_of(columns: Sequence[Column]) -> float:
    """Of columns beside each other."""
    return sum(column.width for column in columns) + GAP * (len(columns) - 1)


def draw_columns(columns: Sequence[Column], field: Box) -> Iterator[Primitive]:
    """Columns from the left and top of a field."""
    left = field.left
    for column in columns:
        yield from _draw(column, left, field.top)
        left += column.width + GAP


def pages_of(columns: Sequence[Column], width: float) -> tuple[tuple[Column, ...], ...]:
    """The columns that go on each page."""
    pages: list[list[Column]] = []
    for column in columns:
        if pages and width_of([*pages[-1], column]) <= width:
            pages[-1].append(column)
        else:
            pages.append([column])
    return tuple(tuple(page) for page in pages)


def _draw(column: Column, left: float, top: float) -> Iterator[Primitive]:
    """A title, a head between two lines, and the rows, each column of figures set to the right."""
    yield Label(column.title, Pt(left, top + LETTER + 0.6), LETTER)
    edges = [left]
    for width in column.widths:
        edges.append(edges[-1] + width)
    head = top + _ROW + 0.8
    heads = ("Hole", column.axes[0], column.axes[1], "")
    yield stroke(Pt(left, head), Pt(edges[-1], head), pen=Pen.GRID)
    base = head + _ROW - 1.2
    for k, words in enumerate(heads):
        x = edges[k] + _PAD if k in (0, 3) else edges[k + 1] - _PAD - text_width(words, LETTER)
        if words:
            yield Label(words, Pt(x, base), LETTER, ink=Ink.GREY)
    yield stroke(Pt(left, head + _ROW), Pt(edges[-1], head + _ROW), pen=Pen.GRID)
    for row in column.rows:
        base += _ROW
        yield from _row(row, edges, base)
    bottom = base + 1.2
    yield stroke(Pt(left, bottom), Pt(edges[-1], bottom), pen=Pen.GRID)


def _row(row: HoleRow, edges: Sequence[float], base: float) -> Iterator[Primitive]:
    yield from letter(Line(row.tag), Pt(edges[0] + _PAD, base), Anchor.START)
    for k, place in enumerate(row.places, 1):
        yield from letter(place, Pt(edges[k + 1] - _PAD - line_width(place), base), Anchor.START)
    at = edges[3] + _PAD
    for size in row.sizes:
        yield from letter(size, Pt(at, base), Anchor.START)
        at += line_width(size) + _BETWEEN
