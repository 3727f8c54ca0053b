"""A whole sheet: frame, title block, notes, and the part's views with all their dimensions."""

from __future__ import annotations

from collections.abc import Sequence

from planbook.drawing.arrangement import Arrangement, arrange_part
from planbook.drawing.frame import border, notes_width, page_of
from planbook.drawing.notes import Notes, draw_notes, notes_height
from planbook.drawing.recording import Drawing, Label
from planbook.drawing.scales import scales_for
from planbook.drawing.title_block import general_lines, title_block
from planbook.source.findings import Finding, Severity
from planbook.statement.model import DimensionStated, PartStated, Statement


def draw_sheet(statement: Statement, number: str) -> tuple[Drawing, tuple[Finding, ...]]:
    """The sheet with this number as a page of its own (landscape A4 or US Letter), and what could not be placed.

    Raises KeyError when the statement has no such sheet.
    """
    sheet = statement.sheets[number]
    part, edition = statement.parts[sheet.part], statement.edition
    dimensions = tuple(d for d in statement.dimensions.values() if d.part == part.key)
    words = Notes((*part.notes, *general_lines(statement)[1]), part.stock_note, any(d.caliper for d in dimensions))
    page = page_of(edition.paper, notes_height(words, notes_width(edition.paper)))
    found = arrange_part(part, dimensions, page, scales_for(edition.units), edition.projection)
    scale = str(found.scale) if found else ""
    primitives = (
        *(found.primitives if found else ()),
        *draw_notes(words, page.notes),
        *title_block(statement, part, sheet, scale, page.title_block),
        border(page),
    )
    marks = tuple(p.mark for p in primitives if isinstance(p, Label) and p.mark)
    title = f"Sheet {number}: {part.title}, part {part.number}, dimensioned views at {scale}"
    return Drawing(page.width, page.height, primitives, title, marks), _findings(
        number, part, dimensions, found, edition.name
    )


def _findings(
    number: str, part: PartStated, dimensions: Sequence[DimensionStated], found: Arrangement | None, edition: str
) -> tuple[Finding, ...]:
    missing: Sequence[str] = found.missing if found else [d.id for d in dimensions]
    if not missing:
        return ()
    named = ", ".join(missing[:4]) + (f" and {len(missing) - 4} more" if len(missing) > 4 else "")
    return (
        Finding(
            "sheet-crowded",
            Severity.WARN,
            f"sheet {number} ({part.title}) has no room for {len(missing)} of {len(dimensions)} dimensions: {named}",
            "give the part fewer features or make two parts of it; on a larger paper more would fit",
            edition=edition,
        ),
    )
