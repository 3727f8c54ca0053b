"""The board that a part is cut from: its size, its outline, and the checks that a feature lies in its wood."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import shapely

from planbook.design.values import Value
from planbook.shape.bench import FINE
from planbook.shape.faces import FACES, FLAT, extent, stock_depth
from planbook.shape.geometry import Loop, Vec
from planbook.shape.loops import SAGITTA, area, bounds, flatten
from planbook.shape.model import Cut
from planbook.source.models.part import FaceName


@dataclass(frozen=True)
class Board:
    """A blank with its outline. `title` names the part in findings."""

    title: str
    size: tuple[Value, Value, Value]
    outline: Loop
    shaped: bool
    """Whether the outline is authored, not the plain rectangle."""

    @property
    def blank(self) -> Vec:
        """Length, width and thickness in nanometres."""
        return Vec(*(value.number for value in self.size))

    @cached_property
    def region(self) -> shapely.Polygon:
        """The outline as a polygon within `SAGITTA`, a little grown so that touching its border is still inside."""
        return self.wood.buffer(2 * SAGITTA + FINE)

    @cached_property
    def wood(self) -> shapely.Polygon:
        """The outline as a polygon within `SAGITTA`."""
        return shapely.Polygon(flatten(self.outline))

    @property
    def volume(self) -> float:
        """The wood of the outline through its thickness, before features, in cubic nanometres."""
        return area(self.outline) * self.blank.z


@dataclass(frozen=True, slots=True)
class Overshoot:
    """By how much a loop leaves its face, on which of the face's axes (0 or 1), and to which end (-1 or 1)."""

    axis: int
    direction: int
    amount: float


def overshoot(board: Board, face: FaceName, loop: Loop) -> Overshoot | None:
    """The greatest way by which a loop leaves the blank's rectangle on its face, or None."""
    low, high = bounds(loop)
    size = extent(face, board.blank)
    found = [Overshoot(axis, -1, -low[axis]) for axis in (0, 1)]
    found += [Overshoot(axis, 1, high[axis] - size[axis]) for axis in (0, 1)]
    worst = max(found, key=lambda each: each.amount)
    return worst if worst.amount > FINE else None


def beyond_outline(board: Board, face: FaceName, loop: Loop) -> float:
    """How far (nm) a loop on the face or the back reaches past the outline; 0.0 when it stays inside, or elsewhere."""
    if not board.shaped or face not in FLAT:
        return 0.0
    outside = shapely.Polygon(flatten(loop)).difference(board.region)
    if outside.is_empty:
        return 0.0
    return float(shapely.distance(board.region, shapely.points(shapely.get_coordinates(outside))).max())


def meets_wood(board: Board, face: FaceName, cut: Cut) -> bool:
    """Whether a cut removes any of the outline's wood, seen from the face."""
    shadow = shapely.Polygon(flatten(cut.loop)) if face in FLAT else _shadow(board, face, cut)
    return bool(board.wood.intersection(shadow).area > FINE * FINE)


def _shadow(board: Board, face: FaceName, cut: Cut) -> shapely.Polygon:
    """The rectangle that a cut from an end or an edge covers in the face view."""
    low, high = bounds(cut.loop)
    axes = FACES[face]
    behind = stock_depth(face, board.blank)
    into = (behind - cut.depth, behind) if axes.far else (0.0, cut.depth)
    across = (low.x, high.x)
    x, y = (into, across) if axes.normal == 0 else (across, into)
    return shapely.box(x[0], y[0], x[1], y[1])


def cut_volume(cut: Cut) -> float:
    """The space of a cut in cubic nanometres: area by depth; a tapered one is a frustum, h/3 (A + B + sqrt(A B)).

    A floor that climbs evenly along an arc is on average as deep as half way.
    """
    top = area(cut.loop) - sum(area(island) for island in cut.islands)
    if cut.climbs is not None:
        return top * sum(cut.climbs) / 2
    if cut.bottom is None:
        return top * cut.depth
    bottom = area(cut.bottom)
    return cut.depth / 3 * (top + bottom + math.sqrt(top * bottom))
