"""Tables as values: the lists of a statement, its named dimensions, its revisions. Templates only set them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Final

from markupsafe import Markup

from planbook.document.columns import Words, share_width
from planbook.document.words import as_html, long_date
from planbook.statement.model import ParameterStated, RowStated, Statement

_DATE: Final = re.compile(r"\d{4}-\d\d-\d\d")
LISTS: Final = {
    "tools": "Tools",
    "materials": "Materials",
    "hardware": "Hardware",
    "parts": "Parts list",
    "dimensions": "Table of dimensions",
}
"""The tables of the lists chapter in the order in which they stand, with their titles."""

_TABLE_WIDTH: Final = 170.0
"""Millimetres from margin to margin, on either paper."""
_BREAK: Final = frozenset({"text"})
"""The looks whose cells may break into lines."""
_OF_MARKET: Final = ("stock.", "hardware.")
_FIGURES: Final = re.compile(r"[\d\s./×+±,()\[\]°-]+")
"""What a column of figures holds and nothing else: it is set to the right with figures of one width."""


@dataclass(frozen=True, slots=True)
class Column:
    """`look` is a class of the style sheet: "text", "figures", "size", "name", or "no" for numbers that head rows, with
    "second" for lengths of the other system. `share` is the column's part of the table's width in per cent.
    """

    title: Markup
    look: str = "text"
    share: float = 0.0


@dataclass(frozen=True, slots=True)
class Cell:
    """`mark` says what is printed, as in prose: "parameter:ramp.rise"; empty for plain words."""

    html: Markup
    mark: str = ""


@dataclass(frozen=True, slots=True)
class Row:
    """`anchor` is what links aim at, "" for none; the first cell is the head of the row."""

    cells: tuple[Cell, ...]
    anchor: str = ""


@dataclass(frozen=True, slots=True)
class Group:
    """Rows under one heading of their own, "" without."""

    title: str
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """A whole table; `name` is the list that it shows."""

    name: str
    title: str
    columns: tuple[Column, ...]
    groups: tuple[Group, ...]


def list_tables(statement: Statement) -> Mapping[str, Table]:
    """The tables that hold anything, by name, in the order of LISTS."""
    tables = {}
    for name, title in LISTS.items():
        if name == "dimensions":
            table = dimension_table(statement)
        else:
            table = rows_table(name, title, statement.lists.get(name, ()), statement)
        if table.groups:
            tables[name] = table
    return tables


def rows_table(name: str, title: str, rows: tuple[RowStated, ...], statement: Statement) -> Table:
    """A list as stated. Columns are those in which any row says something, in order of first appearance."""
    names = tuple(dict.fromkeys(column for row in rows for column, text in row.cells.items() if text))
    texts = {column: tuple(row.cells.get(column, "") for row in rows) for column in names}
    columns = _columns(
        [(_heading(column), _look(texts[column], column == names[0]), texts[column]) for column in names]
    )
    sheets = {column: _sheet_links(statement) for column in names if column.lower() == "sheet"}
    body = tuple(
        Row(
            tuple(_cell(row.cells.get(column, ""), sheets.get(column, {})) for column in names),
            _anchor(name, row, statement),
        )
        for row in rows
    )
    return Table(name, title, columns, (Group("", body),) if body else ())


def change_tables(statement: Statement) -> tuple[Table, ...]:
    """The revision table and the change log: neighbours with the same columns make one table."""
    tables: list[Table] = []
    for _, group in groupby(statement.changes, key=lambda row: tuple(row.cells)):
        title = "What changed" if tables else "Revisions"
        tables.append(rows_table("changes", title, tuple(group), statement))
    return tuple(tables)


def dimension_table(statement: Statement) -> Table:
    """All named dimensions: meaning, name, both units in columns of their own, and tolerances if there are any.

    What the market gives (stock.*, hardware.*) has lists of its own, and what moves with the driver has no one measure.
    """
    own, other = _units(statement)
    named = tuple(
        each for each in statement.parameters.values() if not each.name.startswith(_OF_MARKET) and not each.moving
    )
    heads = [("Dimension", "text"), ("Name", "name"), (own, "figures"), (other, "figures"), ("Tolerance", "figures")]
    if not any(parameter.tolerance for parameter in named):
        heads.pop()
    groups = tuple(
        Group(
            head.replace("_", " ").capitalize(),
            tuple(_dimension_row(each, (own, other), len(heads)) for each in members),
        )
        for head, members in _by_head(named).items()
    )
    rows = [row for group in groups for row in group.rows]
    columns = _columns(
        [(title, look, tuple(_plain(row.cells[at]) for row in rows)) for at, (title, look) in enumerate(heads)]
    )
    return Table("dimensions", LISTS["dimensions"], columns, groups)


def _columns(told: Sequence[tuple[str, str, tuple[str, ...]]]) -> tuple[Column, ...]:
    """Columns from their titles, looks and texts, as wide as their words ask."""
    words = [Words(title, texts, look in _BREAK, "second" in look) for title, look, texts in told]
    shares = share_width(words, _TABLE_WIDTH) if words else ()
    return tuple(
        Column(as_html(title), look, round(100 * share / _TABLE_WIDTH, 2))
        for (title, look, _), share in zip(told, shares, strict=True)
    )


def _plain(cell: Cell) -> str:
    return cell.html.striptags().replace("\N{NO-BREAK SPACE}", " ")


def _dimension_row(parameter: ParameterStated, units: tuple[str, str], width: int) -> Row:
    printed = parameter.printed
    last = parameter.name.rpartition(".")[2].replace("_", " ")
    means = parameter.means or last
    cells = (
        Cell(as_html(means[:1].upper() + means[1:])),
        Cell(as_html(parameter.name)),
        Cell(as_html(_measure(printed.text, printed.unit, units[0])), f"parameter:{parameter.name}"),
        Cell(as_html(_measure(printed.other, printed.other_unit, units[1]))),
        Cell(as_html(parameter.tolerance)),
    )
    return Row(cells[:width])


def _measure(text: str, unit: str, column: str) -> str:
    """Without its unit where the column's head names it; a force or a mass under "mm" says what it is."""
    return text if not text or unit == column else f"{text}{_space(unit)}{unit}"


