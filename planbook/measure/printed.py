"""A printed measure: the text that a builder reads and the value that this text states."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Printed:
    """`text` is in the edition's own system, `other` in the second one (for reference only, may be empty).

    `value` is what `text` states, in base units: what the builder was told, which need not be the model's value.
    Fractions are written `23 5/8`: one space, ASCII slash.
    """

    text: str
    other: str
    value: float
    unit: str
    """Unit sign of `text`: "in", "mm", "°", "N", "lbf", "kg", ... or empty."""
    other_unit: str = ""

    @property
    def bare(self) -> str:
        """As on a drawing, where a note names the unit: `23 5/8 [600]`."""
        return f"{self.text} [{self.other}]" if self.other else self.text

    @property
    def full(self) -> str:
        """As in prose: `23 5/8 in [600 mm]`, `13.5°`."""
        first = _with_unit(self.text, self.unit)
        return f"{first} [{_with_unit(self.other, self.other_unit)}]" if self.other else first


def is_in_degrees(text: str) -> bool:
    """Whether a measure that carries its unit in its text, as on a sheet, is an angle."""
    return text.endswith("°")


def _with_unit(text: str, unit: str) -> str:
    if not unit or unit == "°":
        return f"{text}{unit}"
    return f"{text} {unit}"
