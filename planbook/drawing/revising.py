"""Revision marks over a finished sheet: numbered triangles at what changed, and a table of what stood there.

After the practice of ISO 7573 and ASME Y14.35 (from memory): the number in a triangle beside the place, and the former
value under that number in the sheet's revision table. Both take what room the sheet has left; nothing of it moves.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from planbook.drawing.frame import page_of
from planbook.drawing.ground import ground_of
from planbook.drawing.recording import Drawing, Label, Primitive
from planbook.drawing.revision_table import draw_table
from planbook.drawing.triangles import draw_triangle
from planbook.statement.marks import SheetMark


def mark_sheet(
    pages: Sequence[Drawing], marks: Sequence[SheetMark], since: str, paper: str
) -> tuple[tuple[Drawing, ...], tuple[SheetMark, ...]]:
    """The pages of a sheet with its marks over them, and the marks whose former value no page had room to tell.

    A mark is told on the page that shows its place, one without a place on the first. `since` is the version before.
    """
    shown = [{mark: label for mark in marks if (label := _place_of(mark, page))} for page in pages]
    homes = {mark: next((at for at, labels in enumerate(shown) if mark in labels), 0) for mark in marks}
    marked, untold = list[Drawing](), list[SheetMark]()
    for at, page in enumerate(pages):
        here = {mark: shown[at].get(mark) for mark in marks if homes[mark] == at}
        drawn, left = _mark_page(page, here, since, paper) if here else (page, ())
        marked.append(drawn)
        untold += left
    return tuple(marked), tuple(untold)


def _place_of(mark: SheetMark, page: Drawing) -> Label | None:
    """The lettering that prints its dimension, or the first line of its note."""
    labels = (each for each in page.primitives if isinstance(each, Label))
    if mark.dimension:
        return next((each for each in labels if each.mark == f"dimension:{mark.dimension}"), None)
    return next((each for each in labels if mark.note and _begins(mark.note, each)), None)


def _begins(note: str, label: Label) -> bool:
    """Whether a label is the first line of a note, not a word or number that happens to begin alike."""
    rest = note[len(label.text) :]
    return note.startswith(label.text) and (not rest or (rest[0] == " " and " " in label.text))


def _mark_page(
    page: Drawing, marks: Mapping[SheetMark, Label | None], since: str, paper: str
) -> tuple[Drawing, Sequence[SheetMark]]:
    """One page with its marks, each with the lettering that it points at."""
    ground = ground_of(page.primitives, page_of(paper))
    drawn: list[Primitive] = []
    told: list[tuple[SheetMark, bool]] = []
    for mark, label in marks.items():
        triangle = draw_triangle(mark.number, label, ground) if label else ()
        drawn += triangle
        told.append((mark, bool(triangle)))
    table, left = draw_table(told, since, ground)
    listed = "; ".join(f"{mark.number}, {mark.words}" for mark in marks)
    title = f"{page.title}. Changed since version {since}: {listed}"
    return replace(page, primitives=(*page.primitives, *drawn, *table), title=title), left
