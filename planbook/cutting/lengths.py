"""Lengths from lengths: the one-dimensional problem of rods, edge strip and boards of one width.

Patterns come from the linear programme; rounded down they leave a rest, which is planned pattern by pattern at values
that are corrected from plan to plan: what ended in wasteful patterns is worth more the next time (the sequential value
correction of E. A. Mukhacheva and A. S. Mukhacheva, here in the form of G. Belov and G. Scheithauer, EJOR 168 (2006)).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from random import Random

from planbook.cutting.columns import Pattern, Relaxed, relax
from planbook.cutting.knapsack import Ruler, best_fill, ruler

_KINDS = 200
"""Most sizes for which the linear programme is solved."""


@dataclass(frozen=True)
class Rows:
    """Patterns with how often each is cut, the proved least number of lengths, and the work in looks."""

    patterns: tuple[tuple[Pattern, int], ...]
    bound: int
    work: int

    @property
    def count(self) -> int:
        """Lengths used."""
        return sum(times for _, times in self.patterns)


def cut_rows(whole: int, sizes: Sequence[int], demands: Sequence[int], effort: int) -> Rows:
    """All demands from the fewest lengths of size `whole`, none of the sizes larger."""
    return _Planner(whole, sizes, demands, effort).plan()


class _Planner:
    def __init__(self, whole: int, sizes: Sequence[int], demands: Sequence[int], effort: int) -> None:
        self.whole, self.sizes, self.demands, self.effort = whole, sizes, tuple(demands), effort
        self.ruler = ruler(whole, sizes, up=True)
        self.generous = ruler(whole, sizes, up=False)
        self.work = 0

    def plan(self) -> Rows:
        total = sum(size * demand for size, demand in zip(self.sizes, self.demands, strict=True))
        bound = -(-total // self.whole)
        relaxed = Relaxed((), (), 0)
        if len(self.sizes) <= _KINDS:
            most = [min(self.whole // size, demand) for size, demand in zip(self.sizes, self.demands, strict=True)]
            relaxed = relax(self.demands, most, self._price)
            bound = max(bound, relaxed.bound)
        best = self._rounded(relaxed, bound)
        return Rows(tuple(sorted(best.items(), reverse=True)), bound, self.work)

    def _price(self, prices: Sequence[int]) -> tuple[Pattern, int]:
        pattern = self._fill(self.ruler, prices, self.demands)
        value = sum(price * count for price, count in zip(prices, pattern, strict=True))
        if self.generous == self.ruler:
            return pattern, value
        generous = best_fill(self.generous, prices, self.demands)
        self.work += generous.work
        return pattern, generous.value

    def _fill(self, along: Ruler, values: Sequence[int], limits: Sequence[int]) -> Pattern:
        found = best_fill(along, values, limits)
        self.work += found.work
        return found.counts

    def _rounded(self, relaxed: Relaxed, bound: int) -> dict[Pattern, int]:
        """The rest after rounding down planned over and over, then all of it, until the bound is met."""
        best: dict[Pattern, int] = {}
        random = Random(1)
        values = [float(size) for size in self.sizes]
        attempt = 0
        while not best or (sum(best.values()) > bound and self.work < self.effort):
            kept = _rounded_down(relaxed, attempt % 4) if attempt % 8 < 4 else {}
            plan = self._sequence(kept, values, random)
            if not best or sum(plan.values()) < sum(best.values()):
                best = plan
            attempt += 1
        return best

    def _sequence(self, kept: dict[Pattern, int], values: list[float], random: Random) -> dict[Pattern, int]:
        """A plan that begins with `kept`; values are corrected on the way."""
        plan: dict[Pattern, int] = {}
        left = list(self.demands)
        for pattern, most in kept.items():
            times = min(most, *(have // count for have, count in zip(left, pattern, strict=True) if count))
            if not times:
                continue
            plan[pattern] = times
            left = [have - times * count for have, count in zip(left, pattern, strict=True)]
        large = 0.04 * random.random()
        while any(left):
            pattern = self._fill(self.ruler, [int(value * 1000 / self.whole * 1000) + 1 for value in values], left)
            times = min(have // count for have, count in zip(left, pattern, strict=True) if count)
            plan[pattern] = plan.get(pattern, 0) + times
            left = [have - times * count for have, count in zip(left, pattern, strict=True)]
            used = sum(size * count for size, count in zip(self.sizes, pattern, strict=True))
            for at, count in enumerate(pattern):
                if count:
                    fair = self.sizes[at] * (self.whole + large * self.sizes[at]) / used
                    values[at] += (0.3 + 0.4 * random.random()) * (fair - values[at])
        return plan


def _rounded_down(relaxed: Relaxed, fewer: int) -> dict[Pattern, int]:
    """Whole parts of the linear programme's amounts, the last few patterns left out."""
    whole = [(pattern, int(amount + 1e-6)) for pattern, amount in relaxed.patterns]
    return {pattern: times for pattern, times in whole[: len(whole) - fewer] if times}
