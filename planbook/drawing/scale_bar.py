"""A bar of a round length under a picture, so that its size can be read off."""

from __future__ import annotations

from typing import Final

from planbook.drawing.lines import stroke
from planbook.drawing.recording import Ink, Label, LineTo, Pen, Primitive, Pt, Stroke

HEIGHT: Final = 8.0
_STEPS: Final = (1.0, 2.0, 5.0)
_INCHES: Final = (1.0, 2.0, 6.0, 12.0, 24.0, 48.0, 96.0)
_LETTER: Final = 2.5


def scale_bar(scale: float, most: float, left: float, bottom: float, units: str) -> tuple[Primitive, ...]:
    """A bar of at most `most` millimetres on paper; half of it filled. `scale` is paper over world."""
    length, text = _length(scale, most, units)
    long = length * scale
    half = Pt(left + long / 2, bottom)
    filled = (LineTo(half), LineTo(Pt(half.x, bottom - 1.0)), LineTo(Pt(left, bottom - 1.0)))
    corners = (LineTo(Pt(left + long, bottom)), LineTo(Pt(left + long, bottom - 1.0)), LineTo(Pt(left, bottom - 1.0)))
    return (
        Stroke(Pt(left, bottom), filled, None, closed=True, fill="solid"),
        Stroke(Pt(left, bottom), corners, Pen.DIMENSION, closed=True),
        stroke(Pt(left, bottom - 1.0), Pt(left, bottom - 2.0)),
        Label(text, Pt(left + long + 1.6, bottom), _LETTER, ink=Ink.GREY),
    )


def _length(scale: float, most: float, units: str) -> tuple[float, str]:
    """The greatest round length that fits: millimetres in the world, and its text."""
    if units == "inch":
        inches = max((n for n in _INCHES if n * 25.4 * scale <= most), default=_INCHES[0])
        return inches * 25.4, f"{inches:g} in"
    rounds = [step * 10.0**power for power in range(5) for step in _STEPS]
    length = max((n for n in rounds if n * scale <= most), default=rounds[0])
    return length, f"{length:g} mm"
