"""An edition as a PDF: draw the sheets and figures, fill the templates, set the pages, find where everything stands."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from planbook.document.book import Sheet, plan_book
from planbook.document.check_bars import check_bars
from planbook.document.fetch import FONTS, Fetcher
from planbook.document.figures import Room, draw_figure, is_wide
from planbook.document.fill import fill, placed_figures, placed_tables
from planbook.document.fonts import font_faces
from planbook.document.images import Image, drawing_image
from planbook.document.locate import locate
from planbook.document.papers import COLUMN, COVER_HEIGHT, FIGURE_HEIGHT, PAPERS, page_rules
from planbook.document.tables import list_tables
from planbook.document.templates import render
from planbook.document.typeset import typeset
from planbook.drawing import draw_sheet
from planbook.drawing.recording import Drawing
from planbook.source import Door, Refused
from planbook.source.findings import Finding, stops
from planbook.source.text import Text
from planbook.statement.places import Places
from planbook.statement.stated import Stated

STYLE: Final = "templates/book.css"


@dataclass(frozen=True, slots=True)
class Composed:
    """An edition's document, where everything stands in it, and the HTML that it was set from."""

    pdf: bytes
    places: Places
    html: str


def compose(stated: Stated, door: Door) -> tuple[Composed | None, tuple[Finding, ...]]:
    """Set one edition. None when a finding of severity stop says why it could not be set."""
    drawn, findings = _draw(stated, door)
    if stops(findings):
        return None, findings
    html, faults = _write_html(stated, door, drawn)
    findings += faults
    if html is None:
        return None, findings
    paper = PAPERS[stated.statement.edition.paper]
    try:
        styles = {"": font_faces(FONTS) + page_rules(paper), STYLE: door.read_text(STYLE)}
    except Refused as refused:
        return None, (*findings, refused.finding)
    done, complaints = typeset(html, styles, Fetcher(door, drawn.served))
    findings += complaints
    if done is None:
        return None, findings
    return Composed(done.pdf, locate(done, drawn.sheets), html), findings


@dataclass(frozen=True)
class _Drawn:
    """What is drawn before any page is written."""

    sheets: Mapping[str, Drawing]
    """By sheet number."""
    pages: Mapping[str, Image]
    """The same as images."""
    figures: Mapping[str, Image]
    """By name."""
    check_bars: Image
    wide: frozenset[str]
    """Figures that reach from margin to margin."""

    @property
    def served(self) -> Mapping[str, bytes]:
        """All images by file name."""
        images = (*self.pages.values(), *self.figures.values(), self.check_bars)
        return {image.file: image.data for image in images}


def _draw(stated: Stated, door: Door) -> tuple[_Drawn, tuple[Finding, ...]]:
    findings: list[Finding] = []
    sheets: dict[str, Drawing] = {}
    for number in stated.statement.sheets:
        sheets[number], faults = draw_sheet(stated.statement, number)
        findings += faults
    shown = placed_figures(prose.html for prose in stated.prose)
    rooms = _rooms(stated, shown)
    figures: dict[str, Image] = {}
    for name, room in rooms.items():
        figure, faults = draw_figure(stated, door, name, room)
        findings += faults
        if figure is not None:
            figures[name] = figure
    pages = {number: drawing_image(f"sheet-{number}", drawing) for number, drawing in sheets.items()}
    wide = frozenset(name for name, room in rooms.items() if room.wide)
    return _Drawn(sheets, pages, figures, drawing_image("check-bars", check_bars()), wide), tuple(findings)


def _rooms(stated: Stated, shown: tuple[str, ...]) -> Mapping[str, Room]:
    """A column for a figure in a build step, the full width for a wide one on a page of prose and for the cover."""
    full = PAPERS[stated.statement.edition.paper].text_width
    in_steps = placed_figures(prose.html for prose in stated.prose if prose.slot == "step")
    rooms = {str(stated.content.plan_set.cover): Room(full, COVER_HEIGHT, wide=True)}
    for name in shown:
        wide = is_wide(stated.content.figures[Text(name)]) and name not in in_steps
        rooms[name] = Room(full, FIGURE_HEIGHT, wide=True) if wide else Room(COLUMN, FIGURE_HEIGHT)
    return rooms


def _write_html(stated: Stated, door: Door, drawn: _Drawn) -> tuple[str | None, tuple[Finding, ...]]:
    """The whole book as HTML."""
    statement = stated.statement
    tables = list_tables(statement)
    faults: list[Finding] = []

    def figure(name: str) -> str:
        told = statement.figures[name]
        text, found = render(door, "figure.html", {
            "picture": drawn.figures[name].html, "number": told.number, "caption": told.caption,
        })  # fmt: skip
        faults.extend(found)
        return text or ""

    def table(name: str) -> str:
        if name not in tables:
            return ""
        text, found = render(door, "placed_table.html", {"table": tables[name]})
        faults.extend(found)
        return text or ""

    filled = {prose.target: fill(prose.html, figure, table, drawn.wide) for prose in stated.prose}
    if faults:
        return None, tuple(dict.fromkeys(faults))
    placed = placed_tables(prose.html for prose in stated.prose)
    chapters = plan_book(stated, filled, _sheets(stated, drawn), placed)
    return render(door, "book.html", {**_frame(stated, drawn), "chapters": chapters})


def _sheets(stated: Stated, drawn: _Drawn) -> tuple[Sheet, ...]:
    return tuple(
        Sheet(f"sheet.{number}", number, sheet.title, sheet.part, sheet.changed_in,
              drawn.pages[number].html)
        for number, sheet in stated.statement.sheets.items()
    )  # fmt: skip


def _frame(stated: Stated, drawn: _Drawn) -> Mapping[str, Any]:
    """What every template may use."""
    statement = stated.statement
    return {
        "statement": statement,
        "set": statement.plan_set,
        "edition": statement.edition,
        "cover": drawn.figures[str(stated.content.plan_set.cover)].html,
        "check_bars": drawn.check_bars.html,
    }
