"""A part's template: the map page, then its tiles row by row, each page a drawing of its own at 1:1."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from planbook.drawing.curves import box_of
from planbook.drawing.flat import FlatPart, flat_part
from planbook.drawing.fullsize.marks import borders, check_bars, crosses, neighbours
from planbook.drawing.fullsize.page_map import map_page
from planbook.drawing.fullsize.shape import LETTER, hole_names, name_of, part_lines
from planbook.drawing.fullsize.spacings import key_spacings
from planbook.drawing.fullsize.tiling import Tile, Tiling, plan_tiles
from planbook.drawing.lettering import text_width
from planbook.drawing.recording import Drawing, Ink, Label, Primitive, Pt
from planbook.statement.model import PartStated, Statement

_NAME, _TITLE = 5.0, 3.5
_ACTUAL: Final = "Print at 100 %, not fitted to the page."


def full_size(statement: Statement, key: str) -> tuple[Drawing, ...]:
    """The pages of a part's template on the edition's paper, the map first. Raises KeyError."""
    part = statement.parts[key]
    flat = flat_part(part)
    tiling = plan_tiles(box_of([curve for chain in flat.outline for curve in chain]), statement.edition.paper)
    edition, version = statement.edition.title, statement.issue
    issue = f"{statement.plan_set.code}-{part.sheet}, version {version}, {edition}"
    names = [name_of(centre, key, statement) for centre in flat.centres]
    spacings = key_spacings(statement, key, tiling)
    first = (*map_page(part, flat, tiling, spacings, issue), *check_bars(tiling.window))
    named = f"{part.title}, part {part.number}, full-size template"
    pages = [Drawing(tiling.width, tiling.height, first, f"{named}: how its pages are joined")]
    for tile in tiling.tiles():
        drawn = (*_tile(flat, names, tiling, tile), *_head(part, tile, tiling, issue))
        pages.append(Drawing(tiling.width, tiling.height, drawn, f"{named}: page {tile.name}"))
    return tuple(pages)


def _tile(flat: FlatPart, names: list[str], tiling: Tiling, tile: Tile) -> Iterator[Primitive]:
    drawn = [*borders(tiling, tile), *crosses(tiling, tile), *part_lines(flat, tiling, tile)]
    yield from drawn
    yield from hole_names(flat, names, tiling, tile, drawn)
    yield from neighbours(tiling, tile)
    yield from check_bars(tiling.window)


def _head(part: PartStated, tile: Tile, tiling: Tiling, issue: str) -> Iterator[Primitive]:
    """Over the window: the page's name, the part, the issue."""
    window = tiling.window
    base = window.top - 7.0
    yield Label(tile.name, Pt(window.left + 2.0, base), _NAME, bold=True)
    beside = window.left + 2.0 + text_width(tile.name, _NAME, bold=True) + 3.0
    yield Label(f"{part.title}, part {part.number}", Pt(beside, base), _TITLE)
    yield Label(f"{issue}. {_ACTUAL}", Pt(window.left + 2.0, window.top - 2.2), LETTER, ink=Ink.GREY)
