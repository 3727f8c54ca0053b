"""Tables as values: the lists of a statement, its named dimensions, its revisions. Templates only set them."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Final

from markupsafe import Markup

from planbook.design.entries import NOT_THE_AUTHORS
from planbook.document.columns import Words, share_width
from planbook.document.words import as_html, long_date
from planbook.statement.model import DimensionStated, ParameterStated, RowStated, Statement

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
SECOND: Final = "figures second"
"""The look of a column of measures in the other system: small, and each in brackets, as everywhere."""
_BREAK: Final = frozenset({"text"})
"""The looks whose cells may break into lines."""
_FIGURES: Final = re.compile(r"[\d\s./×+±,()\[\]°-]+")
"""What a column of figures holds and nothing else: it is set to the right with figures of one width."""


@dataclass(frozen=True, slots=True)
class Column:
    """`look` is a class of the style sheet: "text", "figures", "size", "name", "whole" for what never breaks, or "no"
    for numbers that head rows, with "second" for lengths of the other system. `share` is the column's part of the width
    of the table in per cent.
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
    """`anchor` is what links aim at, "" for none; the first cell is the head of the row. The last of fewer cells than
    there are columns goes over all that are left.

    `told` names what it tells, as marks do: "list/hardware/bolt", "parameter/ramp.rise".
    """

    cells: tuple[Cell, ...]
    anchor: str = ""
    told: str = ""


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
        [
            (_heading(column), _look(texts[column], column == names[0]), tuple(map(long_date, texts[column])))
            for column in names
        ]
    )
    sheets = {column: _sheet_links(statement) for column in names if column.lower() == "sheet"}
    body = tuple(
        Row(
            tuple(_cell(row.cells.get(column, ""), sheets.get(column, {})) for column in names),
            _anchor(name, row, statement),
            told_row(name, row),
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

    What the market gives (stock.*, hardware.*) and what is counted has lists of its own, and what moves with the driver
    has no one measure.
    """
    own, other = unit_columns(statement)
    named = tuple(
        each for each in statement.parameters.values() if not each.name.startswith(NOT_THE_AUTHORS) and not each.moving
    )
    heads = [("Dimension", "text"), ("Name", "name"), (own, "figures"), (other, SECOND)]
    last = (("Tolerance", "figures", _tolerance), ("May change", "size", _may_change))
    more = [each for each in last if any(each[2](parameter) for parameter in named)]
    heads += [(title, look) for title, look, _ in more]
    groups = tuple(
        Group(
            head.replace("_", " ").capitalize(),
            tuple(_dimension_row(each, statement, [text for *_, text in more]) for each in members),
        )
        for head, members in _by_head(named).items()
    )
    rows = [row for group in groups for row in group.rows]
    return Table("dimensions", LISTS["dimensions"], columns_of(heads, rows), groups)


def columns_of(heads: Sequence[tuple[str, str]], rows: Sequence[Row]) -> tuple[Column, ...]:
    """Columns by title and look, as wide as the words of the rows ask."""
    return _columns([(*head, tuple(_plain(row.cells[at]) for row in rows)) for at, head in enumerate(heads)])


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


def _dimension_row(
    parameter: ParameterStated, statement: Statement, more: Sequence[Callable[[ParameterStated], str]]
) -> Row:
    last = parameter.name.rpartition(".")[2].replace("_", " ")
    means = parameter.means or last
    names = Cell(as_html(means[:1].upper() + means[1:])), Cell(as_html(parameter.name))
    cells = *names, *measure_cells(parameter, statement), *(Cell(as_html(text(parameter))) for text in more)
    return Row(cells, told=told_measure(parameter))


def measure_cells(each: ParameterStated | DimensionStated, statement: Statement) -> tuple[Cell, Cell]:
    """Its two texts, in the columns of `unit_columns`, the first marked as what it is, the second in brackets."""
    own, other = unit_columns(statement)
    printed = each.printed
    second = _measure(printed.other, printed.other_unit, other)
    mark = f"parameter:{each.name}" if isinstance(each, ParameterStated) else f"dimension:{each.id}"
    return (
        Cell(as_html(_measure(printed.text, printed.unit, own)), mark),
        Cell(as_html(f"[{second}]" if second else "")),
    )


def told_row(name: str, row: RowStated) -> str:
    """What a row of a list is called where marks name it."""
    return f"list/{name}/{row.id}"


def told_measure(each: ParameterStated | DimensionStated) -> str:
    """What a measure is called where marks name it."""
    return f"parameter/{each.name}" if isinstance(each, ParameterStated) else f"dimension/{each.id}"


def _tolerance(parameter: ParameterStated) -> str:
    return parameter.tolerance


def _may_change(parameter: ParameterStated) -> str:
    """`no` for what is critical, `yes` for what is free, with its limits; most are neither."""
    standing = parameter.standing
    if standing is None or not standing.kind:
        return ""
    if standing.kind == "critical":
        return "no: critical"
    least, most = standing.least, standing.most
    return f"yes, {least.text} to {most.text}" if least is not None and most is not None else "yes"


def _measure(text: str, unit: str, column: str) -> str:
    """Without its unit where the column's head names it; a force or a mass under "mm" says what it is."""
    return text if not text or unit == column else f"{text}{_space(unit)}{unit}"


def _by_head(named: Iterable[ParameterStated]) -> Mapping[str, tuple[ParameterStated, ...]]:
    heads: dict[str, list[ParameterStated]] = {}
    for parameter in named:
        heads.setdefault(parameter.name.partition(".")[0], []).append(parameter)
    return {head: tuple(members) for head, members in heads.items()}


def unit_columns(statement: Statement) -> tuple[str, str]:
    """The heads of the columns of lengths: the edition's own unit, the other."""
    return ("in", "mm") if statement.edition.units == "inch" else ("mm", "in")


def _space(unit: str) -> str:
    return "" if unit in {"", "°"} else " "


def _heading(column: str) -> str:
    words = column.replace("_", " ")
    return words[:1].upper() + words[1:]


def _look(texts: tuple[str, ...], first: bool) -> str:
    if all(_DATE.fullmatch(text) for text in texts):
        return "whole"
    if not all(_FIGURES.fullmatch(text) and not _DATE.fullmatch(text) for text in texts if text):
        return "text"
    if any(", " in text for text in texts):
        return "text"  # Many numbers in one cell may go into lines.
    if first:
        return "no"
    look = "size" if any("×" in text for text in texts) else "figures"
    return f"{look} second" if all(text.startswith("[") for text in texts if text) else look


def _sheet_links(statement: Statement) -> Mapping[str, str]:
    return {number: f"#sheet.{number}" for number in statement.sheets}


def sheet_links(numbers: Sequence[str], statement: Statement) -> Markup:
    """Sheet numbers, each leading to its sheet."""
    links = _sheet_links(statement)
    return Markup(", ").join(_cell(number, links).html for number in numbers)


def _cell(text: str, links: Mapping[str, str]) -> Cell:
    html = as_html(long_date(text) if _DATE.fullmatch(text) else text)
    if text in links:
        html = Markup('<a class="ref" href="{}">{}</a>').format(links[text], html)
    return Cell(html)


def _anchor(name: str, row: RowStated, statement: Statement) -> str:
    """Rows of the parts list are what a reference to a part aims at."""
    key = row.id.rpartition("/")[2].rpartition(":")[2]
    return f"part.{key}" if name == "parts" and key in statement.parts else ""
