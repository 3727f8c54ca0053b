"""What a component covers when seen from a side, and its edges told apart into outline and inner ones."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

import shapely
from shapely import affinity
from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import polygonize

from planbook.drawing.curves import XY, Arc, Curve, Line
from planbook.drawing.facing import FACINGS, Facing
from planbook.drawing.sight import see
from planbook.drawing.solid import XYZ, Solid

_GRID: Final = 1e-3
"""Ends of curves are snapped to a micrometre, so that regions close."""
_STEP: Final = math.radians(4)


@dataclass(frozen=True)
class Silhouette:
    """On the view's plane in millimetres: the region covered, edges on its border, edges inside it."""

    region: BaseGeometry
    outline: tuple[Curve, ...]
    inner: tuple[Curve, ...]

    @property
    def rings(self) -> tuple[tuple[tuple[XY, ...], ...], ...]:
        """For each piece of the region its outer ring and its holes."""
        return tuple(
            tuple(tuple(XY(*p) for p in ring.coords) for ring in (piece.exterior, *piece.interiors))
            for piece in polygons(self.region)
        )


def polygons(region: BaseGeometry) -> tuple[Polygon, ...]:
    """The polygons that a region consists of."""
    return tuple(
        piece for piece in getattr(region, "geoms", (region,)) if isinstance(piece, Polygon) and not piece.is_empty
    )


def silhouette_of(solid: Solid, facing: Facing) -> Silhouette:
    """Parts the plane by all edges and keeps the faces behind which there is wood.

    Remembered for each way to the eye: figures share parts, and a part turned on the paper is the same picture turned.
    """
    base = next((known for known in FACINGS.values() if known.eye == facing.eye), facing)
    found = _silhouette(solid, base)
    return found if base == facing else _turned(found, base, facing)


@lru_cache(maxsize=1024)
def _silhouette(solid: Solid, facing: Facing) -> Silhouette:
    pieces = see(solid, facing, frozenset())
    region = _region(solid, facing, [piece.curve for piece in pieces])
    seen = [piece.curve for piece in pieces if piece.rank < 2]
    if region.is_empty:
        return Silhouette(region, tuple(seen), ())
    border = region.boundary
    on_border = [_is_on(curve, border) for curve in seen]
    return Silhouette(
        region,
        tuple(curve for curve, on in zip(seen, on_border, strict=True) if on),
        tuple(curve for curve, on in zip(seen, on_border, strict=True) if not on),
    )


def _turned(found: Silhouette, base: Facing, facing: Facing) -> Silhouette:
    """What another way up on paper shows; the eye is the same."""
    a, b = facing.right.dot(base.right), facing.right.dot(base.up)
    c, d = facing.up.dot(base.right), facing.up.dot(base.up)

    def move(p: XY) -> XY:
        return XY(a * p.x + b * p.y, c * p.x + d * p.y)

    def turn(curve: Curve) -> Curve:
        if isinstance(curve, Line):
            return Line(move(curve.start), move(curve.end))
        begin = move(XY(math.cos(curve.begin), math.sin(curve.begin)))
        sweep = curve.sweep if a * d > b * c else -curve.sweep
        return Arc(move(curve.centre), curve.radius, math.atan2(begin.y, begin.x), sweep)

    region = affinity.affine_transform(found.region, (a, b, c, d, 0.0, 0.0))
    return Silhouette(region, tuple(map(turn, found.outline)), tuple(map(turn, found.inner)))


def _region(solid: Solid, facing: Facing, curves: Sequence[Curve]) -> BaseGeometry:
    lines = [shapely.set_precision(LineString(chords(curve)), _GRID) for curve in curves]
    net = shapely.unary_union([line for line in lines if not line.is_empty], grid_size=_GRID)
    lines_of_net = getattr(net, "geoms", (net,))
    faces = [face for face in polygonize(lines_of_net) if _is_covered(solid, facing, face.representative_point())]
    return shapely.unary_union(faces)


def _is_covered(solid: Solid, facing: Facing, spot: shapely.Point) -> bool:
    """Whether the line of sight through a place of the view's plane meets wood."""
    far = -sum(solid.size) - 1.0
    start = XYZ(0, 0, 0).along(facing.right, spot.x).along(facing.up, spot.y).along(facing.eye, far)
    return not solid.is_clear(start, facing.eye, solid.cuts)


def _is_on(curve: Curve, border: BaseGeometry) -> bool:
    slack = 0.01 if not isinstance(curve, Arc) else 0.01 + curve.radius * (1 - math.cos(_STEP))
    return all(border.distance(shapely.Point(curve.point(t))) < slack for t in (0.2, 0.5, 0.8))


def chords(curve: Curve) -> list[XY]:
    """Points along a curve, arcs in small steps."""
    count = max(2, math.ceil(abs(curve.sweep) / _STEP)) if isinstance(curve, Arc) else 1
    return [curve.point(k / count) for k in range(count + 1)]
