"""Rounding that is exact for dyadic inches and micrometres, with its ties and direction stated.

Nearest rounds ties to the even multiple (ASTM E29, IEEE/ASTM SI 10). A computed value carries the noise of binary
arithmetic, so it is first snapped to a grain: 1/1024 nm for a length, a 2**30th of the step for anything else.
"""

from __future__ import annotations

import math
from enum import StrEnum
from fractions import Fraction

GRAINS_PER_NANOMETRE = 1024
_GRAINS_PER_STEP = 2**30


class Direction(StrEnum):
    """Which multiple is taken. `UP` is towards plus infinity, also for negative values."""

    NEAREST = "nearest"
    UP = "up"
    DOWN = "down"


def snap(nm: float) -> float:
    """The nearest 1/1024 nm: what two lengths are compared by. Ties to even."""
    return round(nm * GRAINS_PER_NANOMETRE) / GRAINS_PER_NANOMETRE


def round_to(value: float, step: float, direction: Direction = Direction.NEAREST) -> float:
    """The multiple of `step` (> 0) at or next to a length; both in nanometres.

    Exact if `step` is a whole number of 1/1024 nm, as 1/64 in and 1 um are, and nearly so for any other step.
    """
    grains = round(value * GRAINS_PER_NANOMETRE)
    return _multiple(Fraction(grains) / Fraction(step * GRAINS_PER_NANOMETRE), direction) * step


def round_plain(value: float, step: float, direction: Direction = Direction.NEAREST) -> float:
    """The multiple of `step` (> 0) at or next to a value that is no length: a ratio, an angle, a force."""
    grains = round(value / step * _GRAINS_PER_STEP)
    return _multiple(Fraction(grains, _GRAINS_PER_STEP), direction) * step


def settled(value: float) -> float:
    """A value that is no length without the noise of arithmetic, to be compared: 12 significant digits."""
    return float(f"{value:.12g}")


def _multiple(quotient: Fraction, direction: Direction) -> int:
    match direction:
        case Direction.UP:
            return math.ceil(quotient)
        case Direction.DOWN:
            return math.floor(quotient)
        case _:
            return round(quotient)
