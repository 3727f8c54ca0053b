"""Drafting a set: its PDFs and a report in a folder of the author's choice, written whole or not at all."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from planbook.release.archive import disk
from planbook.release.archive.reader import read_latest
from planbook.release.archive.record import canonical
from planbook.release.compilation import Compiled, Occasion, compose_all, prepare, state_all
from planbook.release.conditions import warn_of_notes
from planbook.release.editions import choose_edition
from planbook.release.gathering import settle
from planbook.release.history import DRAFT
from planbook.release.reports import EditionFile, Issued
from planbook.release.watching import UNWATCHED, Watcher
from planbook.source import Door
from planbook.source.findings import Finding, Severity, stops

REPORT = "report.json"


def draft_set(door: Door, set_key: str, out: Path, edition: str | None = None, watcher: Watcher = UNWATCHED) -> Issued:
    """Write the PDF of every edition, or of one, and report.json into a folder; nothing when something stops it."""
    compiled, findings = _compile(door, set_key, edition, watcher)
    if stops(findings):
        return Issued(set_key, DRAFT, (), settle(findings))
    files = {_file_name(set_key, name): one.pdf for name, one in compiled.items()}
    issued = Issued(
        set_key,
        DRAFT,
        tuple(edition_file(one, str(out / _file_name(set_key, name))) for name, one in compiled.items()),
        settle(findings),
    )
    try:
        disk.write_together(out, {**files, REPORT: canonical(issued.document())})
    except OSError as fault:
        return Issued(set_key, DRAFT, (), settle(findings, (_unwritable(out, fault),)))
    return issued


def edition_file(compiled: Compiled, pdf: str) -> EditionFile:
    """What a report says of one edition."""
    statement = compiled.statement
    return EditionFile(statement.edition.name, pdf, compiled.places.pages, len(statement.sheets), compiled.seconds)


def _compile(
    door: Door, set_key: str, edition: str | None, watcher: Watcher
) -> tuple[Mapping[str, Compiled], tuple[Finding, ...]]:
    prepared, findings = prepare(door, set_key, watcher)
    if prepared is None or stops(findings):
        return {}, findings
    findings += choose_edition(prepared.editions, edition)
    if stops(findings):
        return {}, findings
    former, damaged = read_latest(door.root, set_key)
    occasion = Occasion("", prepared.content.plan_set.issued, former)
    told, more = state_all(door, prepared, occasion, (edition,) if edition else prepared.editions, watcher)
    findings += damaged + more + warn_of_notes(prepared.content, former, told)
    if stops(findings):
        return {}, findings
    compiled, more = compose_all(door, told, watcher)
    return compiled, findings + more


def _file_name(set_key: str, edition: str) -> str:
    return f"{set_key}-{edition}-{DRAFT}.pdf"


def _unwritable(folder: Path, fault: OSError) -> Finding:
    return Finding(
        code="folder-unwritable",
        severity=Severity.STOP,
        message=f"The draft cannot be written to {folder}: {fault.strerror}.",
        remedy="Name another folder with --out, or make room in this one.",
    )
