"""Comparing two versions of a set, or one with the content as it stands."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from planbook.release.editions import read_named, read_working
from planbook.release.history import DRAFT
from planbook.release.reports import ChangeLine, Compared, EditionCompared
from planbook.release.watching import UNWATCHED, Watcher
from planbook.source.findings import Finding
from planbook.statement import Comparison, compare
from planbook.statement.model import Statement


def compare_set(
    root: Path, set_key: str, old: str, new: str | None = None, watcher: Watcher = UNWATCHED
) -> tuple[Compared | None, tuple[Finding, ...]]:
    """What `new` tells otherwise than `old`, by edition; `new` is the content as it stands when it is None.

    None when a finding stops it: a version that is not there, content that does not compile.
    """
    before, findings = read_named(root, set_key, old)
    if before is None:
        return None, findings
    after, more = _statements(root, set_key, new, watcher)
    if after is None:
        return None, more
    names = dict.fromkeys((*before.statements, *after))
    editions = tuple(_compare_edition(name, before.statements.get(name), after.get(name)) for name in names)
    return Compared(set_key, old, new or DRAFT, editions), more


def _statements(
    root: Path, set_key: str, version: str | None, watcher: Watcher
) -> tuple[Mapping[str, Statement] | None, tuple[Finding, ...]]:
    if version is None:
        working, findings = read_working(root, set_key, watcher, with_pages=False)
        return (working.statements if working else None), findings
    release, findings = read_named(root, set_key, version)
    return (release.statements if release else None), findings


def _compare_edition(name: str, old: Statement | None, new: Statement | None) -> EditionCompared:
    if old is None or new is None:
        titles = [statement.edition.title if statement else "" for statement in (old, new)]
        return EditionCompared(name, {}, (ChangeLine("edition", name, titles[0], titles[1]),))
    return _as_report(name, compare(old, new))


def _as_report(name: str, comparison: Comparison) -> EditionCompared:
    parts = {verdict.number: verdict.verdict.value for verdict in comparison.parts}
    lines = tuple(
        ChangeLine(change.kind.value, change.id, change.reads(change.old), change.reads(change.new))
        for change in comparison.told
    )
    return EditionCompared(name, parts, lines)
