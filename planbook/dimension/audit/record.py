"""The numbers of a sheet as they stand in its file: what is printed, how finely, and between which limits."""

from __future__ import annotations

from pydantic import TypeAdapter
from pydantic.dataclasses import dataclass

from planbook.measure import CALIPER_TOLERANCE, UNIT_SIGNS, is_in_degrees


@dataclass(frozen=True, slots=True)
class Lettering:
    """A printed measure: its text, what that states in nanometres or degrees, and its unit ("" if in the text)."""

    text: str
    value: float
    unit: str


@dataclass(frozen=True, slots=True)
class Number:
    """A printed dimension as a number. `upper` (>= 0) and `lower` (<= 0) are None where no tolerance is printed."""

    id: str
    kind: str
    characteristic: str
    nominal: float
    printed: Lettering
    upper: float | None = None
    lower: float | None = None
    caliper: bool = False
    reference: bool = False

    @property
    def is_angle(self) -> bool:
        """Whether it is in degrees."""
        return is_in_degrees(self.printed.text)

    @property
    def is_chosen(self) -> bool:
        """Whether a drill or a cutter that is sold makes it: such sizes are chosen, not rounded."""
        return self.characteristic.endswith("diameter")


@dataclass(frozen=True, slots=True)
class Limits:
    """How far a measure may lie off the printed number; nanometres or degrees, `upper` >= 0 >= `lower`."""

    upper: float
    lower: float


@dataclass(frozen=True, slots=True)
class _Numbers:
    dimensions: tuple[Number, ...]


_NUMBERS = TypeAdapter(_Numbers)
_CALIPER = {UNIT_SIGNS[units]: tolerance for units, tolerance in CALIPER_TOLERANCE.items()}


def read_numbers(content: bytes) -> tuple[Number, ...]:
    """The printed dimensions of a sheet's file. Raises ValueError when it is damaged."""
    return _NUMBERS.validate_json(content).dimensions


def limits_of(number: Number, general: float) -> Limits:
    """As printed, else the general tolerance on its kind; without one, caliper work is done to its own fineness."""
    if number.upper is not None and number.lower is not None:
        return Limits(number.upper, number.lower)
    least = min(general, _CALIPER.get(number.printed.unit, general)) if number.caliper else general
    return Limits(least, -least)
