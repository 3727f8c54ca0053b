"""A finding: what checking reports, as plain frozen data; drawing it for people is the command line's work."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum


class Severity(StrEnum):
    """`stop` ends the command with exit code 1; `warn` and `note` do not."""

    STOP = "stop"
    WARN = "warn"
    NOTE = "note"


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """A spot in a content file: path relative to the workspace (posix), line and column counted from 1.

    Both are 0 where the file as a whole is meant.
    """

    file: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}" if self.line else self.file


@dataclass(frozen=True, slots=True)
class Related:
    """A second place that helps to understand a finding, with a few words on what is there."""

    place: Place
    note: str


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that is wrong or worth knowing.

    `code` is a short lower-case name with hyphens, documented in docs/findings.md. `message` says what is wrong in
    the author's words; `remedy` says how to mend it, with the author's own value corrected where that is possible.
    `edition` is empty when the finding holds in every edition.
    """

    code: str
    severity: Severity
    message: str
    remedy: str
    place: Place | None = None
    edition: str = ""
    related: tuple[Related, ...] = ()


def stops(findings: Iterable[Finding]) -> bool:
    """Whether any of the findings ends the command."""
    return any(finding.severity is Severity.STOP for finding in findings)
