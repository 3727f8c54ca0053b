"""Lettering in a box on paper: lines under or beside one another, along it or up it, as large as there is room for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product
from typing import Final

from planbook.drawing.lettering import text_reach, text_width
from planbook.drawing.recording import Anchor, Ink, Label, Pt

_SIZES: Final = (3.0, 2.5, 2.0, 1.7)
"""Heights of lettering (mm) that are tried, largest first: small strips of boards leave little room."""
_BESIDE, _OVER, _LEADING = 0.7, 0.3, 1.45


@dataclass(frozen=True, slots=True)
class Line:
    """One line of it."""

    text: str
    bold: bool = False
    ink: Ink = Ink.BLACK


def letter_box(middle: Pt, long: float, wide: float, lines: Sequence[Line]) -> list[Label]:
    """The labels, in the middle of a box `long` across and `wide` up; none where there is no room."""
    for height, stacked, turned in product(_SIZES, (True, False), (False, True)):
        across, up = (wide, long) if turned else (long, wide)
        wanted = _extent(lines, height, stacked=stacked)
        if wanted[0] + 2 * _BESIDE <= across and wanted[1] + 2 * _OVER <= up:
            return _set(lines, height, middle, wanted, stacked=stacked, turned=turned)
    return []


def _extent(lines: Sequence[Line], height: float, *, stacked: bool) -> tuple[float, float]:
    """How wide and high they are together; fractions stand over and under plain figures."""
    widths = [text_width(line.text, height, line.bold) for line in lines]
    low, high = _reach(lines, height)
    if stacked:
        return max(widths), high - low + (len(lines) - 1) * height * _LEADING
    return sum(widths) + height * (len(lines) - 1), high - low


def _reach(lines: Sequence[Line], height: float) -> tuple[float, float]:
    reaches = [text_reach(line.text, height, line.bold) for line in lines]
    return min(low for low, _ in reaches), max(high for _, high in reaches)


def _set(
    lines: Sequence[Line], height: float, middle: Pt, extent: tuple[float, float], *, stacked: bool, turned: bool
) -> list[Label]:
    wide, high = extent
    along, first = -wide / 2, -high / 2 + _reach(lines, height)[1]
    labels = []
    for place, line in enumerate(lines):
        width = text_width(line.text, height, line.bold)
        over, down = (-width / 2, first + place * height * _LEADING) if stacked else (along, first)
        along += width + height
        at = Pt(middle.x + down, middle.y - over) if turned else Pt(middle.x + over, middle.y + down)
        angle = 90.0 if turned else 0.0
        labels.append(Label(line.text, at, height, Anchor.START, angle, bold=line.bold, ink=line.ink))
    return labels
