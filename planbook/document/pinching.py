"""Pinch points as a table of the chapter on cautions, in brief for a page, and as lines under a step's cautions."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import Final

from markupsafe import Markup

from planbook.document.tables import Cell, Group, Row, Table, columns_of, told_row
from planbook.document.words import as_html
from planbook.source.names import in_row
from planbook.source.sentences import capital
from planbook.statement.model import RowStated, Statement
from planbook.statement.naming import spoken
from planbook.statement.pinch_points import PINCH_POINTS

TITLE: Final = "Pinch points"
_GUARDED: Final = "Out of reach"
_SIDES: Final = ("One", "Other")


def pinch_table(statement: Statement) -> dict[str, Table]:
    """The table by its name; nothing where nothing pinches."""
    rows = statement.lists.get(PINCH_POINTS, ())
    heads = (("Between", "text"), ("Closes from", "text"), ("To", "text"), ("While", "text"))
    within = tuple(_open_rows(rows))
    groups = (*([Group("", within)] if within else []), *_guarded(rows))
    return {PINCH_POINTS: Table(PINCH_POINTS, TITLE, columns_of(heads, within), groups)} if groups else {}


def pinch_places(statement: Statement) -> str:
    """What pinches with what while the piece is used, as a paragraph: for a page that is copied without the others."""
    rows = [row for row in statement.lists.get(PINCH_POINTS, ()) if not row.cells["Guarded"]]
    return Markup("<p>By the computed movement: {}</p>").format(as_html(_in_brief(rows))) if rows else ""


def pinches_of_step(statement: Statement, step: str) -> tuple[Markup, ...]:
    """`Platform with top, to 2.5 mm; with ...`: those that the step makes, by what most of them have in common. What is
    out of reach later is not while the piece is built.
    """
    here = [row for row in statement.lists.get(PINCH_POINTS, ()) if row.cells["Step"] == step]
    return tuple(
        Markup("<b>{}</b> with {}").format(
            as_html(capital(chief)), as_html("; with ".join(f"{other}, to {row.cells['To']}" for other, row in others))
        )
        for chief, others in _by_chief(here)
    )


def _by_chief(rows: Sequence[RowStated]) -> Iterator[tuple[str, list[tuple[str, RowStated]]]]:
    """Each pinch point once, under that of its two which most of those left have in common."""
    left = list(rows)
    while left:
        names = Counter(row.cells[side] for row in left for side in _SIDES)
        chief = max(names, key=lambda name: names[name])
        here = [row for row in left if chief in (row.cells["One"], row.cells["Other"])]
        left = [row for row in left if row not in here]
        yield chief, [(spoken(row.cells["Other" if row.cells["One"] == chief else "One"]), row) for row in here]


def _open_rows(rows: Sequence[RowStated]) -> Iterator[Row]:
    for row in rows:
        if not row.cells["Guarded"]:
            between = capital(f"{row.cells['One']} and {spoken(row.cells['Other'])}")
            yield _row(row, between, row.cells["From"], row.cells["To"], row.cells["While"])


def _guarded(rows: Sequence[RowStated]) -> Iterator[Group]:
    """One for each reason, in one row."""
    for reason in dict.fromkeys(row.cells["Guarded"] for row in rows if row.cells["Guarded"]):
        here = [row for row in rows if row.cells["Guarded"] == reason]
        yield Group(f"{_GUARDED}: {reason}", (_row(here[0], capital(_in_brief(here))),))


def _in_brief(rows: Sequence[RowStated]) -> str:
    """`Platform with link and top; shaft with runner.`"""
    between = (
        f"{_in_a_list(chief)} with {in_row(list(dict.fromkeys(_in_a_list(other) for other, _ in others)), 'and')}"
        for chief, others in _by_chief(rows)
    )
    return f"{'; '.join(between)}."


def _in_a_list(name: str) -> str:
    """`leaf (free half)` of `Leaf, free half`: between commas one of its own misleads."""
    thing, comma, which = name.partition(", ")
    return f"{spoken(thing)} ({which})" if comma else spoken(name)


def _row(row: RowStated, *cells: str) -> Row:
    return Row(tuple(Cell(as_html(cell)) for cell in cells), told=told_row(PINCH_POINTS, row))
