"""Stacks of thicknesses and measures: how far their sum may be off, who takes how much of it, and what it has to be.

A layer adds `rate` times its own deviation: 1 where it is added, -1 where it is taken away, 3 for a sheet that lies in
three times. Every number is in base units, of the layer or of the sum.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

_STRIDES: Final = 200
_HALVINGS: Final = 60


@dataclass(frozen=True, slots=True)
class Layer:
    """One measure of a stack: its nominal, its upper and lower limit as offsets >= 0, and its rate."""

    name: str
    nominal: float
    plus: float
    minus: float
    rate: float = 1.0

    @property
    def ends(self) -> tuple[float, float]:
        """The least and the greatest that it adds to the sum's deviation."""
        first, second = self.rate * self.plus, -self.rate * self.minus
        return min(first, second), max(first, second)

    @property
    def share(self) -> float:
        """Half the width of what it adds: a tolerance of plus or minus so much."""
        low, high = self.ends
        return (high - low) / 2


@dataclass(frozen=True, slots=True)
class Range:
    """From `low` to `high`."""

    low: float
    high: float

    @property
    def noise(self) -> float:
        """Of arithmetic: what is less is no difference."""
        return 1e-8 * max(abs(self.low), abs(self.high), 1e-3)

    def holds(self, other: Range) -> bool:
        """Whether the other lies within."""
        return self.low - self.noise <= other.low and other.high <= self.high + self.noise

    def opened(self, by: Range) -> Range:
        """What may come in when a part or an adjuster that shifts it by `by` can still bring it within."""
        return Range(self.low - by.high, self.high - by.low)

    def kept(self, about: float, keep: float) -> Range:
        """With a share of the way from `about` to either end kept for something else."""
        return Range(about + (self.low - about) * (1 - keep), about + (self.high - about) * (1 - keep))


def worst_case(nominal: float, layers: Sequence[Layer]) -> Range:
    """All layers at their adverse limits at once."""
    low, high = (math.fsum(each.ends[side] for each in layers) for side in (0, 1))
    return Range(nominal + low, nominal + high)


def root_sum_square(nominal: float, layers: Sequence[Layer]) -> Range:
    """What is rarely exceeded where layers vary by chance and none depends on another: limits added as squares.

    One-sided limits are taken about their middle. Scholz, Tolerance Stack Analysis Methods (1995).
    """
    middle = nominal + math.fsum(sum(each.ends) / 2 for each in layers)
    half = math.sqrt(math.fsum(each.share**2 for each in layers))
    return Range(middle - half, middle + half)


def accepted(value: Callable[[float], float | None], nominal: float, within: Range, furthest: float = 0.3) -> Range:
    """The values about `nominal` for which `value` stays within, looked for up to a share of `furthest` either way.

    Both ends are the nominal where that itself does not do. `value` gives None where it has none.
    """

    def does(at: float) -> bool:
        found = value(at)
        return found is not None and within.holds(Range(found, found))

    if not does(nominal):
        return Range(nominal, nominal)
    low, high = (_end(does, nominal, way * furthest) for way in (-1, 1))
    return Range(low, high)


def _end(does: Callable[[float], bool], nominal: float, furthest: float) -> float:
    holds = 0.0
    for stride in range(1, _STRIDES + 1):
        fails = furthest * stride / _STRIDES
        if not does(nominal * (1 + fails)):
            break
        holds = fails
    else:
        return nominal * (1 + furthest)
    for _ in range(_HALVINGS):
        middle = (holds + fails) / 2
        holds, fails = (middle, fails) if does(nominal * (1 + middle)) else (holds, middle)
    return nominal * (1 + holds)
