"""What if: every edition stated as content has it and stated with a supposed change, and what that moves."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from planbook.design import Supposed, check_supposed
from planbook.release.compilation import Prepared, prepare, state_one
from planbook.release.gathering import gather, settle
from planbook.release.occasion import occasion_of
from planbook.release.reports.weighed import EditionWeighed, PartMoved, Weighed
from planbook.release.watching import UNWATCHED, Watcher
from planbook.source import Door
from planbook.source.findings import Finding, stops
from planbook.statement import Effect, Statement, effects


def weigh_set(door: Door, set_key: str, supposed: tuple[Supposed, ...], watcher: Watcher = UNWATCHED) -> Weighed:
    """What moves with the change. The findings are those of the changed design; no page is set, nothing written."""
    prepared, findings = prepare(door, set_key, watcher)
    if prepared is not None:
        findings += check_supposed(prepared.plan, supposed)
    if prepared is None or stops(findings):
        return Weighed(set_key, supposed, {}, (), settle(findings))
    standing, damaged = occasion_of(door.root, prepared.content)
    changed = replace(standing, supposed=supposed)
    weighed: list[EditionWeighed] = []
    found: dict[str, tuple[Finding, ...]] = {}
    for edition in prepared.editions:
        watcher.tell(f"Working out the {edition} edition, as it is and with the change")
        before, _ = state_one(door, prepared, standing, edition)
        now, found[edition] = state_one(door, prepared, changed, edition)
        if before is not None and now is not None:
            weighed.append(_weighed(edition, effects(before, now), now.statement))
    findings += damaged + gather(found)
    return Weighed(set_key, supposed, _replaced(prepared, supposed), tuple(weighed), settle(findings))


def _weighed(edition: str, moved: tuple[Effect, ...], statement: Statement) -> EditionWeighed:
    by_part: dict[str, list[Effect]] = {}
    for effect in moved:
        if effect.part:
            by_part.setdefault(effect.part, []).append(effect)
    parts = sorted((statement.parts[key].number, statement.parts[key].title, found) for key, found in by_part.items())
    others = tuple(effect for effect in moved if not effect.part)
    return EditionWeighed(edition, others, tuple(PartMoved(*each[:2], tuple(each[2])) for each in parts))


def _replaced(prepared: Prepared, supposed: Iterable[Supposed]) -> Mapping[str, str]:
    """The derived ones, with the formula that does not count; it may differ between markets."""
    replaced: dict[str, str] = {}
    for each in supposed:
        entries = [plan.entries[each.name] for plan in prepared.plan.markets.values() if plan.inputs.get(each.name)]
        if entries:
            replaced[each.name] = str(entries[0].formula)
    return replaced
