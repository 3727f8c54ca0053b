"""What the piece carries, as a table of the chapter on cautions or of the page that asks for it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from markupsafe import Markup

from planbook.document.tables import Cell, Group, Row, Table, columns_of, told_row
from planbook.document.words import as_html
from planbook.source.sentences import capital
from planbook.statement.loads import BESIDE, LOADS
from planbook.statement.model import RowStated, Statement

TITLE: Final = "What it carries"
_FACTOR: Final = {
    "Test over working load": "{} times the working load",
    "Strength over test load": "{} times the test load",
}
_NUMBERS: Final = {"Working load": ""} | {line: factor for factor, line in BESIDE.items()}
_WORDS: Final = (("Gives first", "Gives first"), ("Test", "Test"), ("Assumes", "Rests on"))


def load_table(statement: Statement) -> dict[str, Table]:
    """The table by its name; nothing where no load is stated."""
    loads = statement.lists.get(LOADS, ())
    groups = tuple(Group(capital(row.cells["Load"]), tuple(_rows(row))) for row in loads)
    heads = (("Load", "size"), ("Stated for this piece", "text"))
    rows = tuple(row for group in groups for row in group.rows)
    return {LOADS: Table(LOADS, TITLE, columns_of(heads, rows), groups)} if groups else {}


def _rows(row: RowStated) -> Iterator[Row]:
    told = told_row(LOADS, row)
    for head, factor in _NUMBERS.items():
        times = f", {_FACTOR[factor].format(row.cells[factor])}" if factor else ""
        yield _row(head, Markup("<b>{}</b>{}").format(as_html(row.cells[head]), times), f"{told}/{head}")
    for column, head in _WORDS:
        yield _row(head, as_html(f"{capital(row.cells[column]).rstrip('.')}."), f"{told}/{column}")


def _row(head: str, words: Markup, told: str) -> Row:
    return Row((Cell(as_html(head)), Cell(words)), told=told)
