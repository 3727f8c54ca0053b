"""How few sheets, and how little area, any plan must have: arguments that hold for free cuts, so for a saw's too."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from planbook.cutting.dual_feasible import Function, counts, rescalings
from planbook.cutting.plan import Bound
from planbook.cutting.problem import Bin, Kind, Problem


def bound_of(problem: Problem) -> Bound:
    """The strongest of the arguments."""
    if not problem.kinds:
        return Bound(0, 0, "area")
    total = sum(kind.area * kind.quantity for kind in problem.kinds)
    best, by = -(-total // max(each.area for each in problem.bins)), "area"
    arguments = (
        (_conflicts(problem), "conflicts"),
        (_rescaled(problem), "dual feasible functions"),
        (_counted(problem), "counted sizes"),
    )
    for count, argument in arguments:
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
    """By all pairs of dual feasible functions, on the envelope of the sheets."""
    size = envelope(problem.bins)
    lengths, widths = _sizes(problem)
    return _strongest(problem, rescalings(lengths, size[0]), rescalings(widths, size[1]), [size])


def _counted(problem: Problem) -> int:
    """By how many whole units of some piece's size go into each size, where sheets of several sizes are sold."""
    if len(problem.bins) == 1:
        return 0
    lengths, widths = _sizes(problem)
    return _strongest(problem, counts(lengths), counts(widths), [(each.length, each.width) for each in problem.bins])


def _sizes(problem: Problem) -> tuple[list[int], list[int]]:
    """All lengths and all widths of pieces, as they may lie."""
    ways = [way for kind in problem.kinds for way in kind.ways]
    return sorted({way[0] for way in ways}), sorted({way[1] for way in ways})


Functions = Sequence[Function]


def _strongest(problem: Problem, along: Functions, across: Functions, bins: Sequence[tuple[int, int]]) -> int:
    """By all pairs of functions; the best pair is worked out again in whole numbers."""
    lengths, widths = _sizes(problem)
    high, wide = _table(along, lengths), _table(across, widths)
    holds = np.array([[float(_room(one, other, bins)) for other in across] for one in along])
    first, last = ([kind.ways[end] for kind in problem.kinds] for end in (0, -1))
    at = [([lengths.index(way[0]) for way in ways], [widths.index(way[1]) for way in ways]) for ways in (first, last)]
    quantity = np.array([[float(kind.quantity)] for kind in problem.kinds])
    best, pair = 0.0, (along[0], across[0])
    for row, one in enumerate(along):
        each = np.minimum(*(high[row, xs, None] * wide.T[ys] for xs, ys in at))
        # Summed kind by kind, in one order on every machine.
        sums = np.add.accumulate(each * quantity, axis=0)[-1] / holds[row]
        top = int(sums.argmax())
        if sums[top] > best * (1 + 1e-12):
            best, pair = float(sums[top]), (one, across[top])
    return _count(problem, *pair, bins)


def _table(functions: Functions, sizes: Sequence[int]) -> np.ndarray:
    return np.array([[float(function(size)) for size in sizes] for function in functions])


def _room(along: Function, across: Function, bins: Sequence[tuple[int, int]]) -> int:
    """The most that one sheet holds by these two; at least 1, where it holds nothing of them."""
    return max(1, *(along(length) * across(width) for length, width in bins))


def _count(problem: Problem, along: Function, across: Function, bins: Sequence[tuple[int, int]]) -> int:
    total = sum(
        kind.quantity * min(along(length) * across(width) for length, width, _ in kind.ways) for kind in problem.kinds
    )
    return -(-total // _room(along, across, bins))
