"""A fault in a formula, known by its offset there; it becomes a finding when the formula's place is known."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from planbook.source.findings import Finding, Place, Related, Severity
from planbook.source.text import Text


@dataclass(frozen=True, slots=True)
class Fault:
    """`offset` counts characters from the formula's first one."""

    code: str
    offset: int
    message: str
    remedy: str
    related: tuple[Related, ...] = ()

    def found_in(self, formula: Text) -> Finding:
        """The finding at its line and column; a formula is a single line."""
        place = spot(formula, self.offset)
        return Finding(self.code, Severity.STOP, self.message, self.remedy, place, related=self.related)


class Breach(Exception):  # noqa: N818 - it carries a fault to where the formula's place is known
    """Raised while a formula is evaluated, where an operation has no value."""

    def __init__(self, fault: Fault) -> None:
        super().__init__(fault.message)
        self.fault = fault


def spot(formula: Text, offset: int) -> Place:
    """The place of the character at `offset`."""
    return Place(formula.place.file, formula.place.line, formula.place.column + offset)


def findings_in(formula: Text, faults: Iterable[Fault]) -> tuple[Finding, ...]:
    """All faults of one formula as findings."""
    return tuple(fault.found_in(formula) for fault in faults)
