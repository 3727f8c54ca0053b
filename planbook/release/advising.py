"""Adding an advisory to a released version, before the version that mends it exists."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from planbook.release import refusals
from planbook.release.archive.advisories import Advisory, append_advisory, last_hash, read_advisories
from planbook.release.archive.reader import Release, check_chain, read_all
from planbook.release.archive.writer import archive_open
from planbook.release.days import wrong_day
from planbook.release.editions import choose_edition, read_named
from planbook.release.lifting import lifting_id
from planbook.source.findings import Finding, Severity, stops
from planbook.source.names import in_row


@dataclass(frozen=True, slots=True)
class Advised:
    """Advisories of a set, oldest first, each with the versions that lift it, by number."""

    set: str
    advisories: tuple[Advisory, ...]
    lifted: Mapping[int, str]

    def document(self) -> dict[str, Any]:
        """For --json."""
        return {"set": self.set, "advisories": [advisory_document(each, self.lifted) for each in self.advisories]}


def advisory_document(advisory: Advisory, lifted: Mapping[int, str]) -> dict[str, Any]:
    """An advisory for --json; `lifted` is the version that lifts it, empty while it stands."""
    return {
        "number": advisory.number,
        "version": advisory.version,
        "part": advisory.part,
        "editions": list(advisory.editions),
        "dated": advisory.dated,
        "text": advisory.text,
        "lifted": lifted.get(advisory.number, ""),
    }


def read_advised(root: Path, set_key: str, version: str | None = None) -> tuple[Advised | None, tuple[Finding, ...]]:
    """All advisories of a set, or those on one version; None when the archive is damaged or has no such version."""
    if version is not None:
        release, findings = read_named(root, set_key, version)
        if release is None:
            return None, findings
    advisories, findings = read_advisories(root, set_key)
    chosen = tuple(each for each in advisories if version in (None, each.version))
    return (None if findings else Advised(set_key, chosen, _lifted(root, set_key, chosen))), findings


def _lifted(root: Path, set_key: str, advisories: Iterable[Advisory]) -> Mapping[int, str]:
    """By number, the version whose change log says that it is lifted."""
    return {
        advisory.number: str(release.version)
        for release in read_all(root, set_key)[0]
        for advisory in advisories
        if any(
            row.id == lifting_id(str(release.version), advisory.number)
            for statement in release.statements.values()
            for row in statement.changes
        )
    }


def add_advisory(
    root: Path, set_key: str, version: str, part: int | None, editions: tuple[str, ...], dated: str, text: str
) -> tuple[Advised | None, tuple[Finding, ...]]:
    """Lay an advisory beside a released version; None with findings when it is refused, and nothing is written then.

    `editions` are all of the version's when none is named.
    """
    release, findings = read_named(root, set_key, version)
    findings = (*findings, *check_chain(root, set_key)) if release else findings
    if release is None or stops(findings):
        return None, findings
    refused = (*_check_words(release, dated, text), *_check_place(release, part, editions))
    if refused:
        return None, refused
    try:
        with archive_open(root) as ours:
            if not ours:
                return None, (refusals.busy(),)
            advisories, findings = read_advisories(root, set_key)
            if findings:
                return None, findings
            advisory = Advisory(
                number=len(advisories) + 1,
                version=str(release.version),
                part=part,
                editions=editions or release.record.editions,
                dated=dated,
                text=" ".join(text.split()),
                record=release.record_hash,
                previous=last_hash(root, set_key),
            )
            append_advisory(root, set_key, advisory)
    except OSError as fault:
        return None, (refusals.unwritten(fault),)
    return Advised(set_key, (advisory,), {}), ()


def _check_words(release: Release, dated: str, text: str) -> Iterable[Finding]:
    if not text.strip():
        yield _refused("The advisory says nothing.", "Write what whoever holds the version must know, in one sentence.")
    if wrong := wrong_day(dated, str(release.version), release.record.issued):
        yield _refused(*wrong)


def _check_place(release: Release, part: int | None, editions: tuple[str, ...]) -> Iterable[Finding]:
    for edition in editions:
        yield from choose_edition(release.statements, edition)
    numbers = sorted({each.number for told in release.statements.values() for each in told.parts.values()})
    if part is not None and part not in numbers:
        numbered = in_row([*map(str, numbers)], "and")
        yield _refused(f"Version {release.version} has no part {part}.", f"Its parts are {numbered}.")


def _refused(message: str, remedy: str) -> Finding:
    return Finding("advisory-refused", Severity.STOP, message, remedy)
