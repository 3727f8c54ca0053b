"""The paper of a sheet: its size, its frame, and the places of drawing field, notes and title block."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from planbook.drawing.ink import Box
from planbook.drawing.recording import LineTo, Pen, Primitive, Pt, Stroke

PAPERS: Final[dict[str, tuple[float, float]]] = {"a4": (297.0, 210.0), "letter": (279.4, 215.9)}
"""Landscape, millimetres: ISO 216 A4; ASME Y14.1 size A, 11 x 8 1/2 in."""
FILING: Final = 20.0
BORDER: Final = 10.0
"""Margins of ISO 5457: 20 mm at the left for filing, 10 mm elsewhere."""
BLOCK_WIDTH: Final = 180.0
"""Of the title block (ISO 7200)."""
BLOCK_HEIGHT: Final = 40.0
_INSET: Final = 4.0
"""Between the frame and what is drawn in it."""


@dataclass(frozen=True, slots=True)
class Page:
    """A sheet's regions in millimetres. `keep_out` is what notes take of the field's corner, if they do."""

    width: float
    height: float
    frame: Box
    title_block: Box
    notes: Box
    field: Box
    keep_out: Box | None


def page_of(paper: str, notes_height: float = BLOCK_HEIGHT) -> Page:
    """The regions of a paper; notes that need more height than the title block grow into the drawing field."""
    width, height = PAPERS[paper]
    frame = Box(FILING, BORDER, width - BORDER, height - BORDER)
    block = Box(frame.right - BLOCK_WIDTH, frame.bottom - BLOCK_HEIGHT, frame.right, frame.bottom)
    notes = Box(frame.left, frame.bottom - max(BLOCK_HEIGHT, notes_height), block.left, frame.bottom)
    field = Box(frame.left + _INSET, frame.top + _INSET, frame.right - _INSET, block.top - _INSET)
    keep_out = Box(frame.left, notes.top - _INSET, notes.right + _INSET, block.top) if notes.top < block.top else None
    return Page(width, height, frame, block, notes, field, keep_out)


def notes_width(paper: str) -> float:
    """Width of the notes beside the title block."""
    return PAPERS[paper][0] - FILING - BORDER - BLOCK_WIDTH


def border(page: Page) -> Primitive:
    """The frame's line."""
    f = page.frame
    corners = Pt(f.right, f.top), Pt(f.right, f.bottom), Pt(f.left, f.bottom)
    return Stroke(Pt(f.left, f.top), tuple(LineTo(p) for p in corners), Pen.FRAME, closed=True)
