"""How few sheets, and how little area, any plan must have: arguments that hold for free cuts, so for a saw's too."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from planbook.cutting.dual_feasible import Rescaled, rescalings
from planbook.cutting.plan import Bound
from planbook.cutting.problem import Bin, Kind, Problem


def bound_of(problem: Problem) -> Bound:
    """The strongest of the arguments."""
    if not problem.kinds:
        return Bound(0, 0, "area")
    total = sum(kind.area * kind.quantity for kind in problem.kinds)
    best, by = -(-total // max(each.area for each in problem.bins)), "area"
    for count, argument in ((_conflicts(problem), "conflicts"), (_rescaled(problem), "dual feasible functions")):
        if count > best:
            best, by = count, argument
    return Bound(best, least_area(problem.bins, best, total), by)


def raised(problem: Problem, bound: Bound, count: int) -> Bound:
    """With a count that patterns prove, if it is higher."""
    if count <= bound.count:
        return bound
    total = sum(kind.area * kind.quantity for kind in problem.kinds)
    return Bound(count, least_area(problem.bins, count, total), "patterns")


def least_area(bins: Sequence[Bin], count: int, total: int) -> int:
    """Least area bought of at least `count` sheets that have room for an area `total`, kerf included."""
    if len(bins) == 1:
        return count * bins[0].stock.area
    least = min(each.stock.area for each in bins)
    by_area = min(-(-total * each.stock.area // each.area) for each in bins)
    return max(count * least, by_area)


def _conflicts(problem: Problem) -> int:
    """Pieces of which no two lie on one sheet: a set of them, gathered from the largest on."""
    length, width = envelope(problem.bins)
    chosen: list[Kind] = []
    count = 0
    for kind in sorted(problem.kinds, key=lambda kind: (-min(kind.length, kind.width), -kind.area)):
        if all(_apart(kind, other, length, width) for other in chosen):
            chosen.append(kind)
            count += kind.quantity if _apart(kind, kind, length, width) else 1
    return count


def envelope(bins: Sequence[Bin]) -> tuple[int, int]:
    """A sheet on which every bin's plan fits."""
    return max(each.length for each in bins), max(each.width for each in bins)


def _apart(one: Kind, other: Kind, length: int, width: int) -> bool:
    return all(
        a_length + b_length > length and a_width + b_width > width
        for a_length, a_width, _ in one.ways
        for b_length, b_width, _ in other.ways
    )


def _rescaled(problem: Problem) -> int:
    """By all pairs of dual feasible functions; the best pair is worked out again in whole numbers."""
    length, width = envelope(problem.bins)
    lengths = sorted({way[0] for kind in problem.kinds for way in kind.ways})
    widths = sorted({way[1] for kind in problem.kinds for way in kind.ways})
    along, across = rescalings(lengths, length), rescalings(widths, width)
    high, wide = _table(along, lengths), _table(across, widths)
    first, last = ([kind.ways[end] for kind in problem.kinds] for end in (0, -1))
    at = [([lengths.index(way[0]) for way in ways], [widths.index(way[1]) for way in ways]) for ways in (first, last)]
    quantity = np.array([[float(kind.quantity)] for kind in problem.kinds])
    best, pair = 0.0, (along[0], across[0])
    for row, one in enumerate(along):
        each = np.minimum(*(high[row, xs, None] * wide.T[ys] for xs, ys in at))
        # Summed kind by kind, in one order on every machine.
        sums = np.add.accumulate(each * quantity, axis=0)[-1]
        top = int(sums.argmax())
        if sums[top] > best * (1 + 1e-12):
            best, pair = float(sums[top]), (one, across[top])
    return _count(problem, *pair)


def _table(functions: Sequence[Rescaled], sizes: Sequence[int]) -> np.ndarray:
    return np.array([[function.value(size) / function.of_bin for size in sizes] for function in functions])


def _count(problem: Problem, along: Rescaled, across: Rescaled) -> int:
    total = sum(
        kind.quantity * min(along.value(length) * across.value(width) for length, width, _ in kind.ways)
        for kind in problem.kinds
    )
    return -(-total // (along.of_bin * across.of_bin))
