"""Enlarged details: a circle round something small and its letter in the view, and the same again at a larger scale."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import shapely
from shapely.geometry.base import BaseGeometry

from planbook.drawing.curves import XY, Curve, circle, meetings
from planbook.drawing.ink import CLEAR, Box, Segment, label_box
from planbook.drawing.lettering import text_width
from planbook.drawing.merge import Piece
from planbook.drawing.recording import Anchor, Circle, Label, Pen, Pt
from planbook.drawing.scales import Scale
from planbook.drawing.tracing import Setting

LETTER: Final = 3.5
WORTH: Final = 2.0
"""A detail is at least so many times larger than its view."""
_ROUND: Final = (45, 135, 315, 225, 90, 0, 180, 270, 20, 70, 110, 160, 200, 250, 290, 340)
"""Directions in which the letter is tried, in degrees."""
_OUT: Final = (1.0, 2.0, 3.5, 5.0)


@dataclass(frozen=True, slots=True)
class Detail:
    """What is shown again, larger: a circle on the plane of a view, in part millimetres, and what moves to it."""

    letter: str
    view: str
    centre: XY
    radius: float
    scales: tuple[Scale, ...]
    """At which it may be shown, the largest first."""
    ids: frozenset[str]
    """The dimensions that stand in the detail and not in the view."""
    fixed: bool = False
    """Whether its scale is asked for."""
    apart: bool = False
    """Whether it stands on another page than its view."""

    @property
    def name(self) -> str:
        """Of the view that shows it."""
        return f"detail_{self.letter.lower()}"

    @property
    def title(self) -> str:
        """In words."""
        return f"DETAIL {self.letter}"

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Round the circle."""
        (x, y), r = self.centre, self.radius
        return x - r, y - r, x + r, y + r

    def scales_apart(self, scales: Sequence[Scale], widest: float) -> list[Scale]:
        """Of a sheet's scales those at which it may stand on another page, no wider than that (mm)."""
        least = self.scales[-1].factor
        larger = (s for s in scales if s.factor >= least and 2 * self.radius * s.factor <= widest)
        return list(self.scales) if self.fixed else list(larger)

    def ring(self, setting: Setting) -> Circle:
        """The circle on paper."""
        return Circle(setting(self.centre), self.radius * setting.scale, Pen.DIMENSION)

    def lettered(self, setting: Setting, boxes: Sequence[Box], strokes: Sequence[Segment]) -> Label:
        """The letter outside the circle, where it touches nothing if there is such a place."""
        tries = list(self._places(setting))
        free = (label for label in tries if _is_free(label_box(label).grown(CLEAR), boxes, strokes))
        return next(free, tries[0])

    def _places(self, setting: Setting) -> Iterator[Label]:
        ring, width = self.ring(setting), text_width(self.letter, LETTER)
        for out in _OUT:
            for direction in _ROUND:
                cos, sin = math.cos(math.radians(direction)), math.sin(math.radians(direction))
                x = ring.centre.x + (ring.radius + out + width / 2) * cos
                y = ring.centre.y - (ring.radius + out + LETTER / 2) * sin
                yield Label(self.letter, Pt(x, y + LETTER / 2), LETTER, Anchor.MIDDLE)


def _is_free(box: Box, boxes: Sequence[Box], strokes: Sequence[Segment]) -> bool:
    return not any(box.meets(other) for other in boxes) and not any(stroke.meets(box) for stroke in strokes)


def pieces_inside(pieces: Iterable[Piece], detail: Detail) -> tuple[Piece, ...]:
    """What of a view's pieces lies in the circle."""
    return tuple(Piece(curve, piece.rank) for piece in pieces for curve in inside(piece.curve, detail))


def inside(curve: Curve, detail: Detail) -> Iterator[Curve]:
    """The parts of a curve in the circle."""
    stops = sorted({0.0, 1.0, *meetings(curve, circle(detail.centre, detail.radius))})
    for a, b in pairwise(stops):
        if (b - a) * curve.length > 1e-6 and math.dist(curve.point((a + b) / 2), detail.centre) < detail.radius:
            yield curve.part(a, b)


def area_inside(area: BaseGeometry, detail: Detail) -> BaseGeometry:
    """What of a cut face lies in the circle, arcs in chords."""
    return area.intersection(shapely.Point(*detail.centre).buffer(detail.radius, quad_segs=24))
