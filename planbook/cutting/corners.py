"""The most valuable pieces on one sheet, laid anywhere: a search that is exact for few pieces.

Every packing can be pushed down and left until no piece moves. Then the lowest and leftmost free place holds the corner
of a piece, or waste, and the waste is known: a piece further along the same stretch is blocked from moving left only
by one that rests on what lies left of the stretch, so it is taller than that, and below that nothing lies; and where
no piece stands on the stretch at all, it is waste up to the lower of its neighbours. States that were met before are
passed over, as are those in which even the densest pieces left would not fill the rest with enough value.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass

from planbook.cutting.free_filling import Lying
from planbook.cutting.problem import Kind
from planbook.cutting.skyline import Skyline, beside, lowest, replaced, start_of

_LOOKS = 25
"""A state costs about as much as so many looks."""


_SUMS = 20_000
"""Most sums of lengths at which a piece may begin; with more, only those against another piece are tried."""
_DEEP = 300
"""Most pieces on a sheet."""


@dataclass(frozen=True)
class Chosen:
    """The best pieces found for one sheet, and a bound on the value of any; proved where they are equal."""

    value: int
    lying: tuple[Lying, ...]
    bound: int
    work: int


def best_corners(size: tuple[int, int], kinds: Sequence[Kind], values: Sequence[int], effort: int) -> Chosen:
    """On a sheet of this length and width, at most so many of each kind as its quantity."""
    search = _Search(size, kinds, values, effort)
    counts = tuple(kind.quantity for kind in kinds)
    search.visit(((size[0], 0),), counts, 0, size[0] * size[1])
    bound = search.best if search.exact and search.work < effort else search.most(counts, size[0] * size[1])
    return Chosen(search.best, search.found, bound, search.work)


class _Search:
    def __init__(self, size: tuple[int, int], kinds: Sequence[Kind], values: Sequence[int], effort: int) -> None:
        self.length, self.width = size
        self.kinds, self.values, self.effort = kinds, values, effort
        numbered = range(len(kinds))
        self.dense = sorted(numbered, key=lambda at: -values[at] / kinds[at].area)
        self.areas = [kind.area for kind in kinds]
        self.moves = [
            (at, length, width, turned)
            for at in sorted(numbered, key=lambda at: (-values[at], at))
            for length, width, turned in kinds[at].ways
        ]
        sums = _sums(self.length, kinds)
        self.starts, self.exact = (sums, True) if len(sums) <= _SUMS else ([], False)
        self.met: set[tuple[Skyline, tuple[int, ...]]] = set()
        self.path: list[Lying] = []
        self.best, self.work = -1, 0
        self.found: tuple[Lying, ...] = ()

    def visit(self, sky: Skyline, left: tuple[int, ...], value: int, area: int) -> None:
        """All packings that go on from here."""
        self.work += _LOOKS
        if value > self.best:
            self.best, self.found = value, tuple(self.path)
        if value + self.most(left, area) <= self.best or (sky, left) in self.met or self.work >= self.effort:
            return
        self.met.add((sky, left))
        if len(self.path) == _DEEP:
            self.exact = False
            return
        at = lowest(sky)
        run, low = sky[at]
        if low >= self.width:
            return
        near, far = beside(sky, at, self.width)
        start = start_of(sky, at)
        for kind, length, width, turned in self.moves:
            if not left[kind] or length > run or low + width > self.width:
                continue
            rest = (*left[:kind], left[kind] - 1, *left[kind + 1 :])
            for gap in self._gaps(start, run - length if low + width > near else 0):
                over = ((gap, near), (length, low + width), (run - gap - length, low))
                self.path.append(Lying(kind, start + gap, low, length, width, turned))
                spent = length * width + gap * (near - low)
                self.visit(replaced(sky, at, over), rest, value + self.values[kind], area - spent)
                self.path.pop()
        up = min(near, far)
        self.visit(replaced(sky, at, ((run, up),)), left, value, area - run * (up - low))

    def _gaps(self, start: int, most: int) -> list[int]:
        """Waste that may lie before a piece: it begins where sums of lengths end."""
        first, last = bisect_right(self.starts, start), bisect_right(self.starts, start + most)
        return [0, *(each - start for each in self.starts[first:last])]

    def most(self, left: tuple[int, ...], area: int) -> int:
        """More value than this the pieces left cannot bring to an area."""
        total = 0
        for at in self.dense:
            count = left[at]
            if count:
                needed = count * self.areas[at]
                if needed > area:
                    return total + self.values[at] * area // self.areas[at]
                area -= needed
                total += count * self.values[at]
        return total


def _sums(most: int, kinds: Sequence[Kind]) -> list[int]:
    """All sums of lengths up to `most`."""
    sums = {0}
    for kind in kinds:
        for length in {way[0] for way in kind.ways}:
            for _ in range(min(kind.quantity, most // length)):
                sums |= {each + length for each in sums if each + length <= most}
                if len(sums) > _SUMS:
                    return sorted(sums)
    return sorted(sums)
