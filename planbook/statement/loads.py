"""What the piece carries, as the edition states it: working load, test and computed strength, and how they compare."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from planbook.design import Design, Value
from planbook.measure import Units, print_calculated
from planbook.source.content import Content
from planbook.source.findings import Finding, Severity
from planbook.source.models.loads import LoadModel
from planbook.source.text import Formula, Text
from planbook.statement.model import RowStated

LOADS: Final = "loads"
"""The list of a statement that holds them."""
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
        load, findings = _solved(model, design)
        found += findings
        if load is not None:
            found += _judged(name, model, load, units)
            rows.append(RowStated(str(name), _cells(load, words[str(name)], units)))
    return tuple(rows), tuple(found)


def _solved(model: LoadModel, design: Design) -> tuple[_Load | None, tuple[Finding, ...]]:
    """All three of one kind, that of the working load."""
    working, found = design.solve(model.working)
    if working is None:
        return None, found
    kind = working.quantity.dimensionality
    (test, missed), (strength, lacking) = design.solve(model.test, kind), design.solve(model.strength, kind)
    if test is None or strength is None:
        return None, (*missed, *lacking)
    return _Load(working, test, strength), ()


def _cells(load: _Load, words: LoadWords, units: Units) -> dict[str, str]:
    return {
        "Load": words.title,
        "Working load": _printed(load.working, units),
        "Test load": _printed(load.test, units),
        "Test over working load": times(load.test.number, load.working.number),
        "Computed strength": _printed(load.strength, units),
        "Strength over test load": times(load.strength.number, load.test.number),
        "Gives first": words.weakest,
        "Test": words.how,
        "Assumes": words.assumes,
    }


def times(more: float, less: float) -> str:
    """How many times one goes into the other, rounded down: a factor is never promised that is not there."""
    return f"{math.floor(100 * more / less + 1e-6) / 100:.2f}".rstrip("0").rstrip(".") if less > 0 else ""


def _judged(name: Text, model: LoadModel, load: _Load, units: Units) -> Iterator[Finding]:
    working, test, strength = (_printed(each, units) for each in (load.working, load.test, load.strength))
    if _falls_short(load.test, load.working):
        message = f"The load {name} is tried with {test} and carries {working}: a test with less proves nothing."
        yield _finding("load-untested", message, f"Try it with {working} or more.", model.test)
    if _falls_short(load.strength, load.test):
        message = f"The load {name} is tried with {test}, and {model.weakest} was worked out to give at {strength}."
        remedy = "Make that stronger, or let the piece carry less and be tried with less."
        yield _finding("load-too-great", message, remedy, model.strength)


def _falls_short(one: Value, other: Value) -> bool:
    return one.number < other.number * (1 - _SAME)


def _finding(code: str, message: str, remedy: str, where: Formula) -> Finding:
    return Finding(code, Severity.STOP, message, remedy, where.place)


def _printed(value: Value, units: Units) -> str:
    return print_calculated(value.quantity, units).full
