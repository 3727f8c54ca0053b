"""The title block with the fields of ISO 7200, on one grid: columns of multiples of 7.5 mm, rows of 8 to 12 mm."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from planbook.drawing.ink import Box
from planbook.drawing.lettering import text_width, wrap
from planbook.drawing.lines import stroke
from planbook.drawing.projection_sign import projection_sign
from planbook.drawing.recording import Ink, Label, Pen, Primitive, Pt
from planbook.statement.model import PartStated, SheetStated, Statement

CAPTION: Final = 1.8
VALUE: Final = 2.5
_PAD: Final = 1.6
_DROP: Final = 1.1
"""From a cell's top to its caption's capitals."""
_TALL: Final = 11.5
_LEFT: Final = 60.0
_PITCH: Final = 3.85
_MOST_LINES: Final = 5
_ROWS: Final = (0.0, 8.0, 20.0, 31.0, 40.0)


@dataclass(frozen=True, slots=True)
class Cell:
    """A field: its place in millimetres from the block's top left, its caption and its value."""

    left: float
    top: float
    right: float
    bottom: float
    caption: str
    value: str = ""
    height: float = VALUE
    bold: bool = False


@dataclass(frozen=True, slots=True)
class PageOf:
    """Which page of a sheet this is."""

    number: int
    count: int

    def __str__(self) -> str:
        return f"page {self.number} of {self.count}"


def title_block(
    statement: Statement, part: PartStated, sheet: SheetStated, scale: str, page: PageOf, box: Box
) -> tuple[Primitive, ...]:
    """Everything in the title block of one page."""
    drawn: list[Primitive] = list(_grid(box))
    for cell in _cells(statement, part, sheet, scale, page):
        drawn += _set(cell, box)
    drawn += _lines(general_lines(statement)[0], box)
    drawn += projection_sign(box.left + 43.0, box.top + 36.0, statement.edition.projection)
    return tuple(drawn)


def _cells(statement: Statement, part: PartStated, sheet: SheetStated, scale: str, page: PageOf) -> tuple[Cell, ...]:
    plan_set, edition = statement.plan_set, statement.edition
    r = _ROWS
    version = statement.issue
    method = edition.projection.replace("_", " ").capitalize()
    kind = {"part": "Part drawing", "jig": "Jig drawing", "test_piece": "Test piece"}
    return (
        Cell(0, r[0], 60, r[1], "Dimensions in", units_note(edition.units)),
        Cell(0, r[1], 60, r[3], "Unless stated otherwise"),
        Cell(0, r[3], 15, r[4], "Scale", scale),
        Cell(15, r[3], 60, r[4], "Projection", method),
        Cell(60, r[0], 180, r[1], "Material", material(part)),
        Cell(60, r[1], 120, r[2], "Title", part.title, 5.0, bold=True),
        Cell(120, r[1], 165, r[2], "Quantity", quantity(part)),
        Cell(165, r[1], 180, r[2], "Part", str(part.number), 5.0, bold=True),
        Cell(60, r[2], 90, r[3], "Drawn by", plan_set.drawn_by),
        Cell(90, r[2], 120, r[3], "Approved by", plan_set.approved_by),
        Cell(120, r[2], 150, r[3], "Issued", statement.issued),
        Cell(150, r[2], 180, r[3], "Changed in", sheet.changed_in or version),
        Cell(60, r[3], 96.5, r[4], "Legal owner", plan_set.workshop),
        Cell(96.5, r[3], 120.5, r[4], "Document", kind.get(part.kind, "Part drawing")),
        Cell(120.5, r[3], 137.25, r[4], "Number", f"{plan_set.code}-{sheet.number}"),
        Cell(137.25, r[3], 152, r[4], "Version", version),
        Cell(152, r[3], 180, r[4], "Sheet", f"{sheet.number}, {page}" if page.count > 1 else sheet.number),
    )


def units_note(units: str) -> str:
    """What the numbers are, and what the brackets hold."""
    return "inches [millimetres for reference]" if units == "inch" else "millimetres [inches for reference]"


def material(part: PartStated) -> str:
    """Stock and what it is made of; words that begin the latter and stand in the former stand once."""
    stock, made_of = part.stock_title, part.material
    if not made_of or made_of.casefold() in stock.casefold():
        return stock
    first, _, more = made_of.partition(", ")
    return f"{stock}, {more if more and first.casefold() in stock.casefold() else made_of}"


def quantity(part: PartStated) -> str:
    """How many to make."""
    if not part.mirrored:
        return str(part.as_drawn)
    if part.marks:
        as_drawn, mirrored = part.marks
        return f"{part.as_drawn} {as_drawn}, as drawn; {part.mirrored} {mirrored}"
    return f"{part.as_drawn} as drawn, {part.mirrored} mirrored"


def _grid(box: Box) -> Iterator[Primitive]:
    """The block's border and the rules between its fields."""
    x, y = box.left, box.top

    def rule(x0: float, y0: float, x1: float, y1: float, pen: Pen = Pen.GRID) -> Primitive:
        return stroke(Pt(x + x0, y + y0), Pt(x + x1, y + y1), pen=pen)

    r = _ROWS
    yield rule(0, 0, 180, 0, Pen.OUTLINE)
    yield rule(0, 0, 0, r[4], Pen.OUTLINE)
    yield rule(60, 0, 60, r[4])
    yield from (rule(0, r[k], 60, r[k]) for k in (1, 3))
    yield from (rule(60, r[k], 180, r[k]) for k in (1, 2, 3))
    yield from (rule(at, r[1], at, r[2]) for at in (120, 165))
    yield from (rule(at, r[2], at, r[3]) for at in (90, 120, 150))
    yield from (rule(at, r[3], at, r[4]) for at in (15, 96.5, 120.5, 137.25, 152))


def _set(cell: Cell, box: Box) -> Iterator[Primitive]:
    left, top = box.left + cell.left + _PAD, box.top + cell.top
    yield Label(cell.caption.upper(), Pt(left, top + _DROP + CAPTION), CAPTION, ink=Ink.GREY)
    if not cell.value:
        return
    text, height = fit(cell.value, cell.right - cell.left - 2 * _PAD, cell.height, cell.bold)
    base = box.top + cell.bottom - (1.3 if cell.bottom - cell.top < _TALL else 2.4)
    yield Label(text, Pt(left, base), height, bold=cell.bold)


def fit(text: str, width: float, height: float, bold: bool = False) -> tuple[str, float]:
    """A value at the greatest height of the series (ISO 3098) that its field takes; below the least it is cut short."""
    for size in (s for s in (5.0, 3.5, VALUE, CAPTION) if s <= height):
        if text_width(text, size, bold) <= width:
            return text, size
    short = text
    while len(short) > 1 and text_width(short + "…", CAPTION, bold) > width:
        short = short[:-1]
    return short.rstrip() + "…", CAPTION


def general_lines(statement: Statement) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The general tolerance note as lines of its field, and those of its sentences that the field cannot take."""
    shown: list[str] = []
    for place, text in enumerate(statement.plan_set.general_tolerance):
        lines = wrap(text, VALUE, _LEFT - 2 * _PAD)
        if len(shown) + len(lines) > _MOST_LINES:
            return tuple(shown), statement.plan_set.general_tolerance[place:]
        shown += lines
    return tuple(shown), ()


def _lines(lines: tuple[str, ...], box: Box) -> Iterator[Primitive]:
    top = box.top + _ROWS[1] + _DROP + CAPTION + 1.0
    for k, line in enumerate(lines):
        yield Label(line, Pt(box.left + _PAD, top + VALUE + k * _PITCH), VALUE)
