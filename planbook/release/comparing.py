"""Comparing two versions of a set, or one with the content as it stands."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from planbook.release.across import headings_across, others_across, parts_across
from planbook.release.advising import read_advised
from planbook.release.archive.reader import check_chain, read_latest
from planbook.release.comparing_files import write_comparison
from planbook.release.editions import Working, read_named, read_working
from planbook.release.history import DRAFT
from planbook.release.looks import compare_seen
from planbook.release.numbering import Due
from planbook.release.reports.compared import ChangeLine, Compared, EditionCompared
from planbook.release.since import Since
from planbook.release.standing import due_after
from planbook.release.watching import UNWATCHED, Watcher
from planbook.source.findings import Finding, stops
from planbook.statement.model import Statement

Statements = Mapping[str, Statement]


def compare_set(
    root: Path, set_key: str, old: str, new: str | None = None, watcher: Watcher = UNWATCHED, out: Path | None = None
) -> tuple[Compared | None, tuple[Finding, ...]]:
    """What `new` tells otherwise than `old`, by edition; `new` is the content as it stands when it is None.

    With `out`, pictures of what is to be reworked or cut anew and updates to print are written there. None when a
    finding stops it: a version that is not there, a damaged archive, content that does not compile, a folder that
    cannot be written.
    """
    before, findings = read_named(root, set_key, old)
    findings = tuple(dict.fromkeys((*findings, *check_chain(root, set_key))))
    if before is None or stops(findings):
        return None, findings
    newer, more = _newer(root, set_key, new, watcher)
    if newer is None:
        return None, more
    after = newer.statements
    pairs = {name: (before.statements.get(name), after.get(name)) for name in (*before.statements, *after)}
    sinces = {
        name: Since(compare_seen(was, now, partial(before.figure, name), partial(newer.figure, name)))
        for name, (was, now) in pairs.items()
        if was and now
    }
    if out:
        working = newer.working if newer.latest == old else None
        found = write_comparison(root, set_key, old, sinces, after, working, out, watcher)
        if stops(found):
            return None, found
        more = tuple(dict.fromkeys((*more, *found)))
    return Compared(
        set=set_key,
        old=old,
        new=new or DRAFT,
        editions=tuple(_report(name, was, now, sinces.get(name)) for name, (was, now) in pairs.items()),
        title=next(iter((*after.values(), *before.statements.values()))).plan_set.title,
        parts=parts_across(sinces),
        headings=headings_across(sinces),
        others=others_across(sinces),
        due=newer.due,
        advised=read_advised(root, set_key, old)[0],
    ), more


@dataclass(frozen=True)
class _Newer:
    """What the newer side tells; of the content as it stands also the number that is due after the `latest` release."""

    statements: Statements
    figure: Callable[[str, str], bytes | None]
    """As SVG, by edition and name."""
    working: Working | None = None
    latest: str = ""
    due: Due | None = None


def _newer(
    root: Path, set_key: str, version: str | None, watcher: Watcher
) -> tuple[_Newer | None, tuple[Finding, ...]]:
    if version is not None:
        release, findings = read_named(root, set_key, version)
        return (_Newer(release.statements, release.figure) if release else None), findings
    working, findings = read_working(root, set_key, watcher, with_pages=False)
    latest, _ = read_latest(root, set_key)
    if working is None or latest is None:
        return None, findings
    due = due_after(root, latest, working.told)
    return _Newer(working.statements, working.figure, working, str(latest.version), due), findings


def _report(name: str, old: Statement | None, new: Statement | None, since: Since | None) -> EditionCompared:
    if since is None:
        titles = [statement.edition.title if statement else "" for statement in (old, new)]
        return EditionCompared(name, None, (ChangeLine("edition", name, titles[0], titles[1]),))
    lines = tuple(
        ChangeLine(change.kind.value, change.id, change.reads(change.old), change.reads(change.new))
        for change in since.comparison.told
    )
    return EditionCompared(name, since.impact, lines)
