"""Releasing a set: check, compile, freeze. The archive holds a version whole or not at all."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from planbook.release import refusals
from planbook.release.archive.reader import FOLDER, Release, check_chain, list_versions, read_all, read_latest
from planbook.release.archive.writer import archive_open, write_release
from planbook.release.compilation import Compiled, Prepared, Told, compose_all, prepare, state_all
from planbook.release.conditions import check_conditions, read_wanted
from planbook.release.drafting import edition_file
from planbook.release.dropped import dropped_notices
from planbook.release.freezing import freeze, pdf_path
from planbook.release.gathering import settle
from planbook.release.held import held_versions
from planbook.release.lifting import check_lifts
from planbook.release.notes import check_kept, check_notes, notes_of
from planbook.release.notices import with_notices
from planbook.release.numbering import check_number
from planbook.release.occasion import Occasion, occasion_of
from planbook.release.photographs import check_photographs
from planbook.release.questions import newly_answered
from planbook.release.reasons import check_explained, check_reasons
from planbook.release.remedies import check_remedies
from planbook.release.reports.issued import Answered, Issued
from planbook.release.standing import due_after
from planbook.release.translations import check_translations_kept
from planbook.release.updates import with_updates
from planbook.release.version import Version
from planbook.release.watching import UNWATCHED, Watcher
from planbook.source import Door
from planbook.source.content import Question
from planbook.source.findings import Finding, Severity, stops
from planbook.statement import question_page


@dataclass(frozen=True)
class _Ready:
    """A version that may be released as soon as it is written."""

    former: Release | None
    compiled: Mapping[str, Compiled]
    files: Mapping[str, bytes]
    answered: tuple[Question, ...] = ()
    """The questions that it is the first to answer."""
    dropped: tuple[str, ...] = ()
    """Paths of the notices to builders of editions that it has no longer."""


def release_set(root: Path, set_key: str, version: str, watcher: Watcher = UNWATCHED, *, again: bool = False) -> Issued:
    """Freeze the content as it stands in versions/<set>/<version>/; nothing is written when the version is refused.

    `again` makes a version anew that was released before: what its author had to say besides was settled then, and
    what is asked for since is a warning.
    """
    wanted, findings = read_wanted(version)
    ready = None
    if wanted:
        asked = Severity.WARN if again else Severity.STOP
        ready, findings = _make_ready(Door(root), set_key, wanted, asked, watcher)
    if wanted and ready:
        watcher.tell("Writing the release")
        findings += _write(root, set_key, wanted, ready)
    if wanted is None or ready is None or stops(findings):
        return Issued(set_key, version, (), settle(findings))
    home = root / FOLDER / set_key / version
    editions = (
        edition_file(one, home / pdf_path(set_key, name, version), home / name) for name, one in ready.compiled.items()
    )
    dropped = tuple(str(home / path) for path in ready.dropped)
    return Issued(set_key, version, tuple(editions), settle(findings), tuple(_answers(ready)), dropped)


def _answers(ready: _Ready) -> Iterator[Answered]:
    """Each question that is answered now, with its page in every edition."""
    for question in ready.answered:
        target = question_page(question.key)
        pages = {name: one.places.targets.get(target) for name, one in ready.compiled.items()}
        told = {name: place.page for name, place in pages.items() if place is not None}
        yield Answered(question.key, str(question.head.question), told)


def _make_ready(
    door: Door, set_key: str, wanted: Version, asked: Severity, watcher: Watcher
) -> tuple[_Ready | None, tuple[Finding, ...]]:
    """Compile the version and all its files, unless something refuses it; then no page is set.

    `asked` is how grave it is where reasons and remedies are wanting.
    """
    prepared, findings = prepare(door, set_key, watcher)
    if prepared is None or stops(findings):
        return None, findings
    occasion, damaged = occasion_of(door.root, prepared.content, str(wanted), _issue_date(prepared, wanted))
    archive = damaged + check_chain(door.root, set_key)
    findings += archive + check_conditions(prepared.content)
    told, more = state_all(door, prepared, occasion, prepared.editions, watcher)
    findings += more + check_photographs(door.root, prepared.content, told)
    findings += check_translations_kept(door.root, prepared.content)
    if not stops(archive + more):
        findings += _check_version(door.root, prepared, wanted, occasion, told, asked)
    if stops(findings):
        return None, findings
    compiled, more = compose_all(door, told, watcher, with_files=True)
    findings += more
    notes = notes_of(prepared.content, wanted)
    if stops(findings) or notes is None:
        return None, findings
    former = occasion.former
    now = {name: one.statement for name, one in compiled.items()}
    answered = newly_answered(former.statements if former else {}, now, prepared.content.questions)
    earlier, _ = read_all(door.root, set_key)
    held = held_versions(earlier, compiled, occasion.advisories)
    compiled, more = with_notices(door, compiled, held)
    findings += more
    compiled, more = with_updates(door, compiled, held, watcher)
    findings += more
    dropped, more = dropped_notices(door, held, compiled, occasion.advisories)
    findings += more
    if stops(findings):
        return None, findings
    files = freeze(door, set_key, compiled, former, notes[1], dropped)
    return _Ready(former, compiled, files, answered, tuple(dropped)), findings


def _check_version(
    root: Path, prepared: Prepared, wanted: Version, occasion: Occasion, told: Mapping[str, Told], asked: Severity
) -> tuple[Finding, ...]:
    """The number first: notes are asked for under the right one only."""
    content, former = prepared.content, occasion.former
    findings = check_kept(content, list_versions(root, content.key), Severity.STOP) + check_reasons(told)
    findings += check_lifts(content, occasion.advisories)
    if former:
        findings += check_number(content.key, wanted, former.version, due_after(root, former, told))
    if not stops(findings):
        findings += check_notes(content, wanted, former)
    if stops(findings):
        return findings
    notes = notes_of(content, wanted)
    findings += check_explained(told, notes[0], asked) if notes else ()
    return findings + check_remedies(told, content, notes, asked)


def _issue_date(prepared: Prepared, wanted: Version) -> date:
    """That of the version's notes; without any the release is refused, and the working date serves the checks."""
    notes = notes_of(prepared.content, wanted)
    return notes[1].issued if notes else prepared.content.plan_set.issued


def _write(root: Path, set_key: str, wanted: Version, ready: _Ready) -> tuple[Finding, ...]:
    """Write it, unless the archive is busy or no longer as it was when the comparison was made."""
    try:
        with archive_open(root) as ours:
            if not ours:
                return (refusals.busy(),)
            now, damaged = read_latest(root, set_key)
            if damaged:
                return damaged
            if _hash(now) != _hash(ready.former):
                return (refusals.moved_on(now),)
            write_release(root, set_key, wanted, ready.files)
    except FileExistsError:
        return (refusals.taken(set_key, wanted),)
    except OSError as fault:
        whole = wanted in list_versions(root, set_key)
        return (refusals.unconfirmed(wanted, fault) if whole else refusals.unwritten(fault),)
    return ()


def _hash(release: Release | None) -> str:
    return release.record_hash if release else ""
