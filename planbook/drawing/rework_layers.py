"""What lies under the new shape in the picture of a rework: the old piece, what goes and what is lacking."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from planbook.drawing.curves import XY
from planbook.drawing.detail import Detail, area_inside, pieces_inside
from planbook.drawing.faceted import mesh_of_solid
from planbook.drawing.facing import FACINGS, Facing
from planbook.drawing.hatching import Pattern, hatched
from planbook.drawing.picture import filled, polygons_of
from planbook.drawing.recording import LineTo, Pen, Primitive, Pt, Stroke
from planbook.drawing.solid import XYZ
from planbook.drawing.stated_solid import solid_of_stated
from planbook.drawing.tracing import Setting, trace
from planbook.drawing.views import View, view_of
from planbook.impact import Reshaped
from planbook.shape.solids.surfaces import Floats

_LEAST: Final = 0.02
"""Square millimetres on paper: less is a facet's sliver."""


@dataclass(frozen=True)
class Layers:
    """The new shape as a view, the old one shifted by `off`, and areas on the plane of the view, y upwards."""

    new: View
    old: View
    off: XY
    was: BaseGeometry
    goes: BaseGeometry
    lacks: BaseGeometry

    def under(self, setting: Setting, detail: Detail | None = None) -> Iterator[Primitive]:
        """All but the new shape; with `detail` what of it lies in that circle."""
        was, goes, lacks = (
            area if detail is None else area_inside(area, detail) for area in (self.was, self.goes, self.lacks)
        )
        yield from (filled(piece, setting, "panel") for piece in polygons_of(was))
        yield from self._old_lines(setting, detail)
        paper = _on_paper(goes, setting)
        yield from hatched(paper, Pattern.PLAIN, level=True)
        yield from _outlines(paper)
        yield from (filled(piece, setting, "solid") for piece in polygons_of(lacks) if _is_seen(piece, setting))

    def _old_lines(self, setting: Setting, detail: Detail | None) -> Iterator[Primitive]:
        there = Setting(setting.scale, setting(self.off).x, setting(self.off).y)
        pieces = self.old.pieces
        if detail is not None:
            centre = XY(detail.centre.x - self.off.x, detail.centre.y - self.off.y)
            pieces = pieces_inside(pieces, replace(detail, centre=centre))
        return (trace(piece.curve, there, Pen.FAINT) for piece in pieces)


def layers_of(part: Reshaped, name: str) -> Layers:
    """From the side of a face by name."""
    facing, was = FACINGS[name], solid_of_stated(part.old)
    return Layers(
        new=view_of(solid_of_stated(part.new), name, part.new.features),
        old=view_of(was, name, part.old.features),
        off=facing.flat(XYZ(*part.moved)),
        was=seen(mesh_of_solid(was).corners + np.array(part.moved), facing),
        goes=seen(part.goes, facing),
        lacks=seen(part.lacks, facing),
    )


def seen(triangles: Floats, facing: Facing) -> BaseGeometry:
    """What triangles (m, 3, 3) cover, on the plane of a view."""
    if not len(triangles):
        return shapely.Polygon()
    flat = np.stack([triangles @ np.array(facing.right), triangles @ np.array(facing.up)], axis=-1)
    return shapely.union_all(shapely.make_valid(shapely.polygons(flat)), grid_size=1e-4)


def _is_seen(piece: shapely.Polygon, setting: Setting) -> bool:
    return bool(piece.area * setting.scale**2 > _LEAST)


def _on_paper(area: BaseGeometry, setting: Setting) -> BaseGeometry:
    """Millimetres on paper, y downwards; without slivers."""

    def place(points: Floats) -> Floats:
        return np.array([setting(XY(x, y)) for x, y in points])

    pieces = [piece for piece in polygons_of(area) if _is_seen(piece, setting)]
    return shapely.transform(shapely.MultiPolygon(pieces), place) if pieces else shapely.Polygon()


def _outlines(area: BaseGeometry) -> Iterator[Stroke]:
    for piece in polygons_of(area):
        for ring in (piece.exterior, *piece.interiors):
            first, *rest = (Pt(x, y) for x, y in ring.coords[:-1])
            yield Stroke(first, tuple(map(LineTo, rest)), Pen.DIMENSION, closed=True)
