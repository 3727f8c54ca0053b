"""Running compiled formulas: plain floats in, a plain float or a fault out."""

from __future__ import annotations

import math
from collections.abc import Sequence

from planbook.design.faults import Breach, Fault
from planbook.design.kinds import Run


def value_or_fault(run: Run, numbers: Sequence[float]) -> float | Fault:
    """A formula's value, or where it has none."""
    try:
        value = run(numbers)
    except Breach as breach:
        return breach.fault
    return value if math.isfinite(value) else NOT_FINITE


NOT_FINITE = Fault(
    "not-finite",
    0,
    "This formula gives a number too large to be a measure.",
    "Look for a division by something next to 0 or a large power.",
)
