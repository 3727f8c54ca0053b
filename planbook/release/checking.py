"""Checking a set: every edition stated and composed, nothing written."""

from __future__ import annotations

from planbook.release.archive.reader import Release, read_latest
from planbook.release.compilation import Label, Prepared, Tell, compose_all, prepare, state, untold
from planbook.release.gathering import gather, settle
from planbook.release.reports import Checked
from planbook.release.retirement import check_retired
from planbook.source import Door
from planbook.source.findings import Finding, stops


def check_set(door: Door, set_key: str, tell: Tell = untold) -> Checked:
    """Everything that a draft would report, in every edition."""
    prepared, findings = prepare(door, set_key, tell)
    if prepared is None or stops(findings):
        return Checked(set_key, settle(findings))
    former, more = read_latest(door.root, set_key)
    return Checked(set_key, settle(findings, more, _check_editions(door, prepared, former, tell)))


def _check_editions(door: Door, prepared: Prepared, former: Release | None, tell: Tell) -> tuple[Finding, ...]:
    stated, findings = state(door, prepared, Label("", prepared.content.plan_set.issued), tell)
    if former:
        told = {edition: check_retired(former.statements[edition], one.statement, prepared.content) for edition, one in stated.items() if edition in former.statements}
        findings += gather(told)
    if stops(findings):
        return findings
    return findings + compose_all(door, stated, tell)[1]
