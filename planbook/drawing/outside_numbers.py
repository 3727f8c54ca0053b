"""Numbers round a layout, of pieces too small for one, with leaders that run through no lettering."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Final

import numpy as np

from planbook.drawing.footprint import Floats, boxes_met, grown, strokes_crossed, strokes_met
from planbook.drawing.ink import CLEAR, Box
from planbook.drawing.lettering import text_width
from planbook.drawing.lines import stroke
from planbook.drawing.recording import Anchor, Circle, Label, Primitive, Pt

HEIGHT: Final = 2.0
OUT: Final = 5.0
"""How far over or under the stock the numbers reach."""
_BESIDE: Final = 2.4
"""From the stock to numbers at its left or right, where there is room."""
_DOT: Final = 0.35
_GAP: Final = 0.6
_ALONG: Final = (0.5, 0.3, 0.7, 0.15, 0.85)
"""Where along or across a piece its leader may end."""
_ASIDE: Final = tuple(way * step * 1.5 for step in range(40) for way in (1, -1) if step or way > 0)
"""How far to the side of that (mm) its number may stand."""
_APART: Final = 1.0
_THROUGH, _OVER = 60.0, 15.0
"""What it costs to run through lettering, or over another leader or its end, in millimetres of leader."""


@dataclass(frozen=True, slots=True)
class _Way:
    """A number with its leader; where it stands is a box round it."""

    text: str
    tip: Pt
    end: Pt
    box: Box

    @property
    def segment(self) -> tuple[float, ...]:
        return (*self.tip, *self.end)

    def draw(self) -> Iterator[Primitive]:
        yield stroke(self.tip, self.end)
        yield Circle(self.tip, _DOT, None, "solid")
        yield Label(
            self.text, Pt((self.box.left + self.box.right) / 2, self.box.bottom), HEIGHT, Anchor.MIDDLE, bold=True
        )


def numbers_outside(pieces: Sequence[tuple[str, Box]], stock: Box, lettering: Floats) -> tuple[Primitive, ...]:
    """A number for each piece (text, box on paper), clear of the boxes (k, 4) of `lettering` where it can be.

    Each is placed twice: once with those before it, then once more knowing where all others stand.
    """
    order = sorted(range(len(pieces)), key=lambda place: (pieces[place][1].left, pieces[place][1].top))
    found: dict[int, _Way] = {}
    for place in (*order, *order):
        others = [way for other, way in found.items() if other != place]
        ways = list(_ways(*pieces[place], stock))
        found[place] = ways[int(np.argmin(_costs(ways, others, lettering)))]
    return tuple(primitive for place in order for primitive in found[place].draw())


def _ways(text: str, piece: Box, stock: Box) -> Iterator[_Way]:
    half = text_width(text, HEIGHT, bold=True) / 2
    over, under = stock.top - OUT, stock.bottom + OUT - HEIGHT
    before, beyond = stock.left - _BESIDE - 2 * half, stock.right + _BESIDE
    for share, aside in product(_ALONG, _ASIDE):
        tip = Pt(piece.left + share * (piece.right - piece.left), (piece.top + piece.bottom) / 2)
        x = min(max(tip.x + aside, stock.left + half), stock.right - half)
        for top, end in ((over, over + HEIGHT + _GAP), (under, under - _GAP)):
            yield _Way(text, tip, Pt(x, end), Box(x - half, top, x + half, top + HEIGHT))
        tip = Pt((piece.left + piece.right) / 2, piece.top + share * (piece.bottom - piece.top))
        y = min(max(tip.y + aside, stock.top + HEIGHT / 2), stock.bottom - HEIGHT / 2)
        for left, end in ((before, before + 2 * half + _GAP), (beyond, beyond - _GAP)):
            if before >= 0:
                yield _Way(text, tip, Pt(end, y), Box(left, y - HEIGHT / 2, left + 2 * half, y + HEIGHT / 2))


def _costs(ways: Sequence[_Way], others: Sequence[_Way], lettering: Floats) -> Floats:
    """(n,): the length of each leader and what it meets; without end where its number would touch another."""
    legs = np.array([way.segment for way in ways])
    boxes = np.array([way.box for way in ways])
    across, down = np.abs(legs[:, 2] - legs[:, 0]), np.abs(legs[:, 3] - legs[:, 1])
    cost = np.hypot(across, down) + np.minimum(across, down)
    cost += _THROUGH * np.count_nonzero(strokes_met(legs[:, None], grown(lettering, CLEAR)), axis=1)
    for box in lettering:
        cost += _THROUGH * boxes_met(boxes, Box(*box.tolist()))
    for other in others:
        met = strokes_crossed(legs, np.array(other.segment))
        tip = np.array([other.tip.x, other.tip.y, other.tip.x, other.tip.y]) + np.array([-1, -1, 1, 1]) * 2 * _DOT
        cost += _OVER * (met | strokes_met(legs, tip))
        cost += _THROUGH * strokes_met(legs, grown(np.array(other.box), CLEAR))
        cost = np.where(boxes_met(boxes, other.box.grown(_APART)), np.inf, cost)
    return np.asarray(cost)
