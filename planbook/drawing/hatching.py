"""Hatching of cut faces, so that materials are told apart (ISO 128-3; those of wood: common practice, no source).

Everything is in millimetres on paper: a pattern looks the same at every scale.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from enum import StrEnum
from itertools import pairwise
from typing import Final

import shapely
from shapely import affinity
from shapely.geometry.base import BaseGeometry

from planbook.drawing.recording import LineTo, Pen, Pt, Stroke

_RINGS: Final = 2.0
"""Between growth rings."""
_GRAIN: Final = (1.5, 2.3, 1.8, 2.7)
"""Between lines along the grain, in turn: unequal, so that they are not taken for edges."""
_WAVE: Final = (0.4, 36.0)
"""How high and how long they swing."""
_POINTS: Final = 9
"""Of a wave."""
_STAGGER: Final = 11.0
"""By so much each swings later than the one before."""
_PLY: Final = 1.6
"""The thinnest ply that is drawn."""
_PLIES: Final = (9, 7, 5, 3)
_CROSSBAND: Final = 2.2
_THIN: Final = 1.8
"""Between the lines of a crossband, and of a sheet too thin for plies."""
_SPACING: Final = 2.6
"""Of plain hatching, and of that of plastic."""
_STEP: Final = math.radians(4)
_LEAST: Final = 0.25
"""A shorter stroke than this only makes a spot."""
_SLOPE: Final = 45.0


class Pattern(StrEnum):
    """What a cut face shows."""

    END_GRAIN = "end grain"
    LONG_GRAIN = "long grain"
    PLYWOOD = "plywood"
    METAL = "metal"
    PLASTIC = "plastic"
    PLAIN = "other"

    @property
    def words(self) -> str:
        """What stands under the section's name; nothing for plain hatching."""
        return "" if self is Pattern.PLAIN else self.value


def hatched(area: BaseGeometry, pattern: Pattern, level: bool) -> tuple[Stroke, ...]:
    """The strokes over an area on paper. `level`: the grain, or the plies, run from left to right."""
    if area.is_empty:
        return ()
    strokes: list[Stroke] = []
    for lines in _lines(area, pattern, level):
        inside = lines.intersection(area)
        for piece in getattr(inside, "geoms", (inside,)):
            if isinstance(piece, shapely.LineString) and piece.length > _LEAST:
                first, *rest = (Pt(x, y) for x, y in piece.coords)
                strokes.append(Stroke(first, tuple(map(LineTo, rest)), Pen.HATCH))
    return tuple(strokes)


def _lines(area: BaseGeometry, pattern: Pattern, level: bool) -> Iterator[BaseGeometry]:
    match pattern:
        case Pattern.END_GRAIN:
            yield _rings(area)
        case Pattern.LONG_GRAIN:
            yield _fibres(area, level)
        case Pattern.PLYWOOD:
            yield from _plies(area, level)
        case Pattern.PLASTIC:
            yield from (_sloping(area, _SPACING * 1.3, slope) for slope in (_SLOPE, -_SLOPE))
        case Pattern.METAL:
            yield from _paired(area)
        case Pattern.PLAIN:
            yield _sloping(area, _SPACING, _SLOPE)


def _rings(area: BaseGeometry) -> BaseGeometry:
    """Growth rings about a pith under the piece, a little to one side."""
    x0, y0, x1, y1 = area.bounds
    reach = max(x1 - x0, y1 - y0)
    x, y = x0 + 0.4 * (x1 - x0), y1 + 0.35 * reach
    first = math.floor((y - y1) / _RINGS)
    last = math.ceil(math.dist((x, y), (x0 if x - x0 > x1 - x else x1, y0)) / _RINGS)
    turns = [k * _STEP for k in range(round(math.tau / _STEP) + 1)]
    return shapely.MultiLineString(
        [
            [(x + radius * math.cos(turn), y + radius * math.sin(turn)) for turn in turns]
            for radius in (_RINGS * k for k in range(max(first, 1), last + 1))
        ]
    )


def _fibres(area: BaseGeometry, level: bool) -> BaseGeometry:
    """Lines that swing a little, as the grain does: nobody takes them for edges, or for dashes."""
    x0, y0, x1, y1 = area.bounds if level else affinity.rotate(area, 90, origin=(0, 0)).bounds
    height, length = _WAVE
    count = math.ceil((x1 - x0) / length * _POINTS) + 1
    lines = []
    y, place = y0 + _GRAIN[0] * 0.6, 0
    while y < y1:
        xs = [x0 + length * k / _POINTS for k in range(count)]
        lines.append([(x, y + height * math.sin(math.tau * (x - x0 - place * _STAGGER) / length)) for x in xs])
        place += 1
        y += _GRAIN[place % len(_GRAIN)]
    found = shapely.MultiLineString(lines)
    return found if level else affinity.rotate(found, -90, origin=(0, 0))


def _plies(area: BaseGeometry, level: bool) -> Iterator[BaseGeometry]:
    """Lines between plies, an odd number of them, and every second one hatched; thin sheets close hatching."""
    x0, y0, x1, y1 = area.bounds
    low, high = (y0, y1) if level else (x0, x1)
    count = next((n for n in _PLIES if (high - low) / n >= _PLY), 0)
    if not count:
        yield _sloping(area, _THIN, _SLOPE)
        return
    edges = [low + (high - low) * k / count for k in range(count + 1)]
    bands = [(x0, a, x1, b) if level else (a, y0, b, y1) for a, b in pairwise(edges)]
    yield shapely.MultiLineString([[(x0, e), (x1, e)] if level else [(e, y0), (e, y1)] for e in edges[1:-1]])
    for band in bands[1::2]:
        yield _sloping(area, _CROSSBAND, _SLOPE).intersection(shapely.box(*band))


def _paired(area: BaseGeometry) -> Iterator[BaseGeometry]:
    lines = _sloping(area, _SPACING, _SLOPE)
    yield lines
    yield affinity.translate(lines, 0.8, 0.0)


def _sloping(area: BaseGeometry, spacing: float, slope: float) -> BaseGeometry:
    """Lines at 45 degrees up or down, `spacing` apart; they run on from one area of a view to the next."""
    x0, y0, x1, y1 = area.bounds
    step = spacing * math.sqrt(2)
    # On paper y runs down: along a line that rises to the right x + y is the same.
    low, high = (x0 + y0, x1 + y1) if slope > 0 else (x0 - y1, x1 - y0)
    places = [step * k for k in range(math.floor(low / step), math.ceil(high / step) + 1)]
    if slope > 0:
        return shapely.MultiLineString([[(c - y1, y1), (c - y0, y0)] for c in places])
    return shapely.MultiLineString([[(c + y0, y0), (c + y1, y1)] for c in places])
