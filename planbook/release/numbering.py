"""Honest version numbers: a new first number when a builder may have to rework or recut, the second otherwise."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from planbook.release.version import Version, read_version
from planbook.source.findings import Finding, Severity
from planbook.statement import Comparison, least_version
from planbook.statement.comparison import Change, Kind, Touch


def check_number(wanted: Version, former: Version, comparisons: Mapping[str, Comparison]) -> tuple[Finding, ...]:
    """A finding with the right number, and why, when `wanted` is not honest. `comparisons` are by edition."""
    least = least_number(former, comparisons.values())
    major = least.major > former.major
    if wanted <= former:
        return (_wrong(wanted, least, f"{former} is released already, and versions only go up"),)
    if major and wanted.major == former.major:
        return (_wrong(wanted, least, f"a builder of {former} may have to recut: {_first(comparisons)}"),)
    if not major and wanted.major > former.major:
        return (_wrong(wanted, least, f"since {former} only words and drawings changed, no shape and no number"),)
    return ()


def least_number(former: Version, comparisons: Iterable[Comparison]) -> Version:
    """The lowest honest number after `former`, given what changed in each edition."""
    return max((_least(comparison, former) for comparison in comparisons), default=former.next_minor())


def _least(comparison: Comparison, former: Version) -> Version:
    return read_version(least_version(comparison, str(former))) or former.next_minor()


def _first(comparisons: Mapping[str, Comparison]) -> str:
    """One change as an example, a printed number before a shape, and how many more there are."""
    grave = {(change.kind, change.id): (edition, change) for edition, change in _grave(comparisons)}
    edition, change = min(grave.values(), key=lambda pair: pair[1].kind is not Kind.DIMENSION)
    old, new = change.reads(change.old) or "nothing", change.reads(change.new) or "nothing"
    told = f"{change.id} of the {edition} edition went from {old} to {new}"
    return told if len(grave) == 1 else f"{told}, and {len(grave) - 1} more"


def _grave(comparisons: Mapping[str, Comparison]) -> Iterable[tuple[str, Change]]:
    return (
        (edition, change)
        for edition, comparison in comparisons.items()
        for change in comparison.changes
        if change.touch in (Touch.SHAPE, Touch.NUMBER)
    )


def _wrong(wanted: Version, least: Version, why: str) -> Finding:
    return Finding(
        code="version-dishonest",
        severity=Severity.STOP,
        message=f"This cannot be version {wanted}: {why}.",
        remedy=f"Release it as {least}, and name {least} in changes.yaml.",
    )
