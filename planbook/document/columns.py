"""How wide the columns of a table are: from their words, so that numbers never break and prose breaks least.

Widths that are known before the page is set also spare the typesetter from measuring each cell itself.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from math import ceil
from typing import Final

from planbook.document.words import unbroken
from planbook.drawing.lettering import size_of, text_width

_TEXT, _HEAD = 9.0, 7.5
"""Sizes of the lettering in points, as the style sheet has them."""
_GAP: Final = 3.5
"""Millimetres between columns, as the style sheet has them."""
_POINT: Final = 25.4 / 72
_STEPS, _RAGGED = 12, 1.12
_SPARE: Final = 0.6
"""Millimetres that kerning and rounding may take."""


@dataclass(frozen=True, slots=True)
class Words:
    """What stands in a column: its head, its cells, whether they may break, and whether they are set small."""

    head: str
    cells: Sequence[str]
    breaks: bool
    small: bool = False


def share_width(columns: Sequence[Words], width: float) -> tuple[float, ...]:
    """The millimetres of each column, gaps within, which together fill `width`.

    Every column gets what it needs at least. What is left goes to the columns that still break, in the parts that make
    the table shortest; when none breaks, to all alike.
    """
    least = [_least(column) + _GAP for column in columns]
    wants = [max(0.0, _natural(column) + _GAP - floor) for column, floor in zip(columns, least, strict=True)]
    spare = max(0.0, width - sum(least))
    if sum(wants) > spare:
        given = min(_ways(spare, wants), key=lambda given: _lines(columns, least, given))
    else:
        given = tuple(want + (spare - sum(wants)) / len(columns) for want in wants)
    filled = [floor + more for floor, more in zip(least, given, strict=True)]
    return tuple(each * width / sum(filled) for each in filled)


def _ways(spare: float, wants: Sequence[float]) -> Iterator[tuple[float, ...]]:
    """Ways to share out what is left among those who want it, in steps of a twelfth, none more than it wants."""
    breaking = [place for place, want in enumerate(wants) if want > 0]
    for steps in product(range(_STEPS + 1), repeat=len(breaking) - 1):
        last = _STEPS - sum(steps)
        if last >= 0:
            given = [0.0] * len(wants)
            for place, step in zip(breaking, (*steps, last), strict=True):
                given[place] = min(wants[place], spare * step / _STEPS)
            yield tuple(given)


def _lines(columns: Sequence[Words], least: Sequence[float], given: Sequence[float]) -> int:
    """About how many lines the rows take together: a line is seldom filled to its end."""
    rows: list[int] = [1] * len(columns[0].cells)
    for column, floor, more in zip(columns, least, given, strict=True):
        if column.breaks:
            room = floor + more - _GAP
            for place, text in enumerate(column.cells):
                wide = _width(text, _size(column))
                rows[place] = max(rows[place], 1 if wide <= room else 1 + ceil(wide * _RAGGED / room - 1))
    return sum(rows)


def _least(column: Words) -> float:
    """The longest piece that does not break."""
    cells = [piece for text in column.cells for piece in unbroken(text)] if column.breaks else column.cells
    heads = max((_width(word, _HEAD, bold=True) for word in column.head.split(" ")), default=0.0)
    return max([heads, *(_width(cell, _size(column)) for cell in cells)])


def _natural(column: Words) -> float:
    return max((_width(text, _size(column)) for text in column.cells), default=0.0)


def _size(column: Words) -> float:
    return _HEAD if column.small else _TEXT


def _width(text: str, points: float, *, bold: bool = False) -> float:
    return text_width(text, points * _POINT / size_of(1.0, bold), bold) + _SPARE if text else 0.0
