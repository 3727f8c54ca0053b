"""Checking a set: every edition stated and composed, nothing written."""

from __future__ import annotations

from planbook.release.archive.reader import check_chain
from planbook.release.compilation import compose_all, prepare, state_all
from planbook.release.gathering import settle
from planbook.release.occasion import occasion_of
from planbook.release.photographs import check_photographs
from planbook.release.reports.findings import Checked
from planbook.release.standing import check_standing
from planbook.release.translations import check_translations_kept
from planbook.release.watching import UNWATCHED, Watcher
from planbook.source import Door
from planbook.source.findings import stops


def check_set(door: Door, set_key: str, watcher: Watcher = UNWATCHED, pieces: int = 1) -> Checked:
    """Everything that a draft would report, in every edition, with lists for so many `pieces`."""
    prepared, findings = prepare(door, set_key, watcher)
    if prepared is None or stops(findings):
        return Checked(set_key, settle(findings))
    occasion, damaged = occasion_of(door.root, prepared.content, pieces=pieces)
    told, more = state_all(door, prepared, occasion, prepared.editions, watcher)
    findings += damaged + check_chain(door.root, set_key) + more
    findings += check_standing(door.root, prepared.content, occasion, told)
    findings += check_photographs(door.root, prepared.content, told)
    findings += check_translations_kept(door.root, prepared.content)
    if not stops(findings):
        findings += compose_all(door, told, watcher, with_files=False)[1]
    return Checked(set_key, settle(findings))
