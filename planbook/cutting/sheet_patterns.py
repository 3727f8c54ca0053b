"""The linear programme of guillotine patterns: a bound on the number of sheets, and what pieces are worth in it."""

from __future__ import annotations

from collections.abc import Sequence

from planbook.cutting.bounds import envelope
from planbook.cutting.choosing import picked
from planbook.cutting.columns import Pattern, Relaxed, relax
from planbook.cutting.problem import Problem

_KINDS = 40


def relaxed(problem: Problem, effort: int) -> tuple[Relaxed | None, int]:
    """Solved as far as `effort` looks go, and the looks it took; None where patterns are too much to work out.

    Pieces that belong together may be parted in it, and every bin is as large as the largest; a bound all the same.
    """
    size = envelope(problem.bins)
    kinds = problem.kinds
    if len(kinds) > _KINDS:
        return None, 0
    work = 0

    def price(prices: Sequence[int]) -> tuple[Pattern, int] | None:
        nonlocal work
        found = picked(size, kinds, prices) if work < effort else None
        if found is None:
            return None
        work += found.work
        return found.block.counts, found.bound

    result = relax([kind.quantity for kind in kinds], [1] * len(kinds), price)
    return (result, work) if work else (None, 0)
