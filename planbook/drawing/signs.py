"""The signs after a number that tell how to take it: caliper work, critical to the fit, free to be changed.

Drawn, since no font need have them; told apart by their form alone, so that a copy in black and white says as much.
"""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum
from typing import Final

from planbook.drawing.recording import LineTo, Pt, Stroke
from planbook.statement.model import DimensionStated


class Sign(StrEnum):
    """What it says."""

    CALIPER = "caliper"
    CRITICAL = "critical"
    FREE = "free"


SIGN_GAP: Final = 0.8
"""Before a sign, in millimetres."""
_FORMS: Final[dict[Sign, tuple[tuple[float, float], ...]]] = {
    Sign.CALIPER: ((1.7, 0.0), (0.85, -0.85), (0.0, 0.0), (0.85, 0.85)),
    Sign.CRITICAL: ((0.0, -1.0), (1.1, 0.95), (2.2, -1.0)),
    Sign.FREE: (
        (0.0, 0.0), (1.2, 0.7), (1.2, 0.14), (2.6, 0.14), (2.6, 0.7),
        (3.8, 0.0), (2.6, -0.7), (2.6, -0.14), (1.2, -0.14), (1.2, -0.7),
    ),
}  # fmt: skip
"""Corners along the lettering and up from the middle of its capitals: a diamond, a triangle, an arrow both ways."""


def signs_of(dimension: DimensionStated) -> tuple[Sign, ...]:
    """What stands after a dimension's text."""
    kind = dimension.standing.kind if dimension.standing is not None else ""
    return (*((Sign.CALIPER,) if dimension.caliper else ()), *((Sign(kind),) if kind else ()))


def sign_width(sign: Sign) -> float:
    """In millimetres."""
    return max(along for along, _ in _FORMS[sign])


def draw_sign(sign: Sign, place: Callable[[float, float], Pt]) -> Stroke:
    """A sign; `place` gives the paper point so far along from its start and up from the middle of the capitals."""
    first, *others = (place(along, up) for along, up in _FORMS[sign])
    return Stroke(first, tuple(map(LineTo, others)), None, closed=True, fill="solid")
