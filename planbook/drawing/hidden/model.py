"""What a hidden-line view consists of: polylines on the plane of view, in millimetres, x to the right, y upwards."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from planbook.drawing.curves import XY


class Kind(StrEnum):
    """What an edge is to its component."""

    OUTLINE = "outline"
    """The component ends here, and something else or nothing lies behind."""
    JOINT = "joint"
    """The component ends here, and touches another: flush with it, or standing on it."""
    INNER = "inner"
    """The component goes on."""


class Sight(StrEnum):
    """Whether an edge is seen."""

    SEEN = "seen"
    COVERED = "covered"
    """Behind another component."""
    BEHIND = "behind"
    """Behind its own component, or turned away; its kind is not told apart, and it counts as an inner edge."""


@dataclass(frozen=True, slots=True)
class Chain:
    """A polyline of one component; closed when it ends where it starts."""

    component: str
    kind: Kind
    sight: Sight
    points: tuple[XY, ...]
