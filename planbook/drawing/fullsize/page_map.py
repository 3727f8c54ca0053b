"""The first page of a template: what it is, how its pages are joined, which page lies where, what to measure then."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import chain
from typing import Final

from planbook.drawing.curves import XY
from planbook.drawing.flat import FlatPart
from planbook.drawing.fullsize.shape import LETTER, Strokes, free_label
from planbook.drawing.fullsize.spacings import Spacing
from planbook.drawing.fullsize.tiling import Tile, Tiling
from planbook.drawing.ink import Box, segments_of
from planbook.drawing.lettering import text_width, wrap
from planbook.drawing.lines import stroke
from planbook.drawing.recording import Anchor, Ink, Label, Pen, Primitive, Pt
from planbook.drawing.tracing import Setting, trace
from planbook.statement.model import PartStated

_LINE: Final = 4.4
_TITLE, _HEAD = 5.0, 3.5
_MAP_SHARE: Final = 0.4
"""The most of the window's height that the map takes."""
_NAME_STEP: Final = 2.0
_COLUMN_GAP: Final = 6.0


def map_page(
    part: PartStated, flat: FlatPart, tiling: Tiling, spacings: Sequence[Spacing], issue: str
) -> Iterator[Primitive]:
    """Words, map and list from the top of the window downwards; `issue` names plan set, version and edition."""
    window = tiling.window
    yield Label(f"{part.title}, part {part.number}: full-size template", Pt(window.left, window.top), _TITLE, bold=True)
    yield Label(issue, Pt(window.left, window.top + _LINE + 1.0), LETTER, ink=Ink.GREY)
    top = window.top + _LINE + 8.0
    for number, sentence in enumerate(_steps(part, flat, tiling, bool(spacings)), start=1):
        yield Label(f"{number}", Pt(window.left, top), LETTER, bold=True)
        for line in wrap(sentence, LETTER, window.right - window.left - 8.0):
            yield Label(line, Pt(window.left + 6.0, top), LETTER)
            top += _LINE
    place = Box(window.left, top + 1.0, window.right, top + 1.0 + _MAP_SHARE * (window.bottom - window.top))
    drawn, bottom = _map(flat, tiling, place)
    yield from drawn
    yield from _list(spacings, Box(window.left, bottom + 8.0, window.right, window.bottom))


def _steps(part: PartStated, flat: FlatPart, tiling: Tiling, to_measure: bool) -> Iterator[str]:
    yield (
        "Print at 100 % (actual size), not fitted to the page. Measure the check bars of every page, across and up: "
        "100 mm and 4 in. If one is wrong, do not use the template."
    )
    if tiling.columns * tiling.rows > 1:
        yield "Cut each page along its left and upper border, from crop mark to crop mark, where another page joins it."
        yield (
            "Lay the cut border on the dashed line of that page, so that the halves of the ringed crosses close, and "
            "tape it down. Start with A1."
        )
    if to_measure:
        yield "Measure the distances below on the joined pages before you use them."
    recesses = " Narrow lines are recesses, dashed ones in the back." if flat.recesses else ""
    yield f"Seen from the face. Cut to the middle of the line.{recesses}"
    if part.mirrored:
        yield "For a mirrored part turn the template over."
    if flat.left_out:
        names = ", ".join(name.replace("_", " ") for name in flat.left_out)
        yield f"Not on this template, because cut from an edge or an end: {names}."


def _map(flat: FlatPart, tiling: Tiling, place: Box) -> tuple[list[Primitive], float]:
    """The part with the pages over it, as large as its place allows, and where it ends below."""
    tiles = list(tiling.tiles())
    left, top = tiling.corner
    right, low = max(tile.shown[2] for tile in tiles), min(tile.shown[1] for tile in tiles)
    scale = min((place.right - place.left) / (right - left), (place.bottom - place.top) / (top - low))
    setting = Setting(scale, place.left - left * scale, place.top + top * scale)
    drawn: list[Primitive] = [_window(tile, setting) for tile in tiles]
    drawn += (trace(curve, setting, Pen.EDGE) for curve in chain.from_iterable(flat.outline))
    strokes = Strokes(segments_of(drawn))
    for tile in tiles:
        name = free_label(_names(tile, setting), strokes, (), place)
        if name is not None:
            drawn.append(name)
    return drawn, place.top + (top - low) * scale


def _window(tile: Tile, setting: Setting) -> Primitive:
    x0, y0, x1, y1 = tile.shown
    corners = [setting(XY(*corner)) for corner in ((x0, y0), (x1, y0), (x1, y1), (x0, y1), (x0, y0))]
    return stroke(*corners, pen=Pen.GRID)


def _names(tile: Tile, setting: Setting) -> Iterator[Label]:
    """Places for a page's name on the map, from its middle outwards, then smaller."""
    x0, y0, x1, y1 = tile.shown
    middle, corner = setting(XY((x0 + x1) / 2, (y0 + y1) / 2)), setting(XY(x0, y1))
    steps = [
        (across * _NAME_STEP, down * _NAME_STEP)
        for across in range(int((middle.x - corner.x) / _NAME_STEP))
        for down in range(int((middle.y - corner.y) / _NAME_STEP))
    ]
    for height in (_HEAD, LETTER):
        for dx, dy in sorted(steps, key=lambda step: step[0] + step[1]):
            for x, y in ((dx, dy), (dx, -dy), (-dx, dy), (-dx, -dy)):
                at = Pt(middle.x + x, middle.y + y + height / 2)
                yield Label(tile.name, at, height, Anchor.MIDDLE, bold=True)


def _list(spacings: Sequence[Spacing], place: Box) -> Iterator[Primitive]:
    """What to measure, one line each, as many as there is room for."""
    if not spacings:
        return
    yield Label("MEASURE WHEN JOINED", Pt(place.left, place.top), LETTER, ink=Ink.GREY)
    shown = spacings[: max(0, int((place.bottom - place.top) / _LINE) - 1)]
    texts = place.left + max((text_width(each.what, LETTER) for each in shown), default=0.0) + _COLUMN_GAP
    pages = texts + max((text_width(each.text, LETTER) for each in shown), default=0.0) + _COLUMN_GAP
    for row, each in enumerate(shown, start=1):
        base = place.top + row * _LINE
        yield Label(each.what, Pt(place.left, base), LETTER)
        yield Label(each.text, Pt(texts, base), LETTER)
        yield Label(each.pages, Pt(pages, base), LETTER, ink=Ink.GREY)
