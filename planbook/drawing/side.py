"""The four sides of a view, on which dimension lines stand; one way of reckoning for all of them.

`along` runs with the measure, `out` away from the view: paper points from (along, out) and back.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from planbook.drawing.ink import Box
from planbook.drawing.recording import Pt


class Side(StrEnum):
    """Of a view."""

    BELOW = "below"
    ABOVE = "above"
    LEFT = "left"
    RIGHT = "right"


LEVEL: Final = (Side.BELOW, Side.ABOVE)
UPRIGHT: Final = (Side.LEFT, Side.RIGHT)


@dataclass(frozen=True, slots=True)
class Margin:
    """One side of a view's box."""

    side: Side
    box: Box

    def place(self, along: float, out: float) -> Pt:
        """The paper point so far along and so far out from the view's border."""
        match self.side:
            case Side.BELOW:
                return Pt(along, self.box.bottom + out)
            case Side.ABOVE:
                return Pt(along, self.box.top - out)
            case Side.LEFT:
                return Pt(self.box.left - out, along)
            case Side.RIGHT:
                return Pt(self.box.right + out, along)

    def locate(self, p: Pt) -> tuple[float, float]:
        """(along, out) of a paper point; `out` is negative inside the view."""
        match self.side:
            case Side.BELOW:
                return p.x, p.y - self.box.bottom
            case Side.ABOVE:
                return p.x, self.box.top - p.y
            case Side.LEFT:
                return p.y, self.box.left - p.x
            case Side.RIGHT:
                return p.y, p.x - self.box.right

    @property
    def is_level(self) -> bool:
        """Whether dimension lines here are level, their lettering read from the bottom; else from the right."""
        return self.side in LEVEL

    @property
    def over(self) -> float:
        """+1 where the place over a dimension line, as read, lies farther out; -1 where it lies nearer the view."""
        return 1.0 if self.side in (Side.ABOVE, Side.LEFT) else -1.0
