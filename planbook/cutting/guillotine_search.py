"""The most valuable guillotine pattern with at most so many of each piece: an exact search, best first.

Blocks are built from pieces upwards, two at a time, side by side or one above the other. A block's promise is its own
value and the most that can be won beside it on the sheet; the block of the highest promise is joined with all that
were taken up before. When no promise exceeds the best block, that is the best pattern: K. V. Viswanathan and A. Bagchi,
"Best-first search methods for constrained two-dimensional cutting stock problems", Operations Research 41 (1993)
768-776. The promise is lowered here by what the pieces that are left would bring to the area beside the block.
"""

from __future__ import annotations

import heapq
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from planbook.cutting.filling import Node
from planbook.cutting.guillotine_table import Table


@dataclass(frozen=True)
class Block:
    """Pieces joined to a rectangle: a piece of a kind lying in a way, or two blocks joined across x or y."""

    length: int
    width: int
    counts: tuple[int, ...]
    value: int
    kind: int = -1
    turned: bool = False
    across: str = ""
    near: Block | None = None
    far: Block | None = None


@dataclass(frozen=True)
class Picked:
    """The best block found, a bound on any pattern's value, and the work in looks. Proved where they are equal."""

    block: Block
    bound: int
    work: int

    @property
    def proved(self) -> bool:
        """There is none better."""
        return self.bound <= self.block.value


def best_blocks(table: Table, size: tuple[int, int], effort: int) -> Picked:
    """For the kinds and values of the table, with their quantities, on a sheet of this length and width."""
    search = _Search(table, size)
    bound = search.run(effort)
    return Picked(search.best, max(bound, search.best.value), search.work)


def node_of(block: Block, size: tuple[int, int]) -> Node:
    """The block in the corner of a sheet, with the cuts that take it apart."""
    root = Node(0, 0, *size)
    waiting = [(root, block)]
    while waiting:
        node, each = waiting.pop()
        for across, whole, at in (("x", node.length, each.length), ("y", node.width, each.width)):
            if at < whole:
                node, _ = node.part(across, at)
        if each.near is None or each.far is None:
            node.kind, node.turned = each.kind, each.turned
            continue
        near, far = node.part(each.across, each.near.length if each.across == "x" else each.near.width)
        assert far is not None, "a block has two parts"
        waiting += [(near, each.near), (far, each.far)]
    return root


