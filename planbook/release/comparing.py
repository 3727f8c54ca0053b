"""Comparing two versions of a set, or one with the content as it stands."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from planbook.release import refusals
from planbook.release.across import headings_across, others_across, parts_across
from planbook.release.advising import read_advised
from planbook.release.archive import disk
from planbook.release.archive.reader import check_chain, read_latest
from planbook.release.editions import read_named, read_working
from planbook.release.history import DRAFT
from planbook.release.numbering import Due
from planbook.release.reports import ChangeLine, Compared, EditionCompared
from planbook.release.reworks import rework_pictures
from planbook.release.since import Since, Sinces
from planbook.release.standing import due_after
from planbook.release.watching import UNWATCHED, Watcher
from planbook.source.findings import Finding, stops
from planbook.statement import compare
from planbook.statement.model import Statement

Statements = Mapping[str, Statement]


def compare_set(
    root: Path, set_key: str, old: str, new: str | None = None, watcher: Watcher = UNWATCHED, out: Path | None = None
) -> tuple[Compared | None, tuple[Finding, ...]]:
    """What `new` tells otherwise than `old`, by edition; `new` is the content as it stands when it is None.

    With `out`, what is to be reworked or cut anew is drawn there. None when a finding stops it: a version that is not
    there, a damaged archive, content that does not compile, a folder that cannot be written.
    """
    before, findings = read_named(root, set_key, old)
    findings = tuple(dict.fromkeys((*findings, *check_chain(root, set_key))))
    if before is None or stops(findings):
        return None, findings
    after, due, more = _newer(root, set_key, new, watcher)
    if after is None:
        return None, more
    pairs = {name: (before.statements.get(name), after.get(name)) for name in (*before.statements, *after)}
    sinces = {name: Since(compare(was, now)) for name, (was, now) in pairs.items() if was and now}
    if out and (faults := _draw(sinces, out)):
        return None, faults
    return Compared(
        set=set_key,
        old=old,
        new=new or DRAFT,
        editions=tuple(_report(name, was, now, sinces.get(name)) for name, (was, now) in pairs.items()),
        title=next(iter((*after.values(), *before.statements.values()))).plan_set.title,
        parts=parts_across(sinces),
        headings=headings_across(sinces),
        others=others_across(sinces),
        due=due,
        advised=read_advised(root, set_key, old)[0],
    ), more


def _draw(sinces: Sinces, out: Path) -> tuple[Finding, ...]:
    try:
        disk.write_together(out, rework_pictures(sinces))
    except OSError as fault:
        return (refusals.unwritable("pictures", out, fault),)
    return ()


def _newer(
    root: Path, set_key: str, version: str | None, watcher: Watcher
) -> tuple[Statements | None, Due | None, tuple[Finding, ...]]:
    """What the newer side tells; of the content as it stands also the number that is due after the last release."""
    if version is not None:
        release, findings = read_named(root, set_key, version)
        return (release.statements if release else None), None, findings
    working, findings = read_working(root, set_key, watcher, with_pages=False)
    latest, _ = read_latest(root, set_key)
    if working is None or latest is None:
        return None, None, findings
    return working.statements, due_after(root, latest, working.told), findings


def _report(name: str, old: Statement | None, new: Statement | None, since: Since | None) -> EditionCompared:
    if since is None:
        titles = [statement.edition.title if statement else "" for statement in (old, new)]
        return EditionCompared(name, None, (ChangeLine("edition", name, titles[0], titles[1]),))
    lines = tuple(
        ChangeLine(change.kind.value, change.id, change.reads(change.old), change.reads(change.new))
        for change in since.comparison.told
    )
    return EditionCompared(name, since.impact, lines)
