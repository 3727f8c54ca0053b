"""What a finished sheet has left free inside its frame, for what is drawn over it afterwards."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Final

import numpy as np

from planbook.drawing.footprint import Flags, Floats, grown
from planbook.drawing.frame import Page
from planbook.drawing.ink import CLEAR, Box, Segment, around, label_box, segments_of
from planbook.drawing.recording import Label, Primitive, Pt
from planbook.drawing.room import Room

_INSET: Final = 1.0
"""Millimetres from the frame."""


@dataclass
class Ground:
    """Free room inside the frame, the boxes (k, 4) of all lettering, and where the title block stands.

    `owned` are small boxes (n, 4) over all lettering and the lines of dimensions, `owners` the dimension of each line,
    "" for lettering.
    """

    room: Room
    lettering: Floats
    block: Box
    owned: Floats
    owners: tuple[str, ...]
    marks: list[Box] = field(default_factory=list)
    """Boxes over what was taken since: marks, and pieces of their leaders."""

    def others(self, dimension: str, home: Box) -> Floats:
        """What something at `home`, the lettering of a dimension or of none (""), might be mistaken to mark."""
        own = {dimension} - {""}
        foreign = np.array([owner not in own for owner in self.owners], dtype=bool)
        others: Floats = self.owned[foreign & (self.owned != np.array(home)).any(axis=1)]
        return others

    def take(self, box: Box, leader: Segment | None = None) -> None:
        """Something stands there from now on, perhaps with a leader."""
        self.room.mark_box(box.grown(CLEAR))
        self.marks.append(box)
        if leader is not None:
            self.room.mark_strokes(np.array([(*leader.a, *leader.b)]), CLEAR)
            self.marks += _pieces(leader.a, leader.b)

    def close(self) -> None:
        """Take what lines shut in: the inside of views, where a table would be read as part of what they show."""
        free = ~self.room.taken
        reached = np.zeros_like(free)
        reached[[0, -1], :], reached[:, [0, -1]] = free[[0, -1], :], free[:, [0, -1]]
        count = -1
        while count != (count := int(reached.sum())):
            reached = _along_rows(_along_rows(reached, free).T, free.T).T
        self.room.taken = ~reached

    def places(self, width: float, height: float) -> Floats:
        """Every free place for a box of this size, one a row: left, top, right, bottom."""
        lefts, tops = self.room.places(width, height, self.room.rows * self.room.columns)
        return np.stack([lefts, tops, lefts + width, tops + height], axis=1)


def ground_of(primitives: Sequence[Primitive], page: Page) -> Ground:
    """The ground under everything drawn, hatching too; the title block is taken as a whole."""
    room = Room(page.frame.grown(-_INSET))
    boxes = [label_box(each) for each in primitives if isinstance(each, Label)]
    lettering = np.array(boxes, dtype=np.float64).reshape(-1, 4)
    strokes = np.array([(*each.a, *each.b) for each in segments_of(primitives, hatching=True)]).reshape(-1, 4)
    room.mark_boxes(grown(lettering, CLEAR))
    room.mark_strokes(strokes, CLEAR)
    room.mark_box(page.title_block)
    owned = [each for primitive in primitives for each in _owned(primitive)]
    return Ground(
        room,
        lettering,
        page.title_block,
        np.array([box for _, box in owned], dtype=np.float64).reshape(-1, 4),
        tuple(owner for owner, _ in owned),
    )


def _owned(primitive: Primitive) -> Iterator[tuple[str, Box]]:
    """The box of lettering, or boxes over the pieces of a dimension's line, short where it is askew."""
    if isinstance(primitive, Label):
        yield "", label_box(primitive)
    elif primitive.of:
        for a, b in segments_of((primitive,)):
            yield from ((primitive.of, box) for box in _pieces(a, b))


def _pieces(a: Pt, b: Pt) -> list[Box]:
    """Boxes over the pieces of a line, one where it runs along an edge of the page."""
    pieces = 1 if min(abs(a.x - b.x), abs(a.y - b.y)) < CLEAR else math.ceil(math.dist(a, b) / CLEAR)
    ends = [Pt(a.x + (b.x - a.x) * k / pieces, a.y + (b.y - a.y) * k / pieces) for k in range(pieces + 1)]
    return [around(pair) for pair in pairwise(ends)]


def _along_rows(reached: Flags, free: Flags) -> Flags:
    """What is reached from `reached` along rows of free cells."""
    rows, columns = free.shape
    run = np.cumsum(~free, axis=1) + np.arange(rows)[:, None] * (columns + 1)
    met = np.zeros(rows * (columns + 1) + 1, dtype=bool)
    met[run[reached]] = True
    return np.asarray(met[run] & free)
