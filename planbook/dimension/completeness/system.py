"""Linear equations over unknowns, taken in one by one: what is fixed, what hangs free, what was said already.

Gauss-Jordan elimination on sparse rows. Equations are homogeneous, in small changes of the unknowns: whether a
dimension fixes something does not depend on its number.
"""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import dataclass, field
from typing import Generic, TypeVar

U = TypeVar("U", bound=Hashable)
NOTHING = 1e-7
"""Coefficients below this are none: rows are scaled so that their largest is one."""


@dataclass(slots=True)
class _Solved(Generic[U]):
    """An unknown as a sum over those that are still free, and the share that each equation has in saying so."""

    free: dict[U, float]
    by: dict[str, float]


@dataclass(slots=True)
class System(Generic[U]):
    """What has been said so far."""

    solved: dict[U, _Solved[U]] = field(default_factory=dict)

    def add(self, name: str, row: Mapping[U, float]) -> frozenset[str] | None:
        """Take in an equation. None when it says something new; else the names of those that together say it."""
        left, by = self._reduced(row)
        if not left:
            return frozenset(by)
        pivot = max(left, key=lambda unknown: abs(left[unknown]))
        factor = left.pop(pivot)
        shares = {each: -share / factor for each, share in by.items()}
        _add(shares, name, 1.0 / factor)
        found = _Solved({unknown: -value / factor for unknown, value in left.items()}, shares)
        self._substitute(pivot, found)
        self.solved[pivot] = found
        return None

    def is_fixed(self, unknown: U) -> bool:
        """Whether the equations leave it no freedom."""
        solved = self.solved.get(unknown)
        return solved is not None and not solved.free

    def shares(self, unknown: U) -> Mapping[str, float]:
        """What an unknown that is fixed is made of: the names of equations, and the factor of each one's constant.

        They are those of rows as they were added if the largest coefficient of each was one.
        """
        return dict(self.solved[unknown].by)

    def _reduced(self, row: Mapping[U, float]) -> tuple[dict[U, float], dict[str, float]]:
        """The row over free unknowns, and the share of each equation in what was put in for the others."""
        left: dict[U, float] = {}
        by: dict[str, float] = {}
        scale = max((abs(value) for value in row.values()), default=1.0)
        for unknown, value in row.items():
            solved = self.solved.get(unknown)
            if solved is None:
                _add(left, unknown, value / scale)
                continue
            _add_all(left, solved.free, value / scale)
            _add_all(by, solved.by, value / scale)
        return _without_nothing(left), _without_nothing(by)

    def _substitute(self, pivot: U, found: _Solved[U]) -> None:
        for solved in self.solved.values():
            factor = solved.free.pop(pivot, 0.0)
            if factor:
                _add_all(solved.free, found.free, factor)
                _add_all(solved.by, found.by, factor)
                solved.free, solved.by = _without_nothing(solved.free), _without_nothing(solved.by)


def _add(row: dict[U, float], unknown: U, value: float) -> None:
    row[unknown] = row.get(unknown, 0.0) + value


def _add_all(row: dict[U, float], other: Mapping[U, float], factor: float) -> None:
    for unknown, value in other.items():
        _add(row, unknown, factor * value)


def _without_nothing(row: Mapping[U, float]) -> dict[U, float]:
    return {unknown: value for unknown, value in row.items() if abs(value) > NOTHING}
