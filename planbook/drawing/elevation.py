"""The assembly seen from a side: nearer components painted over farther ones, each a filled silhouette with edges."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import shapely
from shapely.geometry import LineString
from shapely.geometry.base import BaseGeometry

from planbook.drawing.balloons import MARGIN, balloons
from planbook.drawing.curves import XY, circle
from planbook.drawing.facing import Facing
from planbook.drawing.ink import Box
from planbook.drawing.recording import Drawing, LineTo, Pen, Primitive, Pt, Stroke
from planbook.drawing.scale_bar import HEIGHT as BAR_HEIGHT
from planbook.drawing.scale_bar import scale_bar
from planbook.drawing.shaped_solid import MM, solid_of_part
from planbook.drawing.silhouette import Silhouette, chords, polygons, silhouette_of
from planbook.drawing.solid import XYZ, Plane, Prism, Solid
from planbook.drawing.tracing import Setting, trace
from planbook.shape.geometry import Vec
from planbook.shape.model import Component

# World axes: x right, y back, z up. By side: what lies to the right and up on paper, and the way to the eye.
_SIDES: Final[dict[str, tuple[XYZ, XYZ, XYZ]]] = {
    "front": (XYZ(1, 0, 0), XYZ(0, 0, 1), XYZ(0, -1, 0)),
    "rear": (XYZ(-1, 0, 0), XYZ(0, 0, 1), XYZ(0, 1, 0)),
    "left": (XYZ(0, -1, 0), XYZ(0, 0, 1), XYZ(-1, 0, 0)),
    "right": (XYZ(0, 1, 0), XYZ(0, 0, 1), XYZ(1, 0, 0)),
    "top": (XYZ(1, 0, 0), XYZ(0, 1, 0), XYZ(0, 0, 1)),
    "below": (XYZ(1, 0, 0), XYZ(0, -1, 0), XYZ(0, 0, -1)),
}
_PAD: Final = 1.0
_MOST_SCALE: Final = 1.0
_BAR: Final = 40.0
_SKIN: Final = 0.05
"""Edges that only touch what covers them (mm in the world) are not hidden by it."""
_LEAST_SEEN: Final = 0.6
"""Square millimetres on paper under which nobody sees a component."""


@dataclass(frozen=True)
class Seen:
    """A component as the side shows it; the silhouette is about its own zero, which stands at `at`."""

    name: str
    silhouette: Silhouette
    at: XY
    near: float

    @property
    def region(self) -> BaseGeometry:
        """What it covers, in the side's plane."""
        return shapely.transform(self.silhouette.region, lambda xy: xy + np.array(self.at))


def draw_elevation(
    components: Sequence[Component],
    side: str,
    emphasise: Collection[str] = (),
    show: Collection[str] | None = None,
    labels: Mapping[str, str] | None = None,
    width: float = 160.0,
    height: float = 100.0,
    units: str = "millimetre",
    title: str = "",
) -> Drawing:
    """The components (all, or those named in `show`) from a side, at most `width` by `height` millimetres.

    `side`: front, rear, left, right, top or below. Components in `emphasise` are tinted with black edges, all others
    then turn grey. `labels` gives part references by component name. The drawing's height is what is really used.
    """
    seen = _all_seen([c for c in components if show is None or c.name in show], side)
    if not seen:
        return Drawing(width, BAR_HEIGHT, (), title)
    margin = MARGIN if labels else _PAD
    bounds = shapely.total_bounds([s.region for s in seen])
    setting, picture = _setting(bounds, width, height, margin)
    drawn: list[Primitive] = []
    for component in seen:
        drawn += _paint(component, setting, component.name in emphasise, bool(emphasise))
    drawn += _ghosts(seen, setting, emphasise)
    bottom = picture.bottom + margin + BAR_HEIGHT - 1.5
    drawn += scale_bar(setting.scale, _BAR, picture.left, bottom, units)
    if labels:
        drawn += balloons(_targets(seen, labels, setting), picture)
    return Drawing(width, bottom + 1.5, tuple(drawn), title)


def _setting(bounds: Sequence[float], width: float, height: float, margin: float) -> tuple[Setting, Box]:
    """The scale that fills the room, and the picture's box on paper."""
    x0, y0, x1, y1 = (float(b) for b in bounds)
    across, down = width - 2 * margin, height - 2 * margin - BAR_HEIGHT
    scale = min(across / max(x1 - x0, 1e-6), down / max(y1 - y0, 1e-6), _MOST_SCALE)
    left = (width - (x1 - x0) * scale) / 2
    box = Box(left, margin, left + (x1 - x0) * scale, margin + (y1 - y0) * scale)
    return Setting(scale, left - x0 * scale, margin + y1 * scale), box


