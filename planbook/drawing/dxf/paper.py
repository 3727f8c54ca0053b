"""Recorded primitives as DXF entities: lines, arcs, circles, polylines, filled marks, lettering; y turned upwards."""

from __future__ import annotations

import math
from typing import Final

from ezdxf.enums import TextEntityAlignment
from ezdxf.layouts.base import BaseLayout
from ezdxf.math import bulge_to_arc

from planbook.drawing.dxf.file import LETTERING, File, Look
from planbook.drawing.lettering import label_start, text_width
from planbook.drawing.recording import (
    DASHES,
    PEN_WIDTHS,
    ArcTo,
    Circle,
    Label,
    LineTo,
    Pen,
    Primitive,
    Pt,
    Stroke,
)

DIMENSIONS: Final = "dimensions"
TEXT: Final = "text"
_NAMES: Final = {Pen.DIMENSION: DIMENSIONS, Pen.GRID: "title block", Pen.HEAVY: "emphasised"}
_QUIET: Final = {Pen.GRID: 8, Pen.INNER: 8, Pen.FAINT: 9}
_BLACK, _BLUE = 7, 5

Place = tuple[float, float]
Vertex = tuple[float, float, float]
"""x, y, and the bulge of what leads to the next: the tangent of a quarter of an arc's angle, 0 for a line."""


def layer_of(pen: Pen) -> str:
    """What a pen draws, as a layer's name."""
    return _NAMES.get(pen, pen.value)


class Paper:
    """A page in a DXF file: from millimetres with y downwards to the file's unit with y upwards."""

    def __init__(self, file: File, height: float) -> None:
        """`height` of the page in millimetres."""
        self.file = file
        self._height = height

    def place(self, p: Pt) -> Place:
        """A place on the page."""
        factor = self.file.units.factor
        return p.x * factor, (self._height - p.y) * factor

    def length(self, millimetres: float) -> float:
        """A length in the file's unit."""
        return millimetres * self.file.units.factor

    def dimension_layer(self) -> str:
        """The layer of dimensions."""
        return self._pen_layer(Pen.DIMENSION)

    def add(self, primitive: Primitive, target: BaseLayout) -> None:
        """Draw a primitive in the page itself or in a block."""
        match primitive:
            case Label():
                self._add_label(primitive, target)
            case Circle():
                self._add_circle(primitive, target)
            case Stroke():
                for ring in (primitive, *primitive.holes):
                    self._add_path(ring, target)

    def _add_label(self, label: Label, target: BaseLayout) -> None:
        """Lettering fitted to the width that it was measured with, whatever font the reader has."""
        layer = self.dimension_layer() if label.of else self.file.layer(TEXT, Look(_BLACK, 25))
        attributes = {"layer": layer, "style": LETTERING, "rotation": label.angle}
        start, turn = label_start(label), math.radians(label.angle)
        width = text_width(label.text, label.height, label.bold)
        end = Pt(start.x + width * math.cos(turn), start.y - width * math.sin(turn))
        text = target.add_text(label.text, height=self.length(label.height), dxfattribs=attributes)
        text.set_placement(self.place(start), self.place(end), align=TextEntityAlignment.FIT)

    def _add_circle(self, circle: Circle, target: BaseLayout) -> None:
        centre, radius = self.place(circle.centre), self.length(circle.radius)
        if circle.fill == "solid":
            hatch = target.add_hatch(color=_BLACK, dxfattribs={"layer": self._mark_layer(circle)})
            hatch.paths.add_edge_path().add_arc(centre, radius)
        if circle.pen is not None:
            target.add_circle(centre, radius, dxfattribs={"layer": self._pen_layer(circle.pen)})

    def _add_path(self, path: Stroke, target: BaseLayout) -> None:
        vertices = self._vertices(path)
        if path.fill == "solid":
            hatch = target.add_hatch(color=_BLACK, dxfattribs={"layer": self._mark_layer(path)})
            hatch.paths.add_polyline_path(vertices, is_closed=True)
        if path.pen is None:
            return
        attributes = {"layer": self._pen_layer(path.pen)}
        if len(path.steps) > 1 or path.closed:
            target.add_lwpolyline(vertices, format="xyb", close=path.closed, dxfattribs=attributes)
            return
        (x0, y0, bulge), (x1, y1, _) = vertices
        if not bulge:
            target.add_line((x0, y0), (x1, y1), dxfattribs=attributes)
            return
        centre, begin, end, radius = bulge_to_arc((x0, y0), (x1, y1), bulge)
        target.add_arc(centre, radius, math.degrees(begin), math.degrees(end), dxfattribs=attributes)

    def _vertices(self, path: Stroke) -> list[Vertex]:
        corners = [path.start, *(step.end for step in path.steps)]
        bulges = [_bulge(start, step) for start, step in zip(corners, path.steps, strict=False)]
        if path.closed and corners[-1] == corners[0]:
            corners.pop()
        places = map(self.place, corners)
        return [(*place, bulge) for place, bulge in zip(places, [*bulges, 0.0], strict=False)]

    def _mark_layer(self, mark: Stroke | Circle) -> str:
        return self.dimension_layer() if mark.of else self.file.layer(TEXT, Look(_BLACK, 25))

    def _pen_layer(self, pen: Pen) -> str:
        colour = _BLUE if pen is Pen.DIMENSION else _QUIET.get(pen, _BLACK)
        return self.file.layer(layer_of(pen), Look(colour, round(100 * PEN_WIDTHS[pen]), DASHES.get(pen, ())))


def _bulge(start: Pt, step: LineTo | ArcTo) -> float:
    """An arc that turns clockwise as seen (sweep) has a negative bulge."""
    if isinstance(step, LineTo):
        return 0.0
    half = math.asin(min(math.dist(start, step.end) / (2 * step.radius), 1.0))
    quarter = (math.pi - half if step.large else half) / 2
    return -math.tan(quarter) if step.sweep else math.tan(quarter)
