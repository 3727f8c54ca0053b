"""What a comparison writes to open and to print: pictures of reworks, a catch-up for each edition, a supplement."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

from planbook.document import catch_up_pdf
from planbook.drawing import draw_sheet
from planbook.release import refusals
from planbook.release.archive import disk
from planbook.release.archive.advisories import read_advisories
from planbook.release.catching_up import Pages, catch_up
from planbook.release.compilation import compose_all
from planbook.release.editions import Working
from planbook.release.guidance import guide
from planbook.release.reworks import rework_pictures
from planbook.release.since import Since, Sinces
from planbook.release.updates import File, supplement, update_name
from planbook.release.watching import Watcher
from planbook.source import Door, load
from planbook.source.findings import Finding, stops
from planbook.source.translating import in_language
from planbook.statement import changed_sheets
from planbook.statement.model import Statement


def write_comparison(
    root: Path,
    set_key: str,
    old: str,
    sinces: Sinces,
    after: Mapping[str, Statement],
    working: Working | None,
    out: Path,
    watcher: Watcher,
) -> tuple[Finding, ...]:
    """Write it all into a folder; `working` is the content where that is the newer side and `old` the newest release.

    Only then there are pages to take a supplement from; a release has its own beside its PDF.
    """
    files, findings = dict(rework_pictures(sinces)), tuple[Finding, ...]()
    made = (*_catch_ups(Door(root), set_key, old, sinces, after, watcher), *_supplements(working, watcher))
    for name, data, found in made:
        findings += found
        files |= {name: data} if data is not None else {}
    if stops(findings):
        return findings
    try:
        disk.write_together(out, files)
    except OSError as fault:
        return (refusals.unwritable("pictures", out, fault),)
    return tuple(dict.fromkeys(findings))


def _catch_ups(
    door: Door, set_key: str, old: str, sinces: Sinces, after: Mapping[str, Statement], watcher: Watcher
) -> Iterator[File]:
    content, _ = load(door, set_key)
    advisories, _ = read_advisories(door.root, set_key)
    for edition, since in sinces.items():
        watcher.tell(f"Setting the catch-up of the {edition} edition")
        now = after[edition]
        notes = {} if content is None else in_language(content, now.edition.language).changes
        told = catch_up(since, guide(since, old, notes, advisories), now, _pages(since, now))
        yield update_name(now, f"from-{old}"), *catch_up_pdf(now, told, door)


def _pages(since: Since, now: Statement) -> Pages:
    return {number: draw_sheet(now, number)[0] for number in changed_sheets(since.comparison)}


def _supplements(working: Working | None, watcher: Watcher) -> Iterator[File]:
    if working is None:
        return
    compiled, findings = compose_all(working.door, working.told, watcher, with_files=False)
    for one in compiled.values():
        yield from supplement(working.door, one)
    if stops(findings):
        yield "", None, findings