class _Search:
    def __init__(self, table: Table, size: tuple[int, int]) -> None:
        self.table, self.size = table, size
        self.kinds, self.values = table.kinds, table.values
        self.limits = np.array([kind.quantity for kind in self.kinds], dtype=np.int64)
        self.dense = sorted(range(len(self.kinds)), key=lambda at: -self.values[at] / self.kinds[at].area)
        self.xs, self.ys = _closed(table.xs, size[0]), _closed(table.ys, size[1])
        self.beside = _beside(table, self.xs, self.ys)
        self.best = Block(0, 0, (0,) * len(self.kinds), 0)
        self.heap: list[tuple[int, int, int, Block]] = []
        self.met: dict[tuple[int, ...], list[tuple[int, int]]] = {}
        self.taken: list[Block] = []
        self.sizes = np.zeros((64, 2), dtype=np.int64)
        self.counts = np.zeros((64, len(self.kinds)), dtype=np.int64)
        self.worth = np.zeros(64, dtype=np.int64)
        self.work = table.work

    def run(self, effort: int) -> int:
        """Until no promise is left, or the effort is spent; the highest promise left."""
        for index, kind in enumerate(self.kinds):
            counts = tuple(int(at == index) for at in range(len(self.kinds)))
            for length, width, turned in kind.ways:
                if length <= self.size[0] and width <= self.size[1]:
                    block = Block(length, width, counts, self.values[index], index, turned)
                    self._offer(block, self._promise(block))
        while self.heap and -self.heap[0][0] > self.best.value and self.work < effort:
            self._join(heapq.heappop(self.heap)[-1])
        return -self.heap[0][0] if self.heap else 0

    def _promise(self, block: Block) -> int:
        sizes = np.array([[block.length, block.width]])
        return int(self._promises(sizes, np.array([block.counts]), np.array([block.value]))[0])

    def _promises(self, sizes: np.ndarray, counts: np.ndarray, worth: np.ndarray) -> np.ndarray:
        """Own value, and the lesser of two bounds on what lies beside."""
        at_x = np.searchsorted(self.xs, sizes[:, 0])
        at_y = np.searchsorted(self.ys, sizes[:, 1])
        room = self.size[0] * self.size[1] - sizes[:, 0] * sizes[:, 1]
        more = np.zeros(len(sizes), dtype=np.int64)
        for at in self.dense:
            area, value = self.kinds[at].area, self.values[at]
            count = self.limits[at] - counts[:, at]
            whole = np.minimum(count, room // area)
            part = np.where(whole < count, value * (room - whole * area) // area, 0)
            more += whole * value + part
            room = np.where(whole < count, 0, room - whole * area)
        promises: np.ndarray = worth + np.minimum(more, self.beside[at_x, at_y])
        return promises

    def _offer(self, block: Block, promise: int) -> None:
        """To be taken up later, unless one of the same pieces is no larger."""
        if promise <= self.best.value and block.value <= self.best.value:
            return
        sizes = self.met.setdefault(block.counts, [])
        if any(length <= block.length and width <= block.width for length, width in sizes):
            return
        sizes[:] = [each for each in sizes if each[0] < block.length or each[1] < block.width]
        sizes.append((block.length, block.width))
        if block.value > self.best.value:
            self.best = block
        heapq.heappush(self.heap, (-promise, -block.value, self.work, block))
        self.work += 20

    def _join(self, block: Block) -> None:
        """With every block taken up before, and with itself, both ways."""
        if (block.length, block.width) not in self.met[block.counts]:
            return
        self._take(block)
        many = len(self.taken)
        counts = self.counts[:many] + np.array(block.counts)
        fits = np.flatnonzero((counts <= self.limits).all(axis=1))
        self.work += 100 + many * len(self.kinds) // 100
        for across, along in (("x", 0), ("y", 1)):
            sizes = np.maximum(self.sizes[:many][fits], (block.length, block.width))
            sizes[:, along] = self.sizes[:many][fits][:, along] + (block.length, block.width)[along]
            inside = sizes[:, along] <= self.size[along]
            chosen, sizes = fits[inside], sizes[inside]
            worth = self.worth[:many][chosen] + block.value
            promises = self._promises(sizes, counts[chosen], worth)
            for row in np.flatnonzero(promises > self.best.value):
                other = self.taken[chosen[row]]
                made = tuple(int(count) for count in counts[chosen[row]])
                joined = Block(
                    int(sizes[row, 0]), int(sizes[row, 1]), made, int(worth[row]), -1, False, across, block, other
                )
                self._offer(joined, int(promises[row]))

    def _take(self, block: Block) -> None:
        at = len(self.taken)
        if at == len(self.sizes):
            self.sizes, self.counts = (
                np.concatenate([each, np.zeros_like(each)]) for each in (self.sizes, self.counts)
            )
            self.worth = np.concatenate([self.worth, np.zeros_like(self.worth)])
        self.sizes[at], self.counts[at], self.worth[at] = (block.length, block.width), block.counts, block.value
        self.taken.append(block)


def _closed(sums: Sequence[int], whole: int) -> list[int]:
    kept = list(sums[: bisect_right(sums, whole)])
    return kept if kept[-1] == whole else [*kept, whole]


def _beside(table: Table, xs: Sequence[int], ys: Sequence[int]) -> np.ndarray:
    """The most to be won on the sheet beside a block of each size, in strips beside and above it."""
    best = np.zeros((len(xs), len(ys)), dtype=np.int64)
    column = [bisect_right(table.ys, y) - 1 for y in ys]
    row = [bisect_right(table.xs, x) - 1 for x in xs]
    for i in range(len(xs) - 1, -1, -1):
        strips = [bisect_right(table.xs, x - xs[i]) - 1 for x in xs[i + 1 :]]
        across = (best[i + 1 :] + table.value[np.ix_(strips, column)]).max(axis=0) if strips else np.zeros(len(ys))
        for j in range(len(ys) - 1, -1, -1):
            above = [bisect_right(table.ys, y - ys[j]) - 1 for y in ys[j + 1 :]]
            along = int((best[i, j + 1 :] + table.value[row[i], above]).max()) if above else 0
            best[i, j] = max(int(across[j]), along)
    return best
