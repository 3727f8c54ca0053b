"""What must hold before a set is released, beyond what every check asks for."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date

from planbook.release.archive.reader import Release
from planbook.release.compilation import Told
from planbook.release.history import own_notes
from planbook.release.numbering import least_number
from planbook.release.tools import check_reproducible
from planbook.release.version import Version, read_version
from planbook.source.content import Content
from planbook.source.findings import Finding, Place, Severity
from planbook.source.models.changes import VersionNotesModel
from planbook.source.text import Text
from planbook.statement import missing_cautions


def check_conditions(content: Content, wanted: Version, former: Release | None) -> tuple[Finding, ...]:
    """Cautions, the author's notes with an issue date, PDF bytes that can be made again."""
    notes = notes_of(content, wanted)
    return (
        *missing_cautions(content),
        *(_check_date(notes, former) if notes else (_no_notes(content, wanted),)),
        *check_reproducible(),
    )


def notes_of(content: Content, wanted: Version) -> tuple[Text, VersionNotesModel] | None:
    """What changes.yaml says of a version, with its key."""
    return next(((key, told) for key, told in content.changes.items() if read_version(key) == wanted), None)


def read_wanted(text: str) -> tuple[Version | None, tuple[Finding, ...]]:
    """The version number that a person typed."""
    version = read_version(text)
    if version:
        return version, ()
    return None, (
        Finding(
            code="version-malformed",
            severity=Severity.STOP,
            message=f"`{text}` is not a version number.",
            remedy="Give two whole numbers with a dot between them, such as 1.0 or 2.1.",
        ),
    )


def _check_date(notes: tuple[Text, VersionNotesModel], former: Release | None) -> tuple[Finding, ...]:
    key, told = notes
    if former is None or told.issued >= date.fromisoformat(former.record.issued):
        return ()
    return (
        Finding(
            code="issued-too-early",
            severity=Severity.STOP,
            message=f"Version {key} is issued on {told.issued}, and {former.version} on {former.record.issued}, later.",
            remedy="Correct its issue date.",
            place=key.place,
        ),
    )


def warn_of_notes(content: Content, former: Release | None, told: Mapping[str, Told]) -> tuple[Finding, ...]:
    """A warning, long before a release refuses it: the content is not as released, and no notes speak of that."""
    comparisons = [one.comparison for one in told.values() if one.comparison]
    if (
        former is None
        or not any(each.told for each in comparisons)
        or own_notes(content.changes, "", str(former.version))
    ):
        return ()
    least = least_number(former.version, comparisons)
    message = f"The content is no longer as in {former.version}, and changes.yaml says nothing about a later version."
    return (replace(_no_notes(content, least), severity=Severity.WARN, message=message),)


def _no_notes(content: Content, wanted: Version) -> Finding:
    return Finding(
        code="notes-missing",
        severity=Severity.STOP,
        message=f"changes.yaml says nothing about version {wanted}.",
        remedy=f'Add to it: "{wanted}": {{issued: YYYY-MM-DD, summary: What this version is about.}}',
        place=Place(f"{content.folder}/changes.yaml", 1, 1),
    )
