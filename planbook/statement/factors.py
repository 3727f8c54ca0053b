"""Factors between loads, as builders are told them."""

from __future__ import annotations

import math

_SAME = 1e-6
"""Hundredths by which a quotient may miss a hundredth, for it was worked out in binary."""


def factor(more: float, less: float) -> float:
    """How many times `less`, which is above zero, goes into `more`, of one unit: in hundredths, rounded down.

    A factor is never promised that is not there.
    """
    return math.floor(100 * more / less + _SAME) / 100
