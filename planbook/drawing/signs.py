"""Signs before and after a number: what it is of (ISO 129-1), and how to take it.

They are drawn, since no font need have them. Those after a number are ours, and told apart by their form alone, so that
a copy in black and white says as much: caliper work, critical to the fit, free to be changed.
"""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum
from typing import Final

from planbook.drawing.recording import LineTo, Pen, Pt, Stroke
from planbook.statement.model import DimensionStated


class Sign(StrEnum):
    """What it says, in words for who does not see it."""

    CALIPER = "caliper"
    CRITICAL = "critical"
    FREE = "free"
    COUNTERBORE = "counterbore"
    COUNTERSINK = "countersink"
    DEPTH = "deep"


SIGN_GAP: Final = 0.8
"""Between a sign and its number, in millimetres."""
Path = tuple[tuple[float, float], ...]
_FILLED: Final[dict[Sign, Path]] = {
    Sign.CALIPER: ((1.7, 0.0), (0.85, -0.85), (0.0, 0.0), (0.85, 0.85)),
    Sign.CRITICAL: ((0.0, -1.0), (1.1, 0.95), (2.2, -1.0)),
    Sign.FREE: (
        (0.0, 0.0), (1.2, 0.7), (1.2, 0.14), (2.6, 0.14), (2.6, 0.7),
        (3.8, 0.0), (2.6, -0.7), (2.6, -0.14), (1.2, -0.14), (1.2, -0.7),
    ),
    Sign.DEPTH: ((0.95, -0.05), (1.4, -1.25), (1.85, -0.05)),
}  # fmt: skip
"""Corners along the lettering and up from the middle of its capitals: a diamond, a triangle, an arrow both ways; the
head of the arrow of a depth."""
_LINES: Final[dict[Sign, tuple[Path, ...]]] = {
    Sign.COUNTERBORE: (((0.0, 1.0), (0.0, -1.1), (3.6, -1.1), (3.6, 1.0)),),
    Sign.COUNTERSINK: (((0.0, 1.0), (2.1, -1.1), (4.2, 1.0)),),
    Sign.DEPTH: (((0.0, 1.2), (2.8, 1.2)), ((1.4, 1.2), (1.4, -0.05))),
}
"""A flat bottom between two walls; a cone of 90 degrees; an arrow down from a line (ISO 129-1, forms from memory)."""


def signs_of(dimension: DimensionStated) -> tuple[Sign, ...]:
    """What stands after a dimension's text."""
    kind = dimension.standing.kind if dimension.standing is not None else ""
    return (*((Sign.CALIPER,) if dimension.caliper else ()), *((Sign(kind),) if kind else ()))


def sign_width(sign: Sign) -> float:
    """In millimetres."""
    return max(along for path in (*_LINES.get(sign, ()), _FILLED.get(sign, ())) for along, _ in path)


def draw_sign(sign: Sign, place: Callable[[float, float], Pt]) -> tuple[Stroke, ...]:
    """A sign; `place` gives the paper point so far along from its start and up from the middle of the capitals."""
    lines, filled = _LINES.get(sign, ()), _FILLED.get(sign)
    drawn = []
    for path in (*lines, *((filled,) if filled else ())):
        pen = None if path is filled else Pen.DIMENSION
        first, *others = (place(along, up) for along, up in path)
        steps = tuple(map(LineTo, others))
        drawn.append(Stroke(first, steps, pen, closed=pen is None, fill="" if pen else "solid", words=str(sign)))
    return tuple(drawn)
