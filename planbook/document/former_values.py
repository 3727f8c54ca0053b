"""The table of former values for which sheets had no room: each reason stands in it once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from planbook.statement.marks import SheetMark


@dataclass(frozen=True, slots=True)
class FormerRow:
    """A mark of a sheet, what was printed there, and why that changed; a reason that was given names where."""

    sheet: str
    mark: int
    was: str
    why: str


def former_rows(untold: Mapping[str, Sequence[SheetMark]]) -> tuple[FormerRow, ...]:
    """By sheet, in the order of its marks: `as 3` for the reason of mark 3, `as sheet 12, 3` for one elsewhere."""
    given: dict[str, tuple[str, int]] = {}
    rows: list[FormerRow] = []
    for number, marks in untold.items():
        for mark in marks:
            sheet, first = given.setdefault(mark.why, (number, mark.number))
            here = (sheet, first) == (number, mark.number) or not mark.why
            place = f"as {first}" if sheet == number else f"as sheet {sheet}, {first}"
            rows.append(FormerRow(number, mark.number, mark.words, mark.why if here else place))
    return tuple(rows)
