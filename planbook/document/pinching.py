"""Pinch points as a table of the chapter on cautions, and as lines under the cautions of a step."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Final

from markupsafe import Markup

from planbook.document.tables import Cell, Group, Row, Table, columns_of, told_row
from planbook.document.words import as_html
from planbook.source.sentences import capital
from planbook.statement.model import RowStated, Statement
from planbook.statement.pinch_points import PINCH_POINTS

TITLE: Final = "Pinch points"
_GUARDED: Final = "Out of reach"
_SIDES: Final = ("One", "Other")


def pinch_table(statement: Statement) -> dict[str, Table]:
    """The table by its name; nothing where nothing pinches."""
    rows = statement.lists.get(PINCH_POINTS, ())
    groups = {"": _open_rows(rows), _GUARDED: _guarded_rows(rows)}
    every = [row for group in groups.values() for row in group]
    heads = (("Between", "text"), ("Closes from", "text"), ("To", "text"), ("While", "text"))
    told = tuple(Group(title, group) for title, group in groups.items() if group)
    return {PINCH_POINTS: Table(PINCH_POINTS, TITLE, columns_of(heads, every), told)} if told else {}


def pinches_of_step(statement: Statement, step: str) -> tuple[Markup, ...]:
    """`Platform with top, to 2.5 mm; with ...`: those that the step makes, by what most of them have in common."""
    left = [
        row.cells
        for row in statement.lists.get(PINCH_POINTS, ())
        if row.cells["Step"] == step and not row.cells["Guarded"]
    ]
    lines: list[Markup] = []
    while left:
        names = Counter(cells[side] for cells in left for side in _SIDES)
        chief = max(names, key=lambda name: names[name])
        here = [cells for cells in left if chief in (cells["One"], cells["Other"])]
        left = [cells for cells in left if cells not in here]
        told = (f"{cells['Other' if cells['One'] == chief else 'One']}, to {cells['To']}" for cells in here)
        lines.append(Markup("<b>{}</b> with {}").format(as_html(capital(chief)), as_html("; with ".join(told))))
    return tuple(lines)


def _open_rows(rows: Sequence[RowStated]) -> tuple[Row, ...]:
    return tuple(
        _row(row, row.cells["From"], row.cells["To"], row.cells["While"]) for row in rows if not row.cells["Guarded"]
    )


def _guarded_rows(rows: Sequence[RowStated]) -> tuple[Row, ...]:
    """With the reason in place of where."""
    return tuple(
        _row(row, row.cells["From"], row.cells["To"], capital(row.cells["Guarded"]))
        for row in rows
        if row.cells["Guarded"]
    )


def _row(row: RowStated, *cells: str) -> Row:
    between = capital(f"{row.cells['One']} and {row.cells['Other']}")
    return Row(tuple(Cell(as_html(cell)) for cell in (between, *cells)), told=told_row(PINCH_POINTS, row))
