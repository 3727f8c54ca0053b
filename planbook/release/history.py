"""A statement's history: its revision table, what changed since the former release, and the ids that are given up."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from planbook.release.archive.advisories import Advisory
from planbook.release.lifting import lifted_rows
from planbook.release.retirement import retire, retire_sheets
from planbook.release.version import Version, read_version
from planbook.source.models.changes import VersionNotesModel
from planbook.source.text import Text
from planbook.statement import ChangeLog, Changes, Comparison, Revision, changed_in, log_changes
from planbook.statement.model import Statement

Notes = Mapping[Text, VersionNotesModel]
DRAFT = "draft"
"""What the content as it stands is called where a version is named."""


def write_history(
    statement: Statement,
    former: Statement | None,
    comparison: Comparison | None,
    notes: Notes,
    advisories: Sequence[Advisory] = (),
) -> tuple[Changes, ChangeLog | None]:
    """What a statement prints of its forerunners, and its change log; a first version (`former` is None) has none."""
    version = statement.version or DRAFT
    own = own_notes(notes, statement.version, former.version if former else "")
    revisions = _revisions(statement, former, notes, own)
    if former is None or comparison is None:
        return Changes(revisions, changed_in=dict.fromkeys(statement.sheets, version)), None
    log = log_changes(version, comparison, own.reasons if own else ())
    log = replace(log, rows=(*lifted_rows(statement, version, own, advisories), *log.rows))
    sheets = changed_in(former, statement, comparison, version)
    changes = Changes(revisions, log.rows, sheets, retire(former, statement), retire_sheets(former, statement))
    return changes, log


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


def _notes_until(notes: Notes, version: str) -> list[tuple[Text, VersionNotesModel]]:
    """The author's notes for a version and those before it, oldest first; all of them for a draft ("")."""
    last = read_version(version)
    told = [(key, told) for key, told in notes.items() if last is None or _number(key) <= last]
    return sorted(told, key=lambda each: _number(each[0]))


def own_notes(notes: Notes, version: str, former: str) -> VersionNotesModel | None:
    """The notes of a version; for a draft ("") the newest ones, when they speak of one after the former release.

    `former` is "" before the first release.
    """
    newest = notes_after(notes, read_version(former), version)
    wanted = read_version(version)
    return newest[1] if newest and wanted in (None, read_version(newest[0])) else None


def notes_after(notes: Notes, former: Version | None, until: str = "") -> tuple[Text, VersionNotesModel] | None:
    """The newest notes with their key, of a version after `former` (None before the first) and up to `until`."""
    newer = notes_between(notes, former, until)
    return newer[-1] if newer else None


def notes_between(notes: Notes, former: Version | None, until: str = "") -> list[tuple[Text, VersionNotesModel]]:
    """The author's notes on each version after `former` (None: on all), up to `until` ("": to the last), in order."""
    return [(key, told) for key, told in _notes_until(notes, until) if former is None or _number(key) > former]


def _number(key: str) -> Version:
    version = read_version(key)
    assert version is not None, key
    return version
