"""A drawing cut down to what is drawn on it, so that no white is left above and below a figure."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from planbook.drawing.lettering import label_corners
from planbook.drawing.recording import PEN_WIDTHS, ArcTo, Circle, Drawing, Label, Primitive, Pt, Stroke

_AIR: Final = 1.0


def crop(drawing: Drawing) -> Drawing:
    """The same drawing without its empty upper and lower edges; its width, and so its scale on paper, stays."""
    heights = [y for primitive in drawing.primitives for y in _reach(primitive)]
    if not heights:
        return drawing
    top = max(0.0, min(heights) - _AIR)
    bottom = min(drawing.height, max(heights) + _AIR)
    moved = tuple(_lift(primitive, top) for primitive in drawing.primitives)
    return replace(drawing, height=bottom - top, primitives=moved)


def _reach(primitive: Primitive) -> Iterator[float]:
    """Heights that enclose a primitive; an arc is enclosed by its ends and its radius, which may be too much."""
    match primitive:
        case Circle(centre, radius, pen):
            ink = PEN_WIDTHS[pen] / 2 if pen else 0.0
            yield from (centre.y - radius - ink, centre.y + radius + ink)
        case Label():
            yield from (corner.y for corner in label_corners(primitive))
        case Stroke(start, steps, pen):
            ink = PEN_WIDTHS[pen] / 2 if pen else 0.0
            for step in steps:
                yield from (step.end.y - ink, step.end.y + ink)
            yield from (start.y - ink, start.y + ink)
            yield from _bulge(start, steps)


def _bulge(start: Pt, steps: tuple[object, ...]) -> Iterator[float]:
    at = start
    for step in steps:
        if isinstance(step, ArcTo):
            # The sagitta is at most half the chord for a lesser arc, twice the radius for a larger one.
            chord = ((step.end.x - at.x) ** 2 + (step.end.y - at.y) ** 2) ** 0.5
            reach = 2 * step.radius if step.large else min(chord / 2, step.radius)
            yield from (min(at.y, step.end.y) - reach, max(at.y, step.end.y) + reach)
        at = step.end  # type: ignore[attr-defined]


def _lift(primitive: Primitive, by: float) -> Primitive:
    match primitive:
        case Circle():
            return replace(primitive, centre=_up(primitive.centre, by))
        case Label():
            return replace(primitive, at=_up(primitive.at, by))
        case Stroke():
            steps = tuple(replace(step, end=_up(step.end, by)) for step in primitive.steps)
            holes = tuple(_lift(hole, by) for hole in primitive.holes)
            return replace(primitive, start=_up(primitive.start, by), steps=steps, holes=holes)  # type: ignore[arg-type]


def _up(point: Pt, by: float) -> Pt:
    return Pt(point.x, point.y - by)
