"""Files for the shop beside an edition's PDF: drawings to open, flat parts to cut by machine, templates to print."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from planbook.document import Drawn, full_size_pdf
from planbook.drawing.dxf import is_flat, part_dxf, sheet_dxf
from planbook.drawing.fullsize import full_size
from planbook.release.archive.reader import figure_path
from planbook.release.list_files import list_files
from planbook.source import Door
from planbook.source.findings import Finding
from planbook.statement.model import PartStated, Statement
from planbook.statement.stated import Stated

FOLDERS: Final = ("sheets", "figures", "parts", "templates", "lists")
"""All that this module names begins with one of these."""


def shop_files(stated: Stated, drawn: Drawn, door: Door) -> tuple[Mapping[str, bytes], tuple[Finding, ...]]:
    """The files of an edition by their path, posix and relative; findings tell of templates that could not be set."""
    statement = stated.statement
    templates, findings = _templates(statement, door)
    lists = dict(list_files(statement, stated.taken.grids)) if stated.taken is not None else {}
    return {**dict(_drawings(stated, drawn)), **dict(_parts(statement)), **templates, **lists}, findings


def _drawings(stated: Stated, drawn: Drawn) -> Iterator[tuple[str, bytes]]:
    """Pages of sheets as SVG and DXF, figures that are drawn as SVG, the one on the cover among them."""
    statement, cover = stated.statement, str(stated.content.plan_set.cover)
    for number, pages in drawn.sheets.items():
        for place, (page, image) in enumerate(zip(pages, drawn.pages[number], strict=True), start=1):
            name = number if place == 1 else f"{number}-{place}"
            yield f"sheets/{name}.svg", image.data
            yield f"sheets/{name}.dxf", sheet_dxf(statement, page)
    for name, image in drawn.figures.items():
        if image.file.endswith(".svg"):
            yield figure_path(name), image.data
    if drawn.cover is not None and drawn.cover.file.endswith(".svg") and cover not in drawn.figures:
        yield figure_path(cover), drawn.cover.data


def _parts(statement: Statement) -> Iterator[tuple[str, bytes]]:
    for part in statement.parts.values():
        if is_flat(part):
            yield f"parts/{_name(part)}.dxf", part_dxf(statement, part.key)


def _templates(statement: Statement, door: Door) -> tuple[dict[str, bytes], tuple[Finding, ...]]:
    files: dict[str, bytes] = {}
    findings: list[Finding] = []
    for part in statement.parts.values():
        if not part.template:
            continue
        title = f"{part.title}, part {part.number}: full-size template"
        pages = full_size(statement, part.key)
        pdf, faults = full_size_pdf(pages, title, statement.edition.language, statement.issued, door)
        findings += faults
        if pdf is not None:
            files[f"templates/{_name(part)}.pdf"] = pdf
    return files, tuple(findings)


def _name(part: PartStated) -> str:
    """`12-ramp-bar`: its sheet, and its key as a file name."""
    return f"{part.sheet}-{part.key.replace('_', '-')}"