def _all_seen(components: Sequence[Component], side: str) -> list[Seen]:
    """Farthest first."""
    return sorted((_seen(component, side) for component in components), key=lambda s: (round(s.near, 3), s.name))


def _seen(component: Component, side: str) -> Seen:
    right, up, eye = _SIDES[side]
    placement = component.placement
    sign = -1.0 if placement.mirrored else 1.0
    axes = (placement.x, Vec(*(sign * c for c in placement.y)), placement.z)

    def turned(d: XYZ) -> XYZ:
        return XYZ(*(round(d.x * a.x + d.y * a.y + d.z * a.z, 12) for a in axes))

    facing = Facing(turned(right), turned(up), turned(eye), "")
    part = component.part
    solid = solid_of_part(part) if part else _rod(component.rod_radius * MM, component.rod_length * MM)
    zero = XYZ(*(c * MM for c in placement(Vec(0, 0, 0), part.blank.y if part else 0.0)))
    at = XY(zero.dot(right), zero.dot(up))
    return Seen(component.name, silhouette_of(solid, facing), at, zero.dot(eye) + _nearest(solid, facing))


def _nearest(solid: Solid, facing: Facing) -> float:
    """How far a solid reaches towards the eye from its zero."""
    x0, y0, x1, y1 = solid.blank.box
    corners = (solid.blank.plane.place(x, y, d) for x in (x0, x1) for y in (y0, y1) for d in (0.0, solid.blank.depth))
    return max(corner.dot(facing.eye) for corner in corners)


def _rod(radius: float, length: float) -> Solid:
    """A cylinder along x from the origin."""
    plane = Plane(XYZ(length, 0, 0), XYZ(0, 1, 0), XYZ(0, 0, 1), XYZ(1, 0, 0))
    return Solid(XYZ(length, 2 * radius, 2 * radius), Prism(plane, (circle(XY(0, 0), radius),), length), ())


def _paint(seen: Seen, setting: Setting, strong: bool, some_are: bool) -> list[Primitive]:
    """Fill, inner edges, then the outline."""
    here = Setting(setting.scale, setting.x + seen.at.x * setting.scale, setting.y - seen.at.y * setting.scale)
    edge, inner = (Pen.FAINT, Pen.FAINT) if some_are and not strong else (Pen.EDGE, Pen.INNER)
    drawn: list[Primitive] = []
    for rings in seen.silhouette.rings:
        first, *holes = (_filled([here(p) for p in ring], "tint" if strong else "white") for ring in rings)
        drawn.append(Stroke(first.start, first.steps, None, True, first.fill, tuple(holes)))
    drawn += (trace(curve, here, inner) for curve in seen.silhouette.inner)
    drawn += (trace(curve, here, edge) for curve in seen.silhouette.outline)
    return drawn


def _filled(points: Sequence[Pt], fill: str) -> Stroke:
    return Stroke(points[0], tuple(LineTo(p) for p in points[1:-1]), None, closed=True, fill=fill)


def _ghosts(seen: Sequence[Seen], setting: Setting, emphasise: Collection[str]) -> list[Primitive]:
    """Outlines of emphasised components dashed where something nearer covers them."""
    drawn: list[Primitive] = []
    for place, component in enumerate(seen):
        if component.name not in emphasise:
            continue
        cover = shapely.unary_union([s.region for s in seen[place + 1 :] if s.name not in emphasise])
        for curve in component.silhouette.outline:
            line = LineString([(p.x + component.at.x, p.y + component.at.y) for p in chords(curve)])
            hidden = line.intersection(cover.buffer(-_SKIN))
            for piece in getattr(hidden, "geoms", (hidden,)):
                if isinstance(piece, LineString) and piece.length > _SKIN:
                    points = [setting(XY(*p)) for p in piece.coords]
                    drawn.append(Stroke(points[0], tuple(LineTo(p) for p in points[1:]), Pen.HIDDEN))
    return drawn


def _targets(seen: Sequence[Seen], labels: Mapping[str, str], setting: Setting) -> dict[str, Pt]:
    """For each text the middle of the largest piece that is really seen of a component so labelled.

    A component that nothing is seen of gets no balloon: its leader would point at another.
    """
    best: dict[str, tuple[float, Pt]] = {}
    for place, component in enumerate(seen):
        text = labels.get(component.name)
        if not text:
            continue
        cover = shapely.unary_union([nearer.region for nearer in seen[place + 1 :]])
        for piece in polygons(component.region.difference(cover)):
            spot = piece.centroid if piece.contains(piece.centroid) else piece.representative_point()
            if piece.area * setting.scale**2 > _LEAST_SEEN and piece.area > best.get(text, (0.0,))[0]:
                best[text] = piece.area, setting(XY(spot.x, spot.y))
    return {text: spot for text, (_, spot) in best.items()}
