"""Standard scales: ISO 5455 for metric sheets; full, half, quarter, eighth size and so on for inch sheets."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True)
class Scale:
    """Paper to part, e.g. 1 to 5."""

    paper: int
    part: int

    @property
    def factor(self) -> float:
        """Millimetres on paper for a millimetre of the part."""
        return self.paper / self.part

    def __str__(self) -> str:
        return f"{self.paper}:{self.part}"


def _scales(*pairs: tuple[int, int]) -> tuple[Scale, ...]:
    return tuple(Scale(*pair) for pair in pairs)


ISO_5455: Final = _scales((5, 1), (2, 1), (1, 1), (1, 2), (1, 5), (1, 10), (1, 20), (1, 50), (1, 100))
INCH: Final = _scales((4, 1), (2, 1), (1, 1), (1, 2), (1, 4), (1, 8), (1, 12), (1, 16), (1, 32), (1, 64))
"""Common practice, no source: the steps of an inch rule, and one inch to the foot."""


def scales_for(units: str) -> tuple[Scale, ...]:
    """Largest first; `units` as in a stated edition."""
    return INCH if units == "inch" else ISO_5455
