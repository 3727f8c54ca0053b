"""The tags of tabled holes on a view: beside the hole where there is room, else at a leader."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Final

import numpy as np

from planbook.drawing.footprint import NOTHING, Footprint
from planbook.drawing.hole_tables import HoleTable
from planbook.drawing.ink import CLEAR, label_box
from planbook.drawing.leaders import Callout, Paper, place_callout
from planbook.drawing.lettering import text_width
from planbook.drawing.lines import LETTER, origin
from planbook.drawing.projecting import Placed
from planbook.drawing.recording import Label, Primitive, Pt
from planbook.drawing.solid import XYZ
from planbook.drawing.tracing import Setting
from planbook.drawing.wording import Line

_MM: Final = 1e-6
_ROUND: Final = (45, 135, 315, 225, 0, 180, 90, 270)
"""Directions in which a tag is tried, in degrees; right above is where the eye looks first."""
_OUT: Final = (0.8, 1.8, 2.8)
_LEADERS: Final = 8
"""So many tags may stand at leaders; where more find no place beside their holes, the table will not do."""


def place_tags(table: HoleTable, placed: Placed, paper: Paper) -> tuple[tuple[Primitive, ...], tuple[str, ...]] | None:
    """The tags and the circle at the datum corner, noted on the paper; and ids of dimensions whose hole got no tag.

    None when the holes lie too close together: a table is of no use when most of its tags are missing.
    """
    setting = Setting(placed.block.scale.factor, placed.x, placed.y)

    def spot(place: Sequence[float]) -> Pt:
        return setting(placed.block.view.facing.flat(XYZ(*(c * _MM for c in place))))

    drawn: list[Primitive] = [origin(spot((0.0, 0.0, 0.0)))]
    left: list[Callout] = []
    for row in table.rows:
        at = spot(row.centre)
        radius = math.dist(at, spot(row.rim))
        label = next(_beside(row.tag, at, radius, paper), None)
        if label is not None:
            _note(label, paper)
            drawn.append(label)
        elif len(left) == _LEADERS:
            return None
        else:
            left.append(Callout(at, radius, (Line(row.tag),), "", placed.view_box))
    return _at_leaders(left, table, paper, drawn)


def _at_leaders(
    left: Sequence[Callout], table: HoleTable, paper: Paper, drawn: Sequence[Primitive]
) -> tuple[tuple[Primitive, ...], tuple[str, ...]]:
    """Those that found no place beside their holes, after all that did."""
    ids = {row.tag: row.ids for row in table.rows}
    every, missing = list(drawn), list[str]()
    for callout in left:
        found = place_callout(callout, paper)
        every += found or ()
        missing += () if found else ids[callout.lines[0].text]
    return tuple(every), tuple(missing)


def _beside(tag: str, at: Pt, radius: float, paper: Paper) -> Iterator[Label]:
    """Free places round a hole, nearest first."""
    width = text_width(tag, LETTER)
    for out in _OUT:
        for direction in _ROUND:
            cos, sin = math.cos(math.radians(direction)), math.sin(math.radians(direction))
            x = at.x + (radius + out) * cos + width * (cos - 1) / 2
            y = at.y - (radius + out) * sin + LETTER * (1 - sin) / 2
            label = Label(tag, Pt(x, y), LETTER)
            if paper.room.is_free(label_box(label)):
                yield label


def _note(label: Label, paper: Paper) -> None:
    box = label_box(label)
    paper.note(Footprint(np.array([box]), NOTHING.strokes))
    paper.room.mark_box(box.grown(CLEAR))
