"""Rough timber as the trade counts it: board feet and cubic metres. Lengths are nanometres."""

from __future__ import annotations

from typing import Final

from planbook.measure import INCH

FOOT: Final = 12 * INCH
METRE: Final = 1e9


def board_feet(length: float, width: float, thickness: float) -> float:
    """Of one rough board: length in feet x width in inches x thickness in inches / 12, as if lumber thinner than 1 in
    were 1 in thick.

    Source: NHLA, Rules for the Measurement and Inspection of Hardwood and Cypress (board measure; from memory).
    """
    return (length / FOOT) * (width / INCH) * max(thickness / INCH, 1.0) / 12


def cubic_metres(length: float, width: float, thickness: float) -> float:
    """Of one rough board."""
    return length * width * thickness / METRE**3
