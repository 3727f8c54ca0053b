"""A feature laid out in its part: all cuts of its row, or of its ring, before it is known whether they fit."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from planbook.shape.faces import FACES, UNITS
from planbook.shape.geometry import Point, Vec
from planbook.shape.loops import bounds, shift, turned
from planbook.shape.made import Made
from planbook.shape.model import Cut, Origin, Row
from planbook.shape.wording import ordinal
from planbook.source.models.part import FaceName
from planbook.source.text import Text


@dataclass(frozen=True, slots=True)
class Laid:
    """A feature with all cuts of its row or ring."""

    name: Text
    made: Made
    row: Row | None
    origins: tuple[Origin | None, Origin | None]

    @property
    def cuts(self) -> tuple[Cut, ...]:
        """Of all of them, one after the other."""
        ring = self.made.ring
        if ring is not None:
            turns = [k * ring.turn for k in range(ring.count)]
            return tuple(_turned(cut, ring.centre, turn) for turn in turns for cut in self.made.cuts)
        if self.row is None:
            return self.made.cuts
        return tuple(_shifted(cut, self.made.face, *move) for move in self._moves for cut in self.made.cuts)

    @property
    def prints(self) -> Iterator[tuple[int, Cut]]:
        """Which of the row, and its cut with the loop that it takes on its face."""
        each = len(self.made.cuts)
        for index, cut in enumerate(self.cuts):
            repeat = index // each
            if not self.made.prints:
                yield repeat, cut
            for loop in self.made.prints:
                yield repeat, replace(cut, loop=shift(loop, *self._moves[repeat]))

    @property
    def _moves(self) -> list[tuple[float, float]]:
        """From the first of the row to each, along the face's two axes."""
        if self.row is None:
            return [(0.0, 0.0)]
        axis = FACES[self.made.face].names.index(self.row.along)
        steps = [k * self.row.pitch.number for k in range(self.row.count)]
        return [(step, 0.0) if axis == 0 else (0.0, step) for step in steps]

    def reach(self, axis: int, count: int | None = None) -> tuple[float, float]:
        """From where to where the first `count` of them, or all, go along an axis of their face (0 or 1)."""
        loops = [cut.loop for repeat, cut in self.prints if count is None or repeat < count]
        ends = [bounds(loop) for loop in loops]
        return min(low[axis] for low, _ in ends), max(high[axis] for _, high in ends)

    def which(self, repeat: int) -> str:
        """`pegs`, or the 2nd of 4 `pegs`."""
        pattern = self.row or self.made.ring
        return f"the {ordinal(repeat + 1)} of {pattern.count} `{self.name}`" if pattern else f"`{self.name}`"


def _shifted(cut: Cut, face: FaceName, dx: float, dy: float) -> Cut:
    """A tilted cut moves with its frame, any other within it."""
    if cut.lift:
        (u, v), (x, y, z) = (UNITS[axis] for axis in (FACES[face].u, FACES[face].v)), cut.frame.origin
        there = Vec(x + u.x * dx + v.x * dy, y + u.y * dx + v.y * dy, z + u.z * dx + v.z * dy)
        return replace(cut, frame=replace(cut.frame, origin=there))
    bottom = None if cut.bottom is None else shift(cut.bottom, dx, dy)
    return replace(cut, loop=shift(cut.loop, dx, dy), bottom=bottom)


def _turned(cut: Cut, centre: Point, degrees: float) -> Cut:
    bottom = None if cut.bottom is None else turned(cut.bottom, centre, degrees)
    return replace(cut, loop=turned(cut.loop, centre, degrees), bottom=bottom) if degrees else cut
