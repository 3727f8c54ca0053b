"""The catch-up: what to do with what was built from an older version, what is to be reworked, the new sheets."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final

from markupsafe import Markup

from planbook.document.book import Sheet
from planbook.document.compose import set_pages
from planbook.document.fetch import Fetcher
from planbook.document.former_values import former_rows
from planbook.document.images import Image, drawing_image
from planbook.document.tables import Cell, Column, Row, columns_of
from planbook.document.templates import render
from planbook.document.words import as_html
from planbook.drawing.recording import Drawing
from planbook.source import Door
from planbook.source.findings import Finding
from planbook.statement.changes import Revision
from planbook.statement.marks import SheetMark
from planbook.statement.model import Statement

_BOX: Final = "\N{BALLOT BOX} \N{NO-BREAK SPACE}"
"""Stands for the box to tick before a text, where its width is reckoned."""


@dataclass(frozen=True, slots=True)
class PartTask:
    """What a builder does about one part who has not cut it, cut it, glued it, finished it; "" for nothing."""

    number: int
    title: str
    uncut: str
    cut: str = ""
    glued: str = ""
    finished: str = ""
    why: str = ""
    """What the author says of it."""


@dataclass(frozen=True, slots=True)
class TaskGroup:
    """Parts of one class of impact."""

    title: str
    tasks: tuple[PartTask, ...]


@dataclass(frozen=True, slots=True)
class Rework:
    """A part with wood that goes or is lacking, drawn over what it was."""

    title: str
    words: str
    drawing: Drawing


@dataclass(frozen=True, slots=True)
class CatchUp:
    """All that a catch-up tells. `sheets` are those that changed, with their pages, marked since `old`."""

    old: str
    versions: tuple[Revision, ...]
    """Those after `old`, oldest first."""
    groups: tuple[TaskGroup, ...]
    reprinted: tuple[int, ...]
    """Numbers of the parts whose sheet reads otherwise, and nothing else."""
    as_before: int
    """How many parts are as they were."""
    others: Mapping[str, tuple[str, ...]]
    """What to buy, and steps to look at again, by title."""
    lifted: tuple[str, ...]
    """Advisories on `old` that hold no longer."""
    reworks: tuple[Rework, ...]
    sheets: Mapping[str, Sequence[Drawing]]
    withdrawn: tuple[str, ...]
    """Sheets in force no longer."""
    untold: Mapping[str, tuple[SheetMark, ...]] = field(default_factory=dict)
    """By sheet, the marks whose former value it had no room to tell."""

    @property
    def glues(self) -> bool:
        """Whether any of these parts is glued."""
        return any(task.glued for group in self.groups for task in group.tasks)


def catch_up_pdf(statement: Statement, told: CatchUp, door: Door) -> tuple[bytes | None, tuple[Finding, ...]]:
    """The PDF for builders who hold an older version; `statement` is the newer one."""
    reworks = [drawing_image(f"rework-{at}", each.drawing) for at, each in enumerate(told.reworks)]
    pages = {number: _images(number, drawings) for number, drawings in told.sheets.items()}
    values = {
        "statement": statement, "set": statement.plan_set, "edition": statement.edition, "told": told,
        "reworks": [(each, image.html) for each, image in zip(told.reworks, reworks, strict=True)],
        "columns": _columns(told),
        "former": former_rows(told.untold),
        "chapter": {"sheets": [_sheet(statement, number, images) for number, images in pages.items()]},
    }  # fmt: skip
    html, findings = render(door, "catch_up.html", values)
    if html is None:
        return None, findings
    images = (*reworks, *(each for those in pages.values() for each in those))
    served = {image.file: image.data for image in images}
    drawings = {image.file: image.drawing for image in images if image.drawing is not None}
    done, more = set_pages(html, statement, Fetcher(door, served, drawings))
    return (done.pdf if done else None), (*findings, *more)


def _columns(told: CatchUp) -> tuple[Column, ...]:
    """Of the table of tasks, as wide as what stands in them asks; one for glued parts where any is."""
    heads = ["Part", "Not cut yet", "Cut", *(["Glued"] if told.glues else []), "Finished"]
    rows = []
    for task in (task for group in told.groups for task in group.tasks):
        todo = (task.uncut, task.cut, *((task.glued,) if told.glues else ()), task.finished)
        ticked = (f"{_BOX}{text}" if text else "" for text in todo)
        rows.append(Row(tuple(Cell(as_html(text)) for text in (f"{task.number} {task.title}", *ticked))))
    return columns_of([(head, "text") for head in heads], rows)


def _images(number: str, drawings: Sequence[Drawing]) -> tuple[Image, ...]:
    return tuple(drawing_image(f"sheet-{number}-{at}", page) for at, page in enumerate(drawings, start=1))


def _sheet(statement: Statement, number: str, images: Sequence[Image]) -> Sheet:
    sheet = statement.sheets[number]
    html: tuple[Markup, ...] = tuple(image.html for image in images)
    return Sheet(f"sheet.{number}", number, sheet.title, sheet.part, sheet.changed_in, html)
