"""A whole sheet: frame, title block, notes, and the part's views with all their dimensions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from planbook.drawing.arrangement import Arrangement, arrange_part
from planbook.drawing.frame import border, notes_width, page_of
from planbook.drawing.notes import notes, notes_height
from planbook.drawing.recording import Drawing, Label
from planbook.drawing.scales import scales_for
from planbook.drawing.title_block import title_block
from planbook.source.findings import Finding, Severity
from planbook.statement.model import DimensionStated, PartStated, Statement


@dataclass(frozen=True, slots=True)
class Subject:
    """What a sheet is about."""

    part: PartStated
    dimensions: tuple[DimensionStated, ...]


def draw_sheet(statement: Statement, number: str) -> tuple[Drawing, tuple[Finding, ...]]:
    """The sheet with this number as a page of its own (landscape A4 or US Letter), and what could not be placed.

    Raises KeyError when the statement has no such sheet.
    """
    sheet = statement.sheets[number]
    part = statement.parts[sheet.part]
    subject = Subject(part, tuple(d for d in statement.dimensions.values() if d.part == part.key))
    paper = statement.edition.paper
    page = page_of(paper, notes_height(part, notes_width(paper)))
    scales, projection = scales_for(statement.edition.units), statement.edition.projection
    found = arrange_part(part, subject.dimensions, page, scales, projection)
    scale = str(found.scale) if found else ""
    primitives = [
        *(found.primitives if found else ()),
        *notes(part, page.notes),
        *title_block(statement, part, sheet, scale, page.title_block),
        border(page),
    ]
    marks = tuple(p.mark for p in primitives if isinstance(p, Label) and p.mark)
    title = f"Sheet {number}: {part.title}, part {part.number}, dimensioned views at {scale}"
    return Drawing(page.width, page.height, tuple(primitives), title, marks), _findings(
        number, subject, found, statement
    )


def _findings(number: str, subject: Subject, found: Arrangement | None, statement: Statement) -> tuple[Finding, ...]:
    missing: Sequence[str] = found.missing if found else [d.id for d in subject.dimensions]
    if not missing:
        return ()
    named = ", ".join(missing[:4]) + (f" and {len(missing) - 4} more" if len(missing) > 4 else "")
    return (
        Finding(
            "sheet-crowded",
            Severity.WARN,
            f"Sheet {number} ({subject.part.title}) has no room for {len(missing)} of its "
            f"{len(subject.dimensions)} dimensions: {named}.",
            "Give the part fewer features, or make two parts of it; on a larger paper more would fit.",
            edition=statement.edition.name,
        ),
    )
