"""Findings of several editions as one list: said once, and without an edition when they hold in all of them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from planbook.source.findings import Finding, Place, Severity

_RANK = {Severity.STOP: 0, Severity.WARN: 1, Severity.NOTE: 2}


def gather(by_edition: Mapping[str, Iterable[Finding]]) -> tuple[Finding, ...]:
    """One list from the findings of each edition compiled, in the order in which they were first reported."""
    editions: dict[Finding, list[str]] = {}
    for edition, findings in by_edition.items():
        for finding in findings:
            said_for = editions.setdefault(replace(finding, edition=""), [])
            if (name := finding.edition or edition) not in said_for:
                said_for.append(name)
    every = set(by_edition)
    return tuple(
        finding if set(names) >= every else replace(finding, edition=name)
        for finding, names in editions.items()
        for name in (names[:1] if set(names) >= every else names)
    )


def settle(*findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """All findings in the order a person mends them: those that stop first, then by file and line; no repeats."""
    said = dict.fromkeys(finding for part in findings for finding in part)
    return tuple(sorted(said, key=lambda finding: (_RANK[finding.severity], finding.place or Place("", 0, 0))))
