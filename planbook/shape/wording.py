"""How findings state measures: as the author typed them, and what they come to in both systems."""

from __future__ import annotations

from planbook.design.values import Value
from planbook.measure import INCH, MILLIMETRE, Direction, round_to

_FINEST = ((MILLIMETRE, 1000), (INCH, 10_000))
"""To which part of its unit a corrected length is told."""


def in_both(nanometres: float) -> str:
    """`48.5 mm, 1.909 in`."""
    return f"{_trim(nanometres / MILLIMETRE, 3)} mm, {_trim(nanometres / INCH, 4)} in"


def said(value: Value) -> str:
    """`bar.width / 2` (48.5 mm, 1.909 in)."""
    return f"`{value.formula}` ({in_both(value.number)})"


def like(value: Value, nanometres: float, direction: Direction = Direction.NEAREST) -> str:
    """A corrected length, in the unit that the author used; in both when the formula only has names.

    `direction` is the side to which it is still good: down for "at most", up for "at least".
    """
    mm, inch = (round_to(nanometres, unit / parts, direction) / unit for unit, parts in _FINEST)
    millimetres, inches = f"{_trim(mm, 3)} mm", f"{_trim(inch, 4)} in"
    words = value.formula.replace("(", " ").replace(")", " ").split()
    if "mm" in words:
        return millimetres
    if "in" in words:
        return inches
    return f"{millimetres} ({inches})"


def ordinal(number: int) -> str:
    """1st, 2nd, 3rd, 4th."""
    ending = "th" if 10 <= number % 100 <= 20 else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending}"


def _trim(number: float, places: int) -> str:
    text = f"{number:.{places}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
