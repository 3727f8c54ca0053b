"""The supplement: sheets and pages of a plan set that are not as in the version before, to put in their place."""

from __future__ import annotations

from planbook.document.bars import with_bars
from planbook.document.compose import Composed, frame, set_pages
from planbook.document.excerpt import changed_chapters, without_dead_links
from planbook.document.fetch import Fetcher
from planbook.document.templates import render
from planbook.source import Door
from planbook.source.findings import Finding
from planbook.statement import Comparison, changed_sheets
from planbook.statement.stated import Stated


def supplement_pdf(
    stated: Stated, whole: Composed, comparison: Comparison, door: Door
) -> tuple[bytes | None, tuple[Finding, ...]]:
    """Set from the `whole` document, whose drawings it shows again; `comparison` is the one that its marks are from.

    Pages of prose, steps and tables stand whole where anything in them changed. The change log comes with them.
    """
    marks, places = stated.marks, whole.places
    sheets = changed_sheets(comparison)
    chapters = changed_chapters(whole.chapters, marks.told, frozenset(sheets))
    told = {"old": comparison.old.version, "chapters": chapters, "withdrawn": withdrawn_sheets(comparison)}
    values = {**frame(stated, whole.drawn), **told}
    html, findings = render(door, "supplement.html", values)
    if html is None:
        return None, findings
    pages = {target: place.page for target, place in places.targets.items()}
    linked = without_dead_links(with_bars(html, marks.told), pages)
    done, more = set_pages(linked, stated.statement, Fetcher(door, whole.drawn.served, whole.drawn.drawings))
    return (done.pdf if done else None), (*findings, *more)


def withdrawn_sheets(comparison: Comparison) -> tuple[str, ...]:
    """Numbers of sheets that are in force no longer."""
    return tuple(number for number in comparison.old.sheets if number not in comparison.new.sheets)
