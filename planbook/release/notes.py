"""What the author says about versions in changes.yaml, held against what was released and what is due."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from planbook.release.archive.reader import FOLDER, Release
from planbook.release.history import notes_after
from planbook.release.numbering import Due
from planbook.release.version import Version, read_version
from planbook.source.content import Content
from planbook.source.findings import Finding, Place, Severity
from planbook.source.models.changes import VersionNotesModel
from planbook.source.names import listed
from planbook.source.text import Text


def notes_of(content: Content, wanted: Version) -> tuple[Text, VersionNotesModel] | None:
    """What changes.yaml says of a version, with its key."""
    return next(((key, told) for key, told in content.changes.items() if read_version(key) == wanted), None)


def check_notes(content: Content, wanted: Version, former: Release | None) -> tuple[Finding, ...]:
    """What a release asks of the notes: that they speak of it, with a day of issue not before the last one's."""
    notes = notes_of(content, wanted)
    if notes is None:
        return (_missing(content, wanted),)
    return _too_early(notes, former) if former else ()


def _too_early(notes: tuple[Text, VersionNotesModel], former: Release) -> tuple[Finding, ...]:
    key, told = notes
    day = former.record.issued
    if told.issued >= date.fromisoformat(day):
        return ()
    message = f"Version {key} is issued on {told.issued}, and {former.version} on {day}, later."
    remedy = f"Give it the day on which it is issued: {day} or a later one."
    return (Finding("issued-too-early", Severity.STOP, message, remedy, key.place),)


def warn_of_notes(content: Content, former: Release | None, due: Due | None) -> tuple[Finding, ...]:
    """A warning, long before a release refuses it: no notes of what changed, or a wrong number or day."""
    if former is None or due is None or due.version is None:
        return ()
    if notes := notes_of(content, due.version):
        return tuple(replace(each, severity=Severity.WARN) for each in _too_early(notes, former))
    newest = notes_after(content.changes, former.version)
    if newest is None:
        message = (
            f"The content is no longer as in {former.version}, and changes.yaml says nothing about a later version. "
            f"It will be {due.version}: {due.why}."
        )
        return (replace(_missing(content, due.version), severity=Severity.WARN, message=message),)
    key, _ = newest
    message = f"changes.yaml calls the next version {key}; it will be {due.version}: {due.why}."
    remedy = f'Write `"{due.version}"` in its place.'
    return (Finding("version-dishonest", Severity.WARN, message, remedy, key.place),)


def check_kept(content: Content, released: Sequence[Version], severity: Severity) -> tuple[Finding, ...]:
    """A finding when the notes of versions that are released are no longer there: each plan set prints them."""
    lost = [version for version in released if notes_of(content, version) is None]
    if not lost:
        return ()
    file = f"{content.folder}/changes.yaml"
    told = f"what it said about {listed(map(str, lost), 'and')}, released already, is missing in the table of revisions"
    gone = "changes.yaml is gone or empty" if not content.changes else "Notes were taken out of changes.yaml"
    copy = f"{FOLDER}/{content.key}/{released[-1]}/inputs/{file}"
    remedy = f"Bring it back from your version control, or from {copy}, where the last release keeps what it read."
    return (Finding("notes-lost", severity, f"{gone}: {told}.", remedy, Place(file, 0, 0)),)


def _missing(content: Content, wanted: Version) -> Finding:
    return Finding(
        code="notes-missing",
        severity=Severity.STOP,
        message=f"changes.yaml says nothing about version {wanted}.",
        remedy=f'Add to it: `"{wanted}": {{issued: YYYY-MM-DD, summary: What this version is about.}}`',
        place=Place(f"{content.folder}/changes.yaml", 0, 0),
    )
