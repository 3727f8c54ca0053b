"""What the piece carries, as the edition states it: working load, test and computed strength, and how they compare."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from planbook.design import Design, Value
from planbook.measure import Units, print_calculated
from planbook.measure.dimensionality import FORCE, MASS
from planbook.measure.units import in_words
from planbook.source.content import Content
from planbook.source.findings import Finding, Severity
from planbook.source.models.loads import LoadModel
from planbook.source.text import Formula, Text
from planbook.statement.factors import factor
from planbook.statement.model import RowStated

LOADS: Final = "loads"
"""The list of a statement that holds them."""
LINES: Final = ("Working load", "Test load", "Computed strength", "Gives first", "Test", "Assumes")
"""The columns of a row, each of which is printed in a line of its own, in their order."""
BESIDE: Final = {"Test over working load": "Test load", "Strength over test load": "Computed strength"}
"""The columns that are printed in the line of another: how many times it is the load before it."""
_SAME: Final = 1e-9


@dataclass(frozen=True, slots=True)
class LoadWords:
    """The words of one, as printed."""

    title: str
    weakest: str
    how: str
    assumes: str


@dataclass(frozen=True, slots=True)
class _Load:
    working: Value
    test: Value
    strength: Value


def state_loads(
    content: Content, design: Design, units: Units, words: Mapping[str, LoadWords]
) -> tuple[tuple[RowStated, ...], tuple[Finding, ...]]:
    """A row for each load that has its values, and a finding for each whose test or strength is too small."""
    rows: list[RowStated] = []
    found: list[Finding] = []
    for name, model in content.loads.items():
        load, findings = _solved(name, model, design, units)
        found += findings
        if load is not None:
            told = words[str(name)]
            found += _judged(name, model, load, told.weakest, units)
            rows.append(RowStated(str(name), _cells(load, told, units)))
    return tuple(rows), tuple(found)


def lines_of(column: str) -> tuple[str, ...]:
    """The lines that read otherwise when this column does: all of them under another title, or none before."""
    return LINES if column in ("", "Load") else (BESIDE.get(column, column),)


def _solved(name: Text, model: LoadModel, design: Design, units: Units) -> tuple[_Load | None, tuple[Finding, ...]]:
    """All three of one kind, that of the working load: masses or forces. What is tried and carried is above nothing."""
    working, found = design.solve(model.working)
    if working is None:
        return None, found
    kind = working.quantity.dimensionality
    if kind not in (MASS, FORCE):
        message = f"The working load of {name} is `{model.working}`, which is {in_words(kind)}."
        remedy = f"Give it {in_words(MASS)} or {in_words(FORCE)}, and the other two of the same kind."
        return None, (_finding("wrong-kind", message, remedy, model.working),)
    (test, missed), (strength, lacking) = design.solve(model.test, kind), design.solve(model.strength, kind)
    if test is None or strength is None:
        return None, (*missed, *lacking)
    nothing = tuple(
        _finding(
            "load-not-positive",
            f"The {what} load of {name} is {_printed(value, units)}, which is not more than nothing.",
            "Give a load greater than zero, or mend the parameters that it is worked out from.",
            where,
        )
        for what, value, where in (("working", working, model.working), ("test", test, model.test))
        if value.number <= 0
    )
    return (None if nothing else _Load(working, test, strength)), nothing


def _cells(load: _Load, words: LoadWords, units: Units) -> dict[str, str]:
    return {
        "Load": words.title,
        "Working load": _printed(load.working, units),
        "Test load": _printed(load.test, units),
        "Test over working load": _times(load.test, load.working),
        "Computed strength": _printed(load.strength, units),
        "Strength over test load": _times(load.strength, load.test),
        "Gives first": words.weakest,
        "Test": words.how,
        "Assumes": words.assumes,
    }


def _times(more: Value, less: Value) -> str:
    """How many times one goes into the other, as printed: `1.5`."""
    return f"{factor(more.number, less.number):.2f}".rstrip("0").rstrip(".")


def _judged(name: Text, model: LoadModel, load: _Load, weakest: str, units: Units) -> Iterator[Finding]:
    working, test, strength = (_printed(each, units) for each in (load.working, load.test, load.strength))
    if _falls_short(load.test, load.working):
        message = f"The load {name} is tried with {test} and carries {working}: a test with less proves nothing."
        yield _finding("load-untested", message, f"Try it with {working} or more.", model.test)
    if _falls_short(load.strength, load.test):
        message = f"The load {name} is tried with {test}, and what gives first was worked out at {strength}: {weakest}."
        remedy = "Make that stronger, or let the piece carry less and be tried with less."
        yield _finding("load-too-great", message, remedy, model.strength)


def _falls_short(one: Value, other: Value) -> bool:
    return one.number < other.number * (1 - _SAME)


def _finding(code: str, message: str, remedy: str, where: Formula) -> Finding:
    return Finding(code, Severity.STOP, message, remedy, where.place)


def _printed(value: Value, units: Units) -> str:
    return print_calculated(value.quantity, units).full
