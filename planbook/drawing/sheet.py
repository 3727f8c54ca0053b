"""A whole sheet, page by page: frame, title block, notes, and the part's views with all their dimensions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planbook.drawing.arrangement import Arrangement
from planbook.drawing.composing import compose_sheet
from planbook.drawing.frame import Page, border, notes_width, page_of
from planbook.drawing.notes import Notes, draw_notes, in_steps, legend_of, notes_height
from planbook.drawing.pages import FULL, cover
from planbook.drawing.pictorial import draw_pictorial
from planbook.drawing.recording import Drawing, Label, Primitive
from planbook.drawing.scales import scales_for
from planbook.drawing.stated_solid import solid_of_stated
from planbook.drawing.title_block import PageOf, general_lines, title_block
from planbook.drawing.wanted import Wanted
from planbook.source.findings import Finding, Severity
from planbook.statement.model import PartStated, Statement
from planbook.statement.one_off import one_off_notes

_NOTES_THERE = "For the notes see page 1 of this sheet."


def draw_sheet(statement: Statement, number: str) -> tuple[tuple[Drawing, ...], tuple[Finding, ...]]:
    """The pages of the sheet with this number (landscape A4 or US Letter), and what could not be placed.

    Most sheets are one page. Raises KeyError when the statement has no such sheet.
    """
    sheet = statement.sheets[number]
    part, edition = statement.parts[sheet.part], statement.edition
    dimensions = tuple(d for d in statement.dimensions.values() if d.part == part.key)
    legend = legend_of(dimensions, statement.plan_set.caliper_tolerance)
    sentences = (*one_off_notes(statement), *part.notes, *general_lines(statement)[1])
    words = Notes(sentences, part.stock_note, legend)
    later = page_of(edition.paper)
    wanted = Wanted(part, dimensions, scales_for(edition.units), edition.projection)
    first, arranged = _composed(wanted, words, edition.paper)
    found = arranged or (None,)
    drawings: list[Drawing] = []
    picture = _picture(part, [views for views in found if views], first, later)
    for place, views in enumerate(found):
        scale = str(views.scale) if views and views.views else ""
        pages = PageOf(place + 1, len(found))
        page, notes = (later, Notes((_NOTES_THERE,), "", legend)) if place else (first, words)
        drawn = views.primitives if views else ()
        pictorial = picture[1] if place == picture[0] else ()
        primitives = (
            *drawn,
            *pictorial,
            *draw_notes(notes, page.notes),
            *title_block(statement, part, sheet, scale, pages, page.title_block),
            border(page),
        )
        marks = tuple(p.mark for p in primitives if isinstance(p, Label) and p.mark)
        named = f"{part.title}, part {part.number}" + (f", {pages}" if pages.count > 1 else "")
        title = f"Sheet {number}: {named}, " + (f"dimensioned views at {scale}" if scale else "table of holes")
        shown = tuple(p.shown for p in (views.views if views else ()))
        drawings.append(Drawing(page.width, page.height, primitives, title, marks, shown))
    missing = [key for views in found if views for key in views.missing] if found[0] else [d.id for d in dimensions]
    holes = sum(len(table.rows) for views in found if views for table in views.untagged)
    crowded = _findings(number, part, missing, len(dimensions), holes, edition.name)
    return tuple(drawings), (*crowded, *_left_out(number, part, found, edition.name))


def _composed(wanted: Wanted, words: Notes, paper: str) -> tuple[Page, tuple[Arrangement, ...]]:
    """The first page, and what stands on all.

    Notes take their room in steps of a few lines, so that a line more or less seldom lays out a sheet anew; where that
    costs a page, a scale or a dimension, they take just what they need.
    """
    need, later = notes_height(words, notes_width(paper)), page_of(paper)
    roomy, tight = page_of(paper, in_steps(need)), page_of(paper, need)
    found = compose_sheet(wanted, roomy, later)
    if roomy == tight:
        return roomy, found
    closer = compose_sheet(wanted, tight, later)
    return (tight, closer) if _worth(closer) > _worth(found) else (roomy, found)


def _worth(pages: Sequence[Arrangement]) -> tuple[bool, int, int, float]:
    """How good pages are: what they lack, how many they are, how large they show the part."""
    return bool(pages), -sum(page.lacks for page in pages), -len(pages), pages[0].scale.factor if pages else 0.0


def _picture(
    part: PartStated, pages: Sequence[Arrangement], first: Page, later: Page
) -> tuple[int, tuple[Primitive, ...]]:
    """The part's picture in what a page has left, once on a sheet, and which page that is: an all but empty one, else
    the first with room."""
    order = sorted(range(len(pages)), key=lambda place: (cover(pages[place], later.field) >= FULL, place))
    for place in order:
        views, page = pages[place], later if place else first
        boxes = [placed.view_box for placed in views.views]
        drawn = draw_pictorial(solid_of_stated(part), views.primitives, boxes, page, views.scale.factor)
        if drawn:
            return place, drawn
    return 0, ()


def _left_out(number: str, part: PartStated, pages: Sequence[Arrangement | None], edition: str) -> Iterator[Finding]:
    """Details that the part's file asks for and no page shows."""
    views = [placed.block.view for page in pages if page for placed in page.views]
    shown = {view.detail.letter for view in views if view.detail}
    for letter in sorted(part.details.keys() - shown):
        message = f"Sheet {number} ({part.title}) leaves detail {letter} out: it would be no larger than in its view, "
        message += "or there is no room for it."
        remedy = "Ask for less to be shown, or for a larger or smaller `scale`; or delete it."
        yield Finding("detail-left-out", Severity.WARN, message, remedy, edition=edition)


def _findings(
    number: str, part: PartStated, missing: Sequence[str], count: int, holes: int, edition: str
) -> tuple[Finding, ...]:
    """`holes` lie too close together for their tags; they, and what else is missing, are left out."""
    if not missing and not holes:
        return ()
    named = ", ".join(missing[:4]) + (f" and {len(missing) - 4} more" if len(missing) > 4 else "")
    remedy = "Give the part fewer features or make two parts of it; on a larger paper more would fit."
    if holes:
        message = f"On sheet {number} ({part.title}) {holes} holes lie too close together for their tags"
        message += f", and their table is left out with {len(missing)} of {count} dimensions."
        remedy = f"State holes at equal distances as a row, which takes one callout. {remedy}"
    else:
        message = f"Sheet {number} ({part.title}) has no room for {len(missing)} of {count} dimensions: {named}."
    return (Finding("sheet-crowded", Severity.WARN, message, remedy, edition=edition),)