def _by_head(named: Iterable[ParameterStated]) -> Mapping[str, tuple[ParameterStated, ...]]:
    heads: dict[str, list[ParameterStated]] = {}
    for parameter in named:
        heads.setdefault(parameter.name.partition(".")[0], []).append(parameter)
    return {head: tuple(members) for head, members in heads.items()}


def _units(statement: Statement) -> tuple[str, str]:
    return ("in", "mm") if statement.edition.units == "inch" else ("mm", "in")


def _space(unit: str) -> str:
    return "" if unit in {"", "°"} else " "


def _heading(column: str) -> str:
    words = column.replace("_", " ")
    return words[:1].upper() + words[1:]


def _look(texts: tuple[str, ...], first: bool) -> str:
    if not all(_FIGURES.fullmatch(text) and not _DATE.fullmatch(text) for text in texts if text):
        return "text"
    if first:
        return "no"
    look = "size" if any("×" in text for text in texts) else "figures"
    return f"{look} second" if all(text.startswith("[") for text in texts if text) else look


def _sheet_links(statement: Statement) -> Mapping[str, str]:
    return {number: f"#sheet.{number}" for number in statement.sheets}


def _cell(text: str, links: Mapping[str, str]) -> Cell:
    html = as_html(long_date(text) if _DATE.fullmatch(text) else text)
    if text in links:
        html = Markup('<a class="ref" href="{}">{}</a>').format(links[text], html)
    return Cell(html)


def _anchor(name: str, row: RowStated, statement: Statement) -> str:
    """Rows of the parts list are what a reference to a part aims at."""
    key = row.id.rpartition("/")[2].rpartition(":")[2]
    return f"part.{key}" if name == "parts" and key in statement.parts else ""
