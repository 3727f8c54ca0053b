"""What a builder may change, with all that changes with it, and what is critical to the fit and stays as it is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from planbook.document.tables import (
    SECOND,
    Cell,
    Group,
    Row,
    Table,
    columns_of,
    measure_cells,
    sheet_links,
    told_measure,
    unit_columns,
)
from planbook.document.words import as_html
from planbook.source.names import sheet_order
from planbook.source.sentences import capital
from planbook.statement.model import DimensionStated, ParameterStated, StandingStated, Statement
from planbook.statement.naming import dimension_words, words

CHANGING: Final = {"free": "What you may change", "critical": "What is critical to the fit"}
"""The tables with their titles."""


@dataclass(frozen=True, slots=True)
class _Told:
    """A measure as a row: what it is, where it is printed or felt, its two texts, and what it is to the builder."""

    title: str
    sheets: tuple[str, ...]
    measured: ParameterStated | DimensionStated
    standing: StandingStated


def changing_tables(statement: Statement) -> dict[str, Table]:
    """Those that hold anything, by name."""
    tables = {"free": _free(statement), "critical": _critical(statement)}
    return {name: table for name, table in tables.items() if table.groups}


def _free(statement: Statement) -> Table:
    own, other = unit_columns(statement)
    heads = (("Measure", "text"), (own, "figures"), (other, SECOND), ("Least", "figures"), ("Most", "figures"),
             ("Changes sheets", "text"), ("Why it is yours", "text"))  # fmt: skip
    rows = []
    for told in _told(statement, "free"):
        ends = (told.standing.least, told.standing.most)
        limits = (Cell(as_html(end.text if end is not None else "")) for end in ends)
        because = Cell(as_html(capital(told.standing.because)))
        rows.append(_row(told, statement, *limits, _sheets(told, statement), because))
    return _table("free", heads, rows)


def _critical(statement: Statement) -> Table:
    own, other = unit_columns(statement)
    heads = (("Measure", "text"), (own, "figures"), (other, SECOND), ("Tolerance", "figures"), ("Sheets", "text"),
             ("Why", "text"))  # fmt: skip
    rows = []
    for told in _told(statement, "critical"):
        tolerance = Cell(as_html(told.measured.tolerance))
        because = Cell(as_html(capital(told.standing.because)))
        rows.append(_row(told, statement, tolerance, _sheets(told, statement), because))
    return _table("critical", heads, rows)


def _table(name: str, heads: tuple[tuple[str, str], ...], rows: list[Row]) -> Table:
    """Without columns in which no row says anything."""
    said = [at for at in range(len(heads)) if any(row.cells[at].html for row in rows)]
    kept = [Row(tuple(row.cells[at] for at in said), told=row.told) for row in rows]
    columns = columns_of([heads[at] for at in said], kept)
    return Table(name, CHANGING[name], columns, (Group("", tuple(kept)),) if kept else ())


def _row(told: _Told, statement: Statement, *more: Cell) -> Row:
    cells = Cell(as_html(capital(told.title))), *measure_cells(told.measured, statement), *more
    return Row(cells, told=told_measure(told.measured))


def _told(statement: Statement, kind: str) -> Iterator[_Told]:
    """Parameters first; then the dimensions that are so by themselves and not by the parameter that they print."""
    named = {name for name, each in statement.parameters.items() if _kind(each) == kind}
    for name in statement.parameters:
        each = statement.parameters[name]
        if each.standing is not None and name in named:
            title = each.means or words(name.rpartition(".")[2])
            sheets = () if kind == "free" else _printed_on(statement, {name}, whole=True)
            # What no sheet prints is felt where it is reckoned in: there its number is kept to.
            sheets = sheets or _printed_on(statement, _hanging(statement, name), whole=False)
            yield _Told(title, sheets, each, each.standing)
    for dimension in statement.dimensions.values():
        if dimension.standing is not None and _kind(dimension) == kind and dimension.formula not in named:
            part = statement.parts[dimension.part]
            title = f"{part.title}: {dimension_words(dimension.id)}"
            yield _Told(title, (part.sheet,), dimension, dimension.standing)


def _kind(each: ParameterStated | DimensionStated) -> str:
    return each.standing.kind if each.standing is not None else ""


def _hanging(statement: Statement, name: str) -> set[str]:
    """The parameter and all that are worked out from it."""
    reached, waiting = {name}, [name]
    while waiting:
        used = waiting.pop()
        fresh = [
            each.name for each in statement.parameters.values() if used in each.inputs and each.name not in reached
        ]
        reached.update(fresh)
        waiting += fresh
    return reached


def _printed_on(statement: Statement, names: set[str], *, whole: bool) -> tuple[str, ...]:
    """The sheets with a dimension that is one of these (`whole`), or that is worked out from one."""
    sheets = {
        statement.parts[each.part].sheet
        for each in statement.dimensions.values()
        if (each.formula in names if whole else not names.isdisjoint(each.inputs))
    }
    return tuple(sorted(sheets, key=sheet_order))


def _sheets(told: _Told, statement: Statement) -> Cell:
    return Cell(sheet_links(told.sheets, statement))
