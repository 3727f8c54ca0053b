"""What a check gives back, and findings as JSON."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from planbook.source.findings import Finding, Related


@dataclass(frozen=True, slots=True)
class Checked:
    """A check: nothing was written."""

    set: str
    findings: tuple[Finding, ...]

    def document(self) -> dict[str, Any]:
        """For --json."""
        return {"set": self.set, "findings": [finding_document(finding) for finding in self.findings]}


def finding_document(finding: Finding) -> dict[str, Any]:
    """A finding for --json; without a place, file is empty and line and column are 0."""
    place = finding.place
    return {
        "code": finding.code,
        "severity": finding.severity.value,
        "edition": finding.edition,
        "file": place.file if place else "",
        "line": place.line if place else 0,
        "column": place.column if place else 0,
        "message": finding.message,
        "remedy": finding.remedy,
        "related": [_related_document(related) for related in finding.related],
    }


def _related_document(related: Related) -> dict[str, Any]:
    place = related.place
    return {"file": place.file, "line": place.line, "column": place.column, "note": related.note}
