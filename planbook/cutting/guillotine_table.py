"""The most valuable guillotine pattern with any number of each piece, for every size of panel at once.

P. C. Gilmore and R. E. Gomory, "The theory and computation of knapsack functions", Operations Research 14 (1966)
1045-1074, on the sizes that sums of pieces can have only: the normal patterns of J. C. Herz (1972) and J. E. Beasley,
"Algorithms for unconstrained two-dimensional guillotine cutting", J. Opl. Res. Soc. 36 (1985) 297-306.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence

import numpy as np

from planbook.cutting.filling import Node
from planbook.cutting.problem import Kind


def sums_of(sizes: Sequence[int], whole: int, most: int) -> list[int] | None:
    """All sums of sizes up to `whole`, and 0; None where there are more than `most`."""
    sums, edge = {0}, {0}
    while edge:
        edge = {each + size for each in edge for size in sizes if each + size <= whole} - sums
        sums |= edge
        if len(sums) > most:
            return None
    return sorted(sums)


class Table:
    """`value[i, j]`: the most that a panel of length `xs[i]` and width `ys[j]` is worth, in whole numbers."""

    def __init__(self, kinds: Sequence[Kind], values: Sequence[int], xs: Sequence[int], ys: Sequence[int]) -> None:
        self.kinds, self.values = kinds, values
        self.xs, self.ys = list(xs), list(ys)
        self.single = self._singles()
        self.value = self.single.copy()
        self.work = 0
        self._fill()

    def at(self, length: int, width: int) -> tuple[int, int]:
        """Where a panel of any size stands in the table."""
        return bisect_right(self.xs, length) - 1, bisect_right(self.ys, width) - 1

    def _singles(self) -> np.ndarray:
        best = np.zeros((len(self.xs), len(self.ys)), dtype=np.int64)
        for kind, value in zip(self.kinds, self.values, strict=True):
            for length, width, _ in kind.ways:
                i, j = bisect_right(self.xs, length - 1), bisect_right(self.ys, width - 1)
                np.maximum(best[i:, j:], value, out=best[i:, j:])
        return best

    def _fill(self) -> None:
        """Panels in order of length, then width: each the best of one piece and two smaller panels."""
        far_x = [self._partners(self.xs, i) for i in range(len(self.xs))]
        far_y = [self._partners(self.ys, j) for j in range(len(self.ys))]
        value = self.value
        for i in range(len(self.xs)):
            near, far = far_x[i]
            if len(near):
                np.maximum(value[i], (value[near] + value[far]).max(axis=0), out=value[i])
            row = value[i]
            for j in range(len(self.ys)):
                low, high = far_y[j]
                best = row[j - 1] if j else 0
                if len(low):
                    best = max(best, (row[low] + row[high]).max())
                row[j] = max(row[j], best)
            self.work += len(near) * len(self.ys) // 50 + len(self.ys) * (10 + len(self.ys) // 100)

    @staticmethod
    def _partners(sizes: Sequence[int], at: int) -> tuple[np.ndarray, np.ndarray]:
        """The near parts of a size, up to its half, and what is left beside each."""
        whole = sizes[at]
        near = np.arange(1, bisect_right(sizes, whole // 2))
        return near, np.array(
            [bisect_right(sizes, whole - each) - 1 for each in sizes[1 : len(near) + 1]], dtype=np.int64
        )

    def pattern(self, length: int, width: int) -> Node:
        """The cuts of a panel that yield its value."""
        root = Node(0, 0, length, width)
        waiting = [root]
        while waiting:
            node = waiting.pop()
            i, j = self.at(node.length, node.width)
            if self.value[i, j] and not self._hold(node, int(self.value[i, j])):
                across, cut = self._cut(i, j)
                near, far = node.part(across, cut)
                waiting += [near] if far is None else [near, far]
        return root

    def _hold(self, node: Node, value: int) -> bool:
        """Put one piece into the node's corner, if a piece by itself has the value."""
        for index, kind in enumerate(self.kinds):
            for length, width, turned in kind.ways:
                if self.values[index] == value and length <= node.length and width <= node.width:
                    node.hold(index, length, width, turned)
                    return True
        return False

    def _cut(self, i: int, j: int) -> tuple[str, int]:
        value = self.value[i, j]
        for across, sizes, at, line in (("x", self.xs, i, self.value[:, j]), ("y", self.ys, j, self.value[i])):
            if at and line[at - 1] == value:
                return across, sizes[at - 1]
            near, far = self._partners(sizes, at)
            hits = np.flatnonzero(line[near] + line[far] == value) if len(near) else near
            if len(hits):
                return across, sizes[int(near[hits[0]])]
        raise AssertionError("a value in the table has a cut that yields it")
