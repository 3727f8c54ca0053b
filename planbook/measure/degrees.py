"""Trigonometry in degrees, exact at every right angle, where radians would leave a trace."""

from __future__ import annotations

import math

from planbook.measure.rounding import settled

_QUARTER_SINES = {0.0: 0.0, 90.0: 1.0, 180.0: 0.0, 270.0: -1.0}


def sine(degrees: float) -> float:
    """The sine; 0, 1 or -1 exactly at right angles."""
    turned = degrees % 360
    return _QUARTER_SINES[turned] if turned in _QUARTER_SINES else math.sin(math.radians(degrees))


def cosine(degrees: float) -> float:
    """The cosine; 0, 1 or -1 exactly at right angles."""
    turned = (degrees + 90) % 360
    return _QUARTER_SINES[turned] if turned in _QUARTER_SINES else math.cos(math.radians(degrees))


def tangent(degrees: float) -> float:
    """The tangent; ZeroDivisionError at an odd right angle."""
    if degrees % 90 == 0:
        return sine(degrees) / cosine(degrees)
    return math.tan(math.radians(degrees))


def arc_sine(ratio: float) -> float:
    """Degrees from -90 to 90; ValueError outside -1 to 1, but for the noise of arithmetic."""
    return math.degrees(math.asin(_ratio(ratio)))


def arc_cosine(ratio: float) -> float:
    """Degrees from 0 to 180; ValueError outside -1 to 1, but for the noise of arithmetic."""
    return math.degrees(math.acos(_ratio(ratio)))


def arc_tangent(ratio: float) -> float:
    """Degrees between -90 and 90."""
    return math.degrees(math.atan(ratio))


def direction(rise: float, run: float) -> float:
    """Degrees from -180 to 180 of a line that goes `rise` up in `run`; ValueError if it goes nowhere."""
    if rise == run == 0:
        raise ValueError
    return math.degrees(math.atan2(rise, run))


def _ratio(ratio: float) -> float:
    return ratio if -1 <= ratio <= 1 else settled(ratio)
