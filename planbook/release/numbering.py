"""Honest version numbers: a new first number when a builder may have to rework or recut, the second otherwise."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from planbook.release.version import Version
from planbook.source.findings import Finding, Severity
from planbook.statement import Comparison, Line, tell_changes

Compared = Mapping[str, Comparison | None]
"""By edition; None for one that is new, or no longer made."""
_PARTS = 3
"""So many parts are named; of the others it is said how many they are."""


@dataclass(frozen=True, slots=True)
class Due:
    """The one number that may follow a release, and why, as the rest of a sentence; None when nothing changed."""

    version: Version | None
    why: str


@dataclass(frozen=True, slots=True)
class _Grave:
    """A change that a builder may have to rework something for."""

    edition: str
    where: str
    line: Line


def number_due(former: Version, compared: Compared, *, same_look: bool) -> Due:
    """What follows `former`. `same_look` says whether what is told is set as it was."""
    grave = tuple(_grave(compared))
    if grave:
        return Due(former.next_major(), _why_major(former, grave))
    if any(each and each.major for each in compared.values()):
        return Due(former.next_major(), f"a shape or a number of {former} changed, by less than is printed")
    lost_or_new = [edition for edition, each in compared.items() if each is None]
    if lost_or_new:
        return Due(former.next_minor(), f"no shape and no number of {former} changed, only which editions there are")
    if any(each and each.told for each in compared.values()):
        return Due(former.next_minor(), f"since {former} only words and drawings changed, no shape and no number")
    if not same_look:
        return Due(former.next_minor(), f"it tells what {former} told, and only the look of the pages may differ")
    return Due(None, f"it tells the same as {former} in every edition")


def check_number(set_key: str, wanted: Version, former: Version, due: Due) -> tuple[Finding, ...]:
    """A finding with the right number, and why, when `wanted` is any other than the one that is due."""
    if due.version is None:
        message = f"Nothing changed, so there is nothing to release: {due.why}."
        return (
            _refused("nothing-changed", message, f"Whoever has {former} has all there is. Change the content first."),
        )
    if wanted == due.version:
        return ()
    taken = f" {former} is the newest release, and versions only go up." if wanted <= former else ""
    return (
        _refused(
            "version-dishonest",
            f"This cannot be version {wanted}.{taken} It is {due.version}: {due.why}.",
            f"Call it {due.version} in changes.yaml, then `planbook release {set_key} {due.version}`.",
        ),
    )


def _grave(compared: Compared) -> Iterator[_Grave]:
    for edition, comparison in compared.items():
        for heading in tell_changes(comparison) if comparison else ():
            yield from (_Grave(edition, heading.title, line) for line in heading.lines if line.grave)


def _why_major(former: Version, grave: Sequence[_Grave]) -> str:
    """The parts, one change as an example, a measure before a shape, and how many more there are."""
    parts = list(dict.fromkeys(each.where for each in grave if each.where.startswith("Part ")))
    first = min(grave, key=lambda each: not (each.line.what.old and each.line.what.new))
    more = len({each.line.id for each in grave}) - 1
    where = f", {first.where[:1].lower()}{first.where[1:]}" if len(parts) != 1 else ""
    example = f"{first.edition} edition{where}: {first.line.what}"
    rest = f"; and {more} more change{'s' if more > 1 else ''} of shape or number" if more else ""
    rework = f"rework {_listed(parts)}" if parts else "change what they bought or made"
    return f"builders of {former} may have to {rework} ({example}{rest})"


def _listed(parts: Sequence[str]) -> str:
    named = [each[:1].lower() + each[1:] for each in parts[:_PARTS]]
    if len(parts) > _PARTS:
        more = len(parts) - _PARTS
        named.append(f"{more} more part{'s' if more > 1 else ''}")
    return "; ".join(named)


def _refused(code: str, message: str, remedy: str) -> Finding:
    return Finding(code=code, severity=Severity.STOP, message=message, remedy=remedy)
