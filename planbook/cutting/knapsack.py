"""What fills a length best: the knapsack with so many of each, solved exactly on a ruler of whole marks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import gcd

import numpy as np

_MARKS = 16_384
"""Most marks on a ruler; where sizes need more, they are rounded to it."""


@dataclass(frozen=True)
class Ruler:
    """A length of `marks` with the sizes on it. Rounded up, what fits on the ruler fits; rounded down, the reverse."""

    marks: int
    sizes: tuple[int, ...]


def ruler(whole: int, sizes: Sequence[int], up: bool) -> Ruler:
    """Exact where the sizes' common measure allows."""
    step = gcd(*sizes)
    if whole // step > _MARKS:
        step = -(-whole // _MARKS)
    rounded = (-(-size // step) if up else size // step for size in sizes)
    return Ruler(whole // step if up else -(-(whole + 1) // step) - 1, tuple(rounded))


@dataclass(frozen=True)
class Fill:
    """The best value, how many of each size make it, and the work it took, in looks."""

    value: int
    counts: tuple[int, ...]
    work: int


def best_fill(along: Ruler, values: Sequence[int], limits: Sequence[int]) -> Fill:
    """The most valuable choice of at most `limits` of each size, of those with a value above zero."""
    best = np.zeros(along.marks + 1, dtype=np.int64)
    taken: list[tuple[int, int, int, np.ndarray]] = []
    for index, (size, value, limit) in enumerate(zip(along.sizes, values, limits, strict=True)):
        if value <= 0 or size > along.marks:
            continue
        most = min(limit, along.marks // size) if size else limit
        for copies in _parcels(most):
            taken.append((index, copies, copies * size, _add(best, copies * size, copies * value)))
    at = along.marks
    counts = [0] * len(along.sizes)
    for index, copies, size, better in reversed(taken):
        if better[at]:
            counts[index] += copies
            at -= size
    return Fill(int(best[-1]), tuple(counts), len(taken) * (20 + along.marks // 25))


def _parcels(most: int) -> list[int]:
    """Numbers of which sums make everything up to `most`: 1, 2, 4 and so on, and the rest."""
    parcels: list[int] = []
    size = 1
    while most > 0:
        parcels.append(min(size, most))
        most -= size
        size *= 2
    return parcels


def _add(best: np.ndarray, size: int, value: int) -> np.ndarray:
    """Take the parcel wherever that is better; where it was."""
    with_it = np.full_like(best, -1)
    with_it[size:] = best[: len(best) - size] + value
    better = with_it > best
    np.copyto(best, with_it, where=better)
    return better
