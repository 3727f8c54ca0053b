"""What merely follows from other changes, as masses, results and pieces to saw do: told in one line for each cause."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from planbook.design.entries import MASS, TALLY
from planbook.source.sentences import capital
from planbook.statement.calculations import CALCULATIONS, RESULT
from planbook.statement.changes_causes import Causes
from planbook.statement.changes_names import names_of
from planbook.statement.changes_words import Titles, describe
from planbook.statement.comparison import Change, Kind
from planbook.statement.pinch_points import PINCH_POINTS
from planbook.statement.stacks_told import STACKS
from planbook.statement.wording import Wording

PARTS: Final = "the parts above"
"""The cause of what is worked out from the shapes of parts."""
_WHILE: Final = "While"
_DERIVED: Final = {
    "cutting": None, "weight": None, "cost": None, "materials": {"Net amount", "For reference", "Parts"},
    "shopping": {"Note", "Cost"}, PINCH_POINTS: {"From", "To", _WHILE}, CALCULATIONS: {RESULT},
    STACKS: {"Nominal", "Limits", "Share", "Adds"},
}  # fmt: skip
"""Columns of lists that are worked out from something else; None for all of a list, rows that come or go among them."""
_CALLED: Final = {
    "cutting": "pieces of the cut list", "materials": "amounts", "shopping": "notes on what to buy",
    "weight": "weights", "cost": "costs", CALCULATIONS: "results", STACKS: "layers",
}  # fmt: skip
_MOST = 3
"""So many are told of those that follow from one cause."""
_NUMBER: Final = re.compile(r"(?:(\d+) )?(\d+)/(\d+)|(\d*\.?\d+)")


@dataclass(frozen=True)
class Following:
    """Which changes follow, and from what. `given` are the names that the author's reasons are about."""

    titles: Titles
    causes: Causes
    given: AbstractSet[str]

    def cause(self, change: Change) -> str:
        """What a change merely follows from: the name of a measure, or `PARTS`; "" where it does not, or has a reason
        that is not that of its cause.
        """
        if change.kind is Kind.LIST:
            return self._cause_of_row(change)
        return self._cause_of_measure(change, change.id) if self._is_derived(change) else ""

    def _cause_of_row(self, change: Change) -> str:
        name, _, row = change.id.partition("/")
        if not _is_worked_out(name, change) or not self.given.isdisjoint((name, change.id)):
            return ""
        if name in (CALCULATIONS, STACKS):
            return self._cause_of_measure(change, row.partition("/")[0])
        return PARTS

    def _is_derived(self, change: Change) -> bool:
        """Whether a measure is worked out by the same formula as before, or weighed, or counted."""
        if change.kind is not Kind.PARAMETER or change.side or not (change.old and change.new):
            return False
        return change.id.startswith((MASS, TALLY)) or self.causes.is_derived(change.id)

    def _cause_of_measure(self, change: Change, name: str) -> str:
        roots = self.causes.roots(name)
        first = roots[0] if roots else PARTS if self.causes.is_weighed(name) else ""
        cause = next((each for each in roots if self.causes.has_reason(each)), first)
        own = self.given & set(names_of(change))
        return cause if own <= self.causes.reasons_of(cause) else ""

    def tell(self, changes: Sequence[Change], cause: str) -> Wording:
        """`12 results follow from the rise of the platform (ramp.rise), most of all: ...`."""
        ranked: dict[str, Change] = {}
        for change in sorted(changes, key=_weight, reverse=True):
            ranked.setdefault(change.id, change)
        shown = [str(describe(each, self.titles)) for each in ranked.values() if each.side != _WHILE][:_MOST]
        most = ", most of all" if len(ranked) > len(shown) else ""
        told = f"{self._lead(changes[0], len(ranked), cause)}{most if shown else ''}"
        return Wording(told, new="; ".join(shown))

    def _lead(self, change: Change, count: int, cause: str) -> str:
        name = change.id.partition("/")[0]
        if name == PINCH_POINTS:
            return f"{count} places pinch at other positions or to other gaps, as the movement is worked out now"
        called = "named dimensions" if change.kind is Kind.PARAMETER else _CALLED[name]
        behind = cause if cause == PARTS else f"“{capital(self.titles.parameter(cause))}”"
        return f"{count} {called} follow from {behind}"


def _is_worked_out(name: str, change: Change) -> bool:
    if name not in _DERIVED:
        return False
    columns = _DERIVED[name]
    return columns is None or (bool(change.old and change.new) and change.side.partition(",")[0] in columns)


def _weight(change: Change) -> float:
    """By how much of itself the number moved that moved most; nothing where the numbers cannot be paired."""
    old, new = (_numbers(text) for text in (change.old, change.new))
    if change.side == _WHILE or len(old) != len(new):
        return 0.0
    return max((abs(b - a) / max(abs(a), abs(b)) for a, b in zip(old, new, strict=True) if a != b), default=0.0)


def _numbers(text: str) -> list[float]:
    return [_value(*groups) for groups in _NUMBER.findall(text)]


def _value(whole: str, above: str, below: str, plain: str) -> float:
    if plain:
        return float(plain)
    return float(int(whole or 0) + (Fraction(int(above), int(below)) if int(below) else 0))


def several(changes: Iterable[Change]) -> bool:
    """Whether changes are of more than one thing."""
    return len({change.id for change in changes}) > 1
