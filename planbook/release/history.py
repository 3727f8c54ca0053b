"""A statement's history: its revision table, what changed since the former release, and the ids that are given up."""

from __future__ import annotations

from collections.abc import Mapping

from planbook.release.retirement import retire, retire_sheets
from planbook.release.version import Version, read_version
from planbook.source.findings import Finding, Severity
from planbook.source.models.changes import ReasonModel, VersionNotesModel
from planbook.source.text import Text
from planbook.statement import Changes, Comparison, Revision, changed_in, log_changes
from planbook.statement.model import Statement

Notes = Mapping[Text, VersionNotesModel]
DRAFT = "draft"
"""What the content as it stands is called where a version is named."""


def write_history(
    statement: Statement, former: Statement | None, comparison: Comparison | None, notes: Notes
) -> tuple[Changes, tuple[Finding, ...]]:
    """What a statement prints of its forerunners; `former` is the release before, None for a first version.

    Findings are warnings about reasons of the author's that speak of nothing that changed.
    """
    version = statement.version or DRAFT
    own = own_notes(notes, statement.version, former.version if former else "")
    revisions = _revisions(statement, former, notes, own)
    if former is None or comparison is None:
        return Changes(revisions, changed_in=dict.fromkeys(statement.sheets, version)), ()
    log = log_changes(version, former, statement, comparison, own.reasons if own else ())
    sheets = changed_in(former, statement, comparison, version)
    changes = Changes(revisions, log.rows, sheets, retire(former, statement), retire_sheets(former, statement))
    return changes, tuple(_speaks_of_nothing(reason) for reason in log.idle)


def _revisions(
    statement: Statement, former: Statement | None, notes: Notes, own: VersionNotesModel | None
) -> tuple[Revision, ...]:
    """The versions until this one; a draft names what was released, and itself."""
    told = _notes_until(notes, statement.version or (former.version if former else "0.0"))
    rows = tuple(Revision(str(each), note.issued.isoformat(), str(note.summary)) for each, note in told)
    if statement.version:
        return rows
    summary = f"Not released. {own.summary}" if own else "Not released."
    return (*rows, Revision(DRAFT, statement.issued, summary))


def _notes_until(notes: Notes, version: str) -> list[tuple[Version, VersionNotesModel]]:
    """The author's notes for a version and those before it, oldest first; all of them for a draft ("")."""
    last = read_version(version)
    read = ((read_version(key), told) for key, told in notes.items())
    return sorted(((each, told) for each, told in read if each and (last is None or each <= last)), key=_version)


def own_notes(notes: Notes, version: str, former: str) -> VersionNotesModel | None:
    """The notes of a version; for a draft ("") the newest ones, when they speak of one after the former release.

    `former` is "" before the first release.
    """
    last, wanted = read_version(former), read_version(version)
    newer = [(each, told) for each, told in _notes_until(notes, version) if last is None or each > last]
    return newer[-1][1] if newer and wanted in (None, newer[-1][0]) else None


def _version(pair: tuple[Version, VersionNotesModel]) -> Version:
    return pair[0]


def _speaks_of_nothing(reason: ReasonModel) -> Finding:
    return Finding(
        code="idle-reason",
        severity=Severity.WARN,
        message=f"A reason is given for `{reason.about}`, and nothing that goes by this name changed.",
        remedy="Correct the name, or take the reason out. `planbook compare` lists what changed.",
        place=reason.about.place,
    )
