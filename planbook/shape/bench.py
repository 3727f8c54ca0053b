"""The bench on which a part is shaped: it solves the author's formulas and collects what is wrong."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Protocol

from planbook.design.values import Value
from planbook.measure.dimensionality import ANGLE, LENGTH, Dimensionality
from planbook.measure.quantity import Quantity
from planbook.shape.wording import said
from planbook.source.findings import Finding, Place, Severity
from planbook.source.sentences import capital
from planbook.source.text import Formula

FINE = 1024.0
"""Lengths (nm) that differ by less are the same: a micrometre is far below anything that is printed or made."""


class Solving(Protocol):
    """What shaping needs of a design: formulas to values."""

    def solve(self, formula: Formula, expect: Dimensionality | None) -> tuple[Value | None, tuple[Finding, ...]]:
        """The value of a formula in base units, or None with the findings that say why."""


class Bench:
    """Solves formulas of one part or component and keeps the findings in the order in which they come up."""

    def __init__(self, design: Solving) -> None:
        self._design = design
        self._findings: list[Finding] = []

    @property
    def findings(self) -> tuple[Finding, ...]:
        """All findings so far."""
        return tuple(self._findings)

    def length(self, formula: Formula) -> Value | None:
        """A length of any sign: a position."""
        return self._solve(formula, LENGTH)

    def has_value(self, formula: Formula) -> bool:
        """Whether a position that is another feature's can be worked out; if not, that feature reports it."""
        return self._design.solve(formula, LENGTH)[0] is not None

    def angle(self, formula: Formula) -> Value | None:
        """An angle in degrees."""
        return self._solve(formula, ANGLE)

    def size(self, formula: Formula, what: str) -> Value | None:
        """A length that must be more than nothing; `what` names it in the finding."""
        value = self.length(formula)
        if value is not None and value.number < FINE:
            self.stop(
                "size-not-positive",
                formula.place,
                f"{what} is {said(value)}, which is not more than nothing.",
                "Give a length greater than zero, or mend the parameters that it is worked out from.",
            )
            return None
        return value

    def pair(self, formulas: tuple[Formula, Formula]) -> tuple[Value, Value] | None:
        """Two positions; both are tried, so that both are reported."""
        return both(self.length(formulas[0]), self.length(formulas[1]))

    def sizes(self, formulas: tuple[Formula, Formula], what: str) -> tuple[Value, Value] | None:
        """Two sizes; both are tried."""
        return both(
            self.size(formulas[0], f"the first size of {what}"), self.size(formulas[1], f"the second size of {what}")
        )

    def stop(self, code: str, place: Place, message: str, remedy: str) -> None:
        """Keep a finding that stops."""
        self._findings.append(Finding(code, Severity.STOP, capital(message), remedy, place))

    def warn(self, code: str, place: Place, message: str, remedy: str) -> None:
        """Keep a finding that does not stop."""
        self._findings.append(Finding(code, Severity.WARN, capital(message), remedy, place))

    def _solve(self, formula: Formula, expect: Dimensionality) -> Value | None:
        value, findings = self._design.solve(formula, expect)
        self._findings.extend(findings)
        return value


def both(first: Value | None, second: Value | None) -> tuple[Value, Value] | None:
    """The pair, or None when either is missing."""
    return None if first is None or second is None else (first, second)


def derived(number: float, formula: str, values: Iterable[Value]) -> Value:
    """A length that shape works out itself from the author's values, with their places and names as provenance."""
    first, *others = values
    inputs = tuple(dict.fromkeys(name for value in (first, *others) for name in value.inputs))
    return Value(Quantity(number, LENGTH), formula, first.place, inputs, first.precision)
