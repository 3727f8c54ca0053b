"""Sections: a part cut open by a plane and seen square to it, the cut face hatched, nothing hidden (ISO 128-3)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

import numpy as np
import shapely
from shapely import affinity
from shapely.geometry.base import BaseGeometry

from planbook.drawing.cutting import area_within, cut_lines, half_removed
from planbook.drawing.faceted import is_faceted, mesh_of_solid
from planbook.drawing.facing import Facing
from planbook.drawing.hatching import Pattern, hatched
from planbook.drawing.hidden import scene_of
from planbook.drawing.ink import Box
from planbook.drawing.lettering import text_width
from planbook.drawing.lines import arrowhead, stroke
from planbook.drawing.merge import Piece, merge
from planbook.drawing.recording import Anchor, Label, Pen, Primitive, Pt, Stroke
from planbook.drawing.sectioning import reach_along
from planbook.drawing.sight import see
from planbook.drawing.solid import Prism, Solid
from planbook.drawing.tracing import Setting

LETTER: Final = 3.5
"""Height of the letters at a cutting plane."""
_OFF: Final = 1.5
_DASH: Final = 5.0
_STAND: Final = 3.6
"""From the view to the thick end of the plane's line, its length, and how far out the arrow stands."""
_TAILS: Final = (6.0, 6.5, 7.0, 7.5, 8.0, 5.5, 9.0, 10.0, 11.0, 12.0, 14.0, 16.0)
"""Lengths of the arrow, the first that keeps its letter clear of extension lines is taken."""
_AIR: Final = 0.9
_LEVEL: Final = 1e-4


@dataclass(frozen=True, slots=True)
class Section:
    """What makes a view a section. `area` is the wood in the plane, on the plane of view in part millimetres.

    `level`: the grain, or the plies, run from left to right.
    """

    letter: str
    area: BaseGeometry
    pattern: Pattern
    level: bool

    @property
    def title(self) -> str:
        """As ISO 128-3 names it."""
        return f"SECTION {self.letter}–{self.letter}"

    def hatching(self, setting: Setting) -> tuple[Stroke, ...]:
        """On paper."""
        scale = setting.scale
        return hatched(
            affinity.affine_transform(self.area, [scale, 0, 0, -scale, setting.x, setting.y]), self.pattern, self.level
        )


@dataclass(frozen=True, slots=True)
class CutMark:
    """A cutting plane in the view that looks along it: its place, and the way in which its section looks.

    `level`: the plane runs from left to right, at height `at`, and `way` is +1 if its section looks up; else it runs
    upright at `at` from the left, and `way` is +1 if its section looks to the right.
    """

    letter: str
    level: bool
    at: float
    way: float

    def draw(self, box: Box, setting: Setting, taken: Sequence[float]) -> tuple[tuple[Primitive, ...], ...]:
        """Each end: a thick stroke, an arrow that rests on it, the letter at the arrow's tail.

        `box` is the view on paper; `taken` are places along the border at which extension lines may start.
        """
        # Along runs with the plane, aside in the direction in which its section looks; both on paper.
        at = setting.y - setting.scale * self.at if self.level else setting.x + setting.scale * self.at
        aside = -self.way if self.level else self.way
        ends = ((box.left, -1.0), (box.right, 1.0)) if self.level else ((box.top, -1.0), (box.bottom, 1.0))
        size = LETTER if self.level else text_width(self.letter, LETTER)
        tail = next((t for t in _TAILS if self._is_clear(at - aside * (t + _AIR + size / 2), size, taken)), _TAILS[0])
        return tuple(self._end(border, out, at, aside, tail, size) for border, out in ends)

    @staticmethod
    def _is_clear(middle: float, size: float, taken: Sequence[float]) -> bool:
        return all(abs(middle - place) > size / 2 + _AIR for place in taken)

    def _end(
        self, border: float, out: float, at: float, aside: float, tail: float, size: float
    ) -> tuple[Primitive, ...]:
        def place(along: float, across: float) -> Pt:
            return Pt(along, across) if self.level else Pt(across, along)

        x = border + out * _STAND
        tip, end = place(x, at), place(x, at - aside * tail)
        middle = at - aside * (tail + _AIR + size / 2)
        base = Pt(x, middle + LETTER / 2) if self.level else Pt(middle, x + LETTER / 2)
        return (
            stroke(place(border + out * _OFF, at), place(border + out * (_OFF + _DASH), at), pen=Pen.OUTLINE),
            stroke(end, tip),
            arrowhead(tip, end),
            Label(self.letter, base, LETTER, Anchor.MIDDLE),
        )


def pattern_of(substance: str, facing: Facing) -> Pattern:
    """How a cut face is hatched: wood by whether the section looks along its grain."""
    if substance == "wood":
        return Pattern.END_GRAIN if abs(facing.eye.x) > 0.5 else Pattern.LONG_GRAIN
    return Pattern(substance) if substance else Pattern.PLAIN


@lru_cache(maxsize=256)
def cut_open(solid: Solid, facing: Facing, at: float) -> tuple[tuple[Piece, ...], BaseGeometry]:
    """The visible pieces of a part cut by a plane, each drawn once, and the area of wood in it."""
    half = Solid(solid.size, solid.blank, (*solid.cuts, half_removed(solid, facing, at)))
    if is_faceted(solid):
        seen = see(half, facing, frozenset())
        return tuple(piece for piece in seen if piece.rank < 2), _faceted_area(half, facing, at)
    border = cut_lines(solid, facing, at)
    behind = see(half, facing, frozenset(), tuple(piece.curve for piece in border))
    pieces = merge([*border, *(piece for piece in behind if piece.rank < 2)])
    return pieces, area_within(solid, facing, at, border)


def _faceted_area(half: Solid, facing: Facing, at: float) -> BaseGeometry:
    """The triangles of the mesh that lie in the plane."""
    scene = scene_of({"part": mesh_of_solid(half)}, facing)
    flat = np.abs(scene.corners[:, :, 2] - at).max(axis=1) < _LEVEL
    return shapely.union_all(shapely.polygons(scene.corners[flat][:, :, :2]))


def is_open(cut: Prism, facing: Facing, at: float) -> bool:
    """Whether a plane passes through a cut: then its centre line belongs to the section."""
    low, high = reach_along(cut, facing)
    return low < at < high
