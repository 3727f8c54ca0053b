"""Drafting a set: its PDFs, files for the shop and a report in a folder of the author's choice, each file whole."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

from planbook.design import Supposed, check_supposed
from planbook.release.archive import disk
from planbook.release.archive.record import canonical
from planbook.release.compilation import Compiled, compose_all, prepare, state_all
from planbook.release.editions import choose_edition
from planbook.release.gathering import settle
from planbook.release.history import DRAFT
from planbook.release.occasion import occasion_of
from planbook.release.photographs import check_photographs
from planbook.release.refusals import unwritable
from planbook.release.reports.issued import EditionFile, Issued
from planbook.release.shop_files import FOLDERS
from planbook.release.standing import check_standing
from planbook.release.translations import check_translations_kept
from planbook.release.watching import UNWATCHED, Watcher
from planbook.source import Door
from planbook.source.findings import Finding, stops

REPORT = "report.json"


def draft_set(
    door: Door,
    set_key: str,
    out: Path,
    edition: str | None = None,
    watcher: Watcher = UNWATCHED,
    supposed: tuple[Supposed, ...] = (),
    pieces: int = 1,
) -> Issued:
    """Write every edition, or one, and report.json into a folder; nothing when something stops it.

    With something `supposed`, or lists for several `pieces`, it is one builder's own set, and says so on every page.

    The folders of an edition's files are the draft's own: what it no longer makes is removed from them.
    """
    compiled, findings = _compile(door, set_key, edition, watcher, supposed, pieces)
    if stops(findings):
        return Issued(set_key, DRAFT, (), settle(findings))
    files = {path: data for name, one in compiled.items() for path, data in _files(set_key, name, one)}
    editions = (
        edition_file(one, out / _file_name(set_key, name, one), out / _folder(set_key, name))
        for name, one in compiled.items()
    )
    issue = next((one.statement.issue for one in compiled.values()), DRAFT)
    issued = Issued(set_key, issue, tuple(editions), settle(findings))
    owned = tuple(f"{_folder(set_key, name)}/{folder}" for name in compiled for folder in FOLDERS)
    try:
        disk.write_together(out, {**files, REPORT: canonical(issued.document())}, owned)
    except OSError as fault:
        return Issued(set_key, DRAFT, (), settle(findings, (unwritable("draft", out, fault),)))
    return issued


def edition_file(compiled: Compiled, pdf: Path, folder: Path) -> EditionFile:
    """What a report says of one edition, whose files for the shop are in a folder."""
    statement, files = compiled.statement, tuple(str(folder / path) for path in sorted(compiled.files))
    pages, sheets = compiled.places.pages, len(statement.sheets)
    return EditionFile(statement.edition.name, str(pdf), pages, sheets, compiled.seconds, files)


def _compile(
    door: Door,
    set_key: str,
    edition: str | None,
    watcher: Watcher,
    supposed: tuple[Supposed, ...],
    pieces: int,
) -> tuple[Mapping[str, Compiled], tuple[Finding, ...]]:
    prepared, findings = prepare(door, set_key, watcher)
    if prepared is None or stops(findings):
        return {}, findings
    findings += choose_edition(prepared.editions, edition) + check_supposed(prepared.plan, supposed)
    if stops(findings):
        return {}, findings
    occasion, damaged = occasion_of(door.root, prepared.content, supposed=supposed, pieces=pieces)
    told, more = state_all(door, prepared, occasion, (edition,) if edition else prepared.editions, watcher)
    findings += damaged + more
    if not supposed and pieces == 1:
        findings += check_standing(door.root, prepared.content, occasion, told)
    findings += check_photographs(door.root, prepared.content, told)
    findings += check_translations_kept(door.root, prepared.content)
    if stops(findings):
        return {}, findings
    compiled, more = compose_all(door, told, watcher, with_files=True)
    return compiled, findings + more


def _files(set_key: str, edition: str, compiled: Compiled) -> Iterator[tuple[str, bytes]]:
    yield _file_name(set_key, edition, compiled), compiled.pdf
    for path, data in compiled.files.items():
        yield f"{_folder(set_key, edition)}/{path}", data


def _folder(set_key: str, edition: str) -> str:
    return f"{set_key}-{edition}"


def _file_name(set_key: str, edition: str, compiled: Compiled) -> str:
    return f"{set_key}-{edition}-{compiled.statement.issue}.pdf"
