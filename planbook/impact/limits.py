"""The limits that a statement prints for its dimensions: what a piece that was made to it may measure."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import NamedTuple

from planbook.dimension.audit import Number, limits_of
from planbook.measure import INCH, MILLIMETRE, snap
from planbook.statement.model import DimensionStated, PartStated, SetStated

_LENGTH = re.compile(r"±(?P<number>[\d ./]+?) ?(?P<unit>mm|in)\b")
_ANGLE = re.compile(r"±(?P<number>[\d.]+)°")
_ACCEPTED = re.compile(r"(?P<low>[\d ./]+?) to (?P<high>[\d ./]+?) (?P<unit>mm|in)\b")
TOGETHER = re.compile(r"(?:with|from) part (?P<number>\d+)")
"""In the words of a method, the part that a measure is drilled with or marked from."""
_UNITS = {"mm": MILLIMETRE, "in": INCH}
_USUAL_LENGTH, _USUAL_ANGLE = 0.5 * MILLIMETRE, 0.5
"""Where a note states no general tolerance."""


class Band(NamedTuple):
    """From the least to the greatest; nanometres, or degrees."""

    low: float
    high: float

    def nearest(self, value: float) -> float:
        """The value of the band that is nearest to another."""
        return min(max(value, self.low), self.high)

    def holds(self, other: Band) -> bool:
        """Whether all of another lies in it."""
        return snap(self.low) <= snap(other.low) and snap(other.high) <= snap(self.high)

    def shared(self, other: Band) -> Band | None:
        """What two bands have in common, if it is more than a point."""
        low, high = max(self.low, other.low), min(self.high, other.high)
        return Band(low, high) if snap(low) < snap(high) else None


@dataclass(frozen=True, slots=True)
class General:
    """The general tolerances of a statement, as the note on every sheet prints them; nanometres and degrees."""

    length: float
    angle: float


def general_of(plan_set: SetStated) -> General:
    """Read from the lines of the note: the first length and the first angle after ±."""
    note = " ".join(plan_set.general_tolerance)
    length, angle = _LENGTH.search(note), _ANGLE.search(note)
    return General(
        _number(length["number"]) * _UNITS[length["unit"]] if length else _USUAL_LENGTH,
        _number(angle["number"]) if angle else _USUAL_ANGLE,
    )


def band_of(dimension: DimensionStated, number: Number, part: PartStated, general: General) -> Band:
    """What a piece may measure: as printed, by the general tolerance; of stock used as it comes what is accepted.

    A measure that is drilled with or marked from another part comes out as the work does: however fine its number is
    printed, it is held by the general tolerance.
    """
    accepted = _ACCEPTED.search(part.stock_note) if (dimension.feature, dimension.axis) == ("blank", "z") else None
    if accepted:
        unit = _UNITS[accepted["unit"]]
        band = Band(_number(accepted["low"]) * unit, _number(accepted["high"]) * unit)
        if band.low <= dimension.printed.value <= band.high:
            return band
    number = replace(number, caliper=False) if TOGETHER.search(dimension.method) else number
    limits = limits_of(number, general.angle if number.is_angle else general.length)
    return Band(dimension.printed.value + limits.lower, dimension.printed.value + limits.upper)


def _number(text: str) -> float:
    """`23 5/8`, `.703`, `18.4`."""
    return float(sum(Fraction(word) for word in text.split()))
