"""The picture of a rework: the old shape grey, what goes hatched, what is lacking black, and the new measures."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Final

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from planbook.drawing.angles import is_angle
from planbook.drawing.block import Unnamed, lay_out
from planbook.drawing.calling_out import called_out
from planbook.drawing.callouts import is_linear
from planbook.drawing.curves import XY
from planbook.drawing.faceted import mesh_of_solid
from planbook.drawing.facing import FACINGS, Facing
from planbook.drawing.hatching import Pattern, hatched
from planbook.drawing.ink import extent, shifted
from planbook.drawing.picture import filled, polygons_of
from planbook.drawing.recording import Drawing, Ink, Label, LineTo, Pen, Primitive, Pt, Stroke
from planbook.drawing.scales import Scale, scales_for
from planbook.drawing.solid import XYZ
from planbook.drawing.stated_solid import solid_of_stated
from planbook.drawing.tracing import Setting, trace
from planbook.drawing.views import view_of
from planbook.impact import Reshaped
from planbook.shape.solids.surfaces import Floats
from planbook.statement.model import DimensionStated

_PAD: Final = 1.5
_KEY: Final = 2.5
_KEY_PITCH: Final = 4.5
_LEAST_AREA: Final = 0.02
"""Square millimetres on paper: less is a facet's sliver."""


def draw_rework(part: Reshaped, units: str, width: float = 160.0, height: float = 110.0) -> Drawing:
    """The view in which most of what changes is dimensioned, at the largest standard scale at which all finds room."""
    name = _view_of(part)
    facing = FACINGS[name]
    drawn: list[Primitive] = []
    for scale in scales_for(units):
        unnamed = _dimensioned(part, name, scale)
        setting = Setting(scale.factor)
        # The grey lies under everything, the hatching under the lines of the new shape.
        drawn = [
            *_old(part, name, setting),
            *_difference(part, facing, setting),
            *unnamed.named(moved=False).primitives,
        ]
        box = extent(drawn)
        if box.right - box.left <= width and box.bottom - box.top <= height and not unnamed.unplaced:
            break
    box = extent(drawn)
    moved = [shifted(each, _PAD - box.left, _PAD - box.top) for each in drawn]
    key = tuple(_key(part, box.bottom - box.top + 2 * _PAD))
    whole = extent([*moved, *key])
    title = f"{part.new.title}: {part.impact.because or part.impact.impact.value}"
    return Drawing(whole.right + _PAD, whole.bottom + _PAD, (*moved, *key), title)


def _view_of(part: Reshaped) -> str:
    """The view that has most of the measures; without any, that from which most of what differs is seen."""
    views = Counter(each.view for each in part.dimensions if each.view in FACINGS)
    if views:
        return views.most_common(1)[0][0]
    return max(FACINGS, key=lambda name: sum(_seen(each, FACINGS[name]).area for each in (part.goes, part.lacks)))


def _dimensioned(part: Reshaped, name: str, scale: Scale) -> Unnamed:
    view = view_of(solid_of_stated(part.new), name, part.new.features)
    here = [each for each in part.dimensions if each.view == name]
    laid = lay_out(view, scale, [each for each in here if _is_laid(each)], False, part.new.dimensioning)
    return called_out(laid, here, part.new.features)


def _is_laid(dimension: DimensionStated) -> bool:
    return is_linear(dimension) or is_angle(dimension)


def _old(part: Reshaped, name: str, setting: Setting) -> Iterator[Primitive]:
    """The old piece, where it lies best."""
    facing, solid = FACINGS[name], solid_of_stated(part.old)
    shape = _seen(mesh_of_solid(solid).corners + np.array(part.moved), facing)
    yield from (filled(piece, setting, "panel") for piece in polygons_of(shape))
    off = facing.flat(XYZ(*part.moved))
    there = Setting(setting.scale, setting(off).x, setting(off).y)
    yield from (trace(piece.curve, there, Pen.FAINT) for piece in view_of(solid, name, part.old.features).pieces)


def _difference(part: Reshaped, facing: Facing, setting: Setting) -> Iterator[Primitive]:
    goes, lacks = (_on_paper(_seen(each, facing), setting) for each in (part.goes, part.lacks))
    yield from hatched(goes, Pattern.PLAIN, level=True)
    yield from _outlines(goes)
    paper = Setting(1.0)
    yield from (filled(_upright(piece), paper, "solid") for piece in polygons_of(lacks))


def _seen(triangles: Floats, facing: Facing) -> BaseGeometry:
    """What triangles (m, 3, 3) cover, on the plane of the view."""
    if not len(triangles):
        return shapely.Polygon()
    flat = np.stack([triangles @ np.array(facing.right), triangles @ np.array(facing.up)], axis=-1)
    return shapely.union_all(shapely.make_valid(shapely.polygons(flat)), grid_size=1e-4)


def _on_paper(area: BaseGeometry, setting: Setting) -> BaseGeometry:
    """Millimetres on paper, y downwards; without slivers."""

    def place(points: Floats) -> Floats:
        return np.array([setting(XY(x, y)) for x, y in points])

    pieces = [piece for piece in polygons_of(shapely.transform(area, place)) if piece.area > _LEAST_AREA]
    return shapely.MultiPolygon(pieces)


def _upright(piece: shapely.Polygon) -> shapely.Polygon:
    """Back to y upwards, for what is put on paper once more."""
    return shapely.transform(piece, lambda points: points * np.array([1.0, -1.0]))


def _outlines(area: BaseGeometry) -> Iterator[Stroke]:
    for piece in polygons_of(area):
        for ring in (piece.exterior, *piece.interiors):
            first, *rest = (Pt(x, y) for x, y in ring.coords[:-1])
            yield Stroke(first, tuple(map(LineTo, rest)), Pen.DIMENSION, closed=True)


def _key(part: Reshaped, top: float) -> Iterator[Label]:
    """What the tints mean, and what to do."""
    said = ["grey: the piece as it was"]
    said += ["hatched: goes"] if len(part.goes) else []
    said += ["black: wood is wanted there"] if len(part.lacks) else []
    lines = [", ".join(said), *(work.words for work in part.impact.works)]
    for row, text in enumerate(lines):
        at = Pt(_PAD, top + _KEY + row * _KEY_PITCH)
        yield Label(text, at, _KEY, ink=Ink.GREY if row == 0 else Ink.BLACK)
