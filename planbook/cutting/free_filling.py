"""Filling sheets for a router: pieces lie anywhere, and no cut need run from edge to edge.

All largest rectangles that are still free are kept, overlapping one another; each piece goes into a corner of one:
J. Jylänki, "A thousand ways to pack the bin" (2010).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import Enum

from planbook.cutting.opening import Filler
from planbook.cutting.problem import Bin, Problem
from planbook.cutting.search import Filled, Order

Box = tuple[int, int, int, int]
"""x, y and the far x and y."""


@dataclass(frozen=True)
class Lying:
    """A piece of a kind in its place, kerf included."""

    kind: int
    x: int
    y: int
    length: int
    width: int
    turned: bool


class FreeFit(Enum):
    """Where a piece goes: the place in which this is least."""

    SHORT = "shorter of the two gaps"
    AREA = "area left over"
    LONG = "longer of the two gaps"
    LOW = "how far it reaches across"
    NEAR = "how far it reaches along"


@dataclass(frozen=True)
class FreeRule:
    """One way of filling."""

    fit: FreeFit
    turn_first: bool = False


class FreeSheet:
    """A bin that has been opened."""

    __slots__ = ("bin", "free", "lying")

    def __init__(self, bin_: Bin) -> None:
        self.bin = bin_
        self.lying: list[Lying] = []
        self.free: list[Box] = [(0, 0, bin_.length, bin_.width)]

    def kinds(self) -> list[int]:
        """The kinds of its pieces."""
        return [each.kind for each in self.lying]

    def largest_left(self) -> int:
        """Area of its largest free rectangle."""
        return max(((far_x - x) * (far_y - y) for x, y, far_x, far_y in self.free), default=0)

    def reach(self) -> tuple[int, int]:
        """How far its pieces reach along and across, kerf included."""
        return max(each.x + each.length for each in self.lying), max(each.y + each.width for each in self.lying)

    def renumber(self, numbers: Sequence[int]) -> None:
        """Its pieces were of these kinds, told by their place in a shorter list."""
        self.lying = [replace(each, kind=numbers[each.kind]) for each in self.lying]

    def widened(self, whole: Bin) -> FreeSheet:
        """The same pieces in the corner of a larger sheet."""
        sheet = FreeSheet(whole)
        for piece in self.lying:
            sheet.lay(piece)
        return sheet

    def lay(self, piece: Lying) -> None:
        """Put a piece down and keep what is free around it."""
        self.lying.append(piece)
        self.free = without(self.free, (piece.x, piece.y, piece.x + piece.length, piece.y + piece.width))


def without(free: Sequence[Box], taken: Box) -> list[Box]:
    """The largest free rectangles when `taken` is no longer free."""
    left, low, right, high = taken
    kept: list[Box] = []
    parts: list[Box] = []
    for box in free:
        x, y, far_x, far_y = box
        if left >= far_x or right <= x or low >= far_y or high <= y:
            kept.append(box)
            continue
        if x < left:
            parts.append((x, y, left, far_y))
        if right < far_x:
            parts.append((right, y, far_x, far_y))
        if y < low:
            parts.append((x, y, far_x, low))
        if high < far_y:
            parts.append((x, high, far_x, far_y))
    for number, part in enumerate(parts):
        if not any(_within(part, other) for other in kept) and not any(
            _within(part, other) and (part != other or place < number)
            for place, other in enumerate(parts)
            if place != number
        ):
            kept.append(part)
    return kept


def _within(box: Box, other: Box) -> bool:
    return box[0] >= other[0] and box[1] >= other[1] and box[2] <= other[2] and box[3] <= other[3]


def fill_freely(problem: Problem, order: Order, rule: FreeRule, bins: Sequence[Bin]) -> Filled[FreeSheet]:
    """Units in order, by one rule."""
    return _Filler(problem, rule, bins).fill(order)


class _Filler(Filler[FreeSheet]):
    def __init__(self, problem: Problem, rule: FreeRule, bins: Sequence[Bin]) -> None:
        super().__init__(problem, bins, rule.turn_first)
        self.rule = rule

    def new(self, bin_: Bin) -> FreeSheet:
        return FreeSheet(bin_)

    def together(self, unit: tuple[int, ...], sheet: FreeSheet) -> bool:
        free, count = sheet.free, len(sheet.lying)
        for kind in unit:
            if not self.place(kind, (sheet,)):
                sheet.free = free
                del sheet.lying[count:]
                return False
        return True

    def place(self, kind: int, sheets: Sequence[FreeSheet]) -> bool:
        best, found = (0, 0), None
        for sheet in sheets:
            self.looks += len(sheet.free)
            for x, y, far_x, far_y in sheet.free:
                for length, width, turned in self.ways[kind]:
                    gap_x, gap_y = far_x - x - length, far_y - y - width
                    if gap_x < 0 or gap_y < 0:
                        continue
                    badness = self._badness((x, y, gap_x, gap_y), length, width)
                    if found is None or badness < best:
                        best, found = badness, (sheet, Lying(kind, x, y, length, width, turned))
        if found is None:
            return False
        found[0].lay(found[1])
        return True

    def _badness(self, place: Box, length: int, width: int) -> tuple[int, int]:
        x, y, gap_x, gap_y = place
        fit = self.rule.fit
        if fit is FreeFit.SHORT:
            return (gap_x, gap_y) if gap_x < gap_y else (gap_y, gap_x)
        if fit is FreeFit.AREA:
            return (length + gap_x) * (width + gap_y), min(gap_x, gap_y)
        if fit is FreeFit.LONG:
            return (gap_y, gap_x) if gap_x < gap_y else (gap_x, gap_y)
        return (y + width, x) if fit is FreeFit.LOW else (x + length, y)
