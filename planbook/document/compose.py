"""An edition as a PDF: draw the sheets and figures, fill the templates, set the pages, find where everything stands."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from planbook.document.bars import with_bars
from planbook.document.book import Chapter, Sheet, plan_book
from planbook.document.changing import changing_tables
from planbook.document.cover import list_facts
from planbook.document.drawn import Drawn, draw_all
from planbook.document.fetch import FONTS, Fetcher
from planbook.document.fill import fill, placed_tables
from planbook.document.fonts import font_faces
from planbook.document.former_values import former_rows
from planbook.document.gallery import Gallery
from planbook.document.loads import load_table
from planbook.document.locate import locate
from planbook.document.panels import shorten
from planbook.document.papers import PAPERS, page_rules
from planbook.document.pinching import pinch_places, pinch_table
from planbook.document.tables import list_tables
from planbook.document.templates import render
from planbook.document.typeset import Typeset, typeset
from planbook.source import Door, Refused
from planbook.source.findings import Finding, stops
from planbook.statement.model import Statement
from planbook.statement.one_off import one_off_notes
from planbook.statement.places import Places
from planbook.statement.prose import PINCH_PLACES
from planbook.statement.stated import Stated

STYLE: Final = "templates/book.css"


@dataclass(frozen=True, slots=True)
class Composed:
    """An edition's document, where everything stands in it, the HTML and chapters it was set from, and its drawings."""

    pdf: bytes
    places: Places
    html: str
    drawn: Drawn
    chapters: tuple[Chapter, ...]


def compose(stated: Stated, door: Door, gallery: Gallery | None = None) -> tuple[Composed | None, tuple[Finding, ...]]:
    """Set one edition. None when a finding of severity stop says why it could not be set.

    Figures that the `gallery` has drawn already are not drawn again.
    """
    drawn, findings = draw_all(stated, door, gallery)
    if stops(findings):
        return None, findings
    chapters, faults = plan_chapters(stated, door, drawn)
    findings += faults
    if chapters is None:
        return None, findings
    written, faults = render(door, "book.html", {**frame(stated, drawn), "chapters": chapters})
    findings += faults
    if written is None:
        return None, findings
    html = with_bars(written, stated.marks.told)
    done, complaints = set_pages(html, stated.statement, Fetcher(door, drawn.served, drawn.drawings))
    findings += complaints
    if done is None:
        return None, findings
    return Composed(done.pdf, locate(done, drawn.sheets), html, drawn, chapters), findings


def set_pages(html: str, statement: Statement, fetcher: Fetcher) -> tuple[Typeset | None, tuple[Finding, ...]]:
    """Pages of an edition from HTML, on its paper and in its look, with the images that `fetcher` serves."""
    try:
        styles = style_sheets(statement, fetcher.door)
    except Refused as refused:
        return None, (refused.finding,)
    return typeset(html, styles, fetcher)


def style_sheets(statement: Statement, door: Door) -> Mapping[str, str]:
    """CSS texts by file, "" for what follows from fonts and paper; raises Refused."""
    paper = PAPERS[statement.edition.paper]
    return {"": font_faces(FONTS) + page_rules(paper), STYLE: door.read_text(STYLE)}


def plan_chapters(stated: Stated, door: Door, drawn: Drawn) -> tuple[tuple[Chapter, ...] | None, tuple[Finding, ...]]:
    """The chapters of the whole book, with their figures and tables in them."""
    statement = stated.statement
    tables = {**list_tables(statement), **changing_tables(statement), **pinch_table(statement), **load_table(statement)}
    faults: list[Finding] = []

    def figure(name: str) -> str:
        told = statement.figures[name]
        text, found = render(door, "figure.html", {
            "picture": drawn.figures[name].html, "number": told.number, "caption": told.caption,
            "version": told.shows_version,
        })  # fmt: skip
        faults.extend(found)
        return text or ""

    def table(name: str) -> str:
        if name == PINCH_PLACES:
            return pinch_places(statement)
        if name not in tables:
            return ""
        text, found = render(door, "placed_table.html", {"table": tables[name]})
        faults.extend(found)
        return text or ""

    told = frozenset(stated.cautions_html)
    filled = {prose.target: fill(shorten(prose.html, told), figure, table, drawn.wide) for prose in stated.prose}
    if faults:
        return None, tuple(dict.fromkeys(faults))
    placed = placed_tables(prose.html for prose in stated.prose)
    return plan_book(stated, filled, _sheets(stated, drawn), placed, drawn), ()


def _sheets(stated: Stated, drawn: Drawn) -> tuple[Sheet, ...]:
    return tuple(
        Sheet(f"sheet.{number}", number, sheet.title, sheet.part, sheet.changed_in,
              tuple(image.html for image in drawn.pages[number]))
        for number, sheet in stated.statement.sheets.items()
    )  # fmt: skip


def frame(stated: Stated, drawn: Drawn) -> Mapping[str, Any]:
    """What every template may use."""
    statement = stated.statement
    return {
        "statement": statement,
        "set": statement.plan_set,
        "edition": statement.edition,
        "one_off": one_off_notes(statement),
        "cover": drawn.cover.html if drawn.cover else "",
        "facts": list_facts(stated),
        "check_bars": drawn.check_bars.html,
        "signs": drawn.signs,
        "marks": stated.marks,
        "untold": drawn.untold,
        "former": former_rows(drawn.untold),
    }
