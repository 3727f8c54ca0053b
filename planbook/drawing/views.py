"""The views of one part: exact strokes in part millimetres, and centre lines of what is round."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Final

from planbook.drawing.centre_lines import centre_lines
from planbook.drawing.curves import XY, Arc, Curve, Line
from planbook.drawing.detail import Detail, area_inside, inside, pieces_inside
from planbook.drawing.facing import FACINGS, Facing, Gap
from planbook.drawing.folding import BreakLine, break_lines, fold_area, fold_pieces, folded
from planbook.drawing.merge import Piece
from planbook.drawing.recording import Pen, Primitive
from planbook.drawing.section import CutMark, Section, cut_open, is_open, pattern_of
from planbook.drawing.sectioning import Cutting
from planbook.drawing.sight import see
from planbook.drawing.solid import Solid
from planbook.drawing.tracing import Setting, trace, trace_run
from planbook.statement.model import FeatureStated, PartStated

_CROSS: Final = 2.5
"""How far centre lines run past what they belong to, in millimetres on paper."""
_ALONG: Final = 0.5
_BEND: Final = math.radians(20)
_PENS: Final = {0: Pen.HEAVY, 1: Pen.OUTLINE, 2: Pen.HIDDEN}


@dataclass(frozen=True)
class View:
    """A part seen from one side: `pieces` on the view's plane; `axes` are centre lines without their overshoot.

    Of an interrupted view the pieces stand where it shows them, the axes where they would be without `breaks`.
    """

    name: str
    facing: Facing
    pieces: tuple[Piece, ...]
    axes: tuple[Curve, ...]
    breaks: tuple[BreakLine, ...] = ()
    section: Section | None = None
    marks: tuple[CutMark, ...] = ()
    """Where sections cut the part, marked at the borders of the view that they are taken from."""

    details: tuple[Detail, ...] = ()
    """What is shown again, larger."""
    detail: Detail | None = None
    """Of a view that is such a detail: the circle out of which it does not reach."""

    @property
    def title(self) -> str:
        """Its name in words."""
        if self.detail:
            return self.detail.title
        return self.section.title if self.section else self.facing.title

    @property
    def is_end(self) -> bool:
        """Whether it looks along the part."""
        return abs(self.facing.eye.x) > _ALONG

    @cached_property
    def box(self) -> tuple[float, float, float, float]:
        """Least x, least y, greatest x, greatest y in part millimetres."""
        if self.detail:
            return self.detail.box
        boxes = [piece.curve.box for piece in self.pieces]
        return min(b[0] for b in boxes), min(b[1] for b in boxes), max(b[2] for b in boxes), max(b[3] for b in boxes)

    def draw(self, setting: Setting) -> tuple[Primitive, ...]:
        """Strokes on paper: hidden ones and centre lines first, so that outlines lie on top."""
        drawn: list[Primitive] = []
        for rank in (2, 1, 0):
            curves = (piece.curve for piece in self.pieces if piece.rank == rank)
            drawn += (trace_run(run, setting, _PENS[rank]) for run in _runs(curves))
        longer = (_longer(axis, _CROSS / setting.scale) for axis in self.axes)
        lines = (axis for whole in longer for axis in folded(whole, self.facing))
        shown = (part for axis in lines for part in inside(axis, self.detail)) if self.detail else lines
        axes = (trace(axis, setting, Pen.CENTRE) for axis in shown)
        hatching = self.section.hatching(setting) if self.section else ()
        rings = (each.ring(setting) for each in (*self.details, *((self.detail,) if self.detail else ())))
        return (*hatching, *axes, *drawn, *(each.draw(setting) for each in self.breaks), *rings)


def _runs(curves: Iterable[Curve]) -> Iterator[Sequence[Curve]]:
    """Chords that follow one another along a curve go in one stroke, so that its dashes run on."""
    run: list[Curve] = []
    for curve in curves:
        if run and not _runs_on(run[-1], curve):
            yield run
            run = []
        run.append(curve)
    if run:
        yield run


def _runs_on(before: Curve, after: Curve) -> bool:
    if not isinstance(before, Line) or not isinstance(after, Line) or before.end != after.start:
        return False
    ways = [math.atan2(line.end.y - line.start.y, line.end.x - line.start.x) for line in (before, after)]
    return abs(math.remainder(ways[1] - ways[0], math.tau)) < _BEND


def _longer(line: Curve, by: float) -> Curve:
    if isinstance(line, Arc):
        return line
    (x0, y0), (x1, y1) = line.start, line.end
    ux, uy = (x1 - x0) / line.length, (y1 - y0) / line.length
    return Line(XY(x0 - ux * by, y0 - uy * by), XY(x1 + ux * by, y1 + uy * by))


def view_of(
    solid: Solid,
    name: str,
    features: Mapping[str, FeatureStated],
    emphasise: frozenset[str] = frozenset(),
    gaps: tuple[Gap, ...] = (),
) -> View:
    """The view of a part by face name, with gaps an interrupted one."""
    plain = FACINGS[name]
    pieces, axes = see(solid, plain, emphasise), centre_lines(solid, features, plain)
    if not gaps:
        return View(name, plain, pieces, axes)
    facing = replace(plain, gaps=gaps)
    return View(name, facing, fold_pieces(pieces, facing), axes, break_lines(pieces, facing))


def section_of(solid: Solid, cutting: Cutting, part: PartStated, gaps: tuple[Gap, ...] = ()) -> View:
    """A section: what is cut, and what is seen behind it; nothing hidden."""
    plain = cutting.facing
    pieces, area = cut_open(solid, plain, cutting.at)
    facing = replace(plain, gaps=gaps)
    open_cuts = tuple(cut for cut in solid.cuts if is_open(cut, plain, cutting.at))
    names = {cut.feature for cut in open_cuts}
    features = {name: feature for name, feature in part.features.items() if name in names}
    axes = centre_lines(replace(solid, cuts=open_cuts), features, plain)
    level = abs(plain.right.x) > 0.5
    section = Section(cutting.letter, fold_area(area, facing), pattern_of(part.substance, plain), level)
    lines = break_lines(pieces, facing)
    return View(cutting.name, facing, fold_pieces(pieces, facing), axes, lines, section)


def detail_of(view: View, detail: Detail) -> View:
    """What a view shows in a circle, as a view of its own."""
    section = view.section and replace(view.section, area=area_inside(view.section.area, detail))
    pieces = pieces_inside(view.pieces, detail)
    return View(detail.name, view.facing, pieces, view.axes, section=section, detail=detail)
