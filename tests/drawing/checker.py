"""An independent reader of finished SVG: where ink really lies, measured from the font's glyphs and the path data.

It knows nothing of the program's own boxes: text is measured glyph by glyph, strokes are widened by half their pen.
Views are where wide lines lie close together, and circles round details; a leader is a narrow line with a level shelf
of two millimetres.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.resources import files
from itertools import pairwise
from xml.etree import ElementTree

from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont
from shapely import STRtree, affinity, unary_union
from shapely.geometry import LineString, Point, Polygon, box
from shapely.geometry.base import BaseGeometry

SVG = "{http://www.w3.org/2000/svg}"
WIDE, NARROW, FRAME = 0.5, 0.25, 0.7
"""Widths of lines in millimetres: visible edges, leaders and dimension lines, the frame."""
BLACK = "#1a1a1a"
APART = 4.0
"""Wide lines no farther apart than this are of one view: no two views stand so close, the ends of one at a break do."""
SHELF = 2.0


@dataclass(frozen=True)
class Text:
    words: str
    ink: BaseGeometry
    size: float
    mark: str


@dataclass(frozen=True)
class Picture:
    texts: tuple[Text, ...]
    strokes: tuple[BaseGeometry, ...]
    frame: BaseGeometry | None
    views: tuple[BaseGeometry, ...] = ()
    """Round the visible edges of each view."""
    leaders: tuple[LineString, ...] = ()
    """Each from its tip to its lettering."""


def read(svg: str) -> Picture:
    root = ElementTree.fromstring(svg)
    texts, strokes, frame = [], [], None
    wide, leaders = [], []
    for element in root:
        if element.tag == f"{SVG}text":
            texts.append(_text(element))
        elif element.tag in (f"{SVG}path", f"{SVG}circle"):
            shape = _shape(element)
            width = float(element.get("stroke-width", "0"))
            inked = [shape.buffer(width / 2)] if element.get("stroke") else []
            if element.get("fill", "none") not in ("none", "#ffffff"):
                inked.append(_area(element))
            strokes.append(unary_union(inked))
            if width == FRAME and element.get("d", "").endswith("Z"):
                frame = Polygon(shape.coords).buffer(-width / 2)
            elif width == WIDE or is_ring(element):
                wide.append(shape)
            elif width == NARROW and not element.get("stroke-dasharray") and is_leader(shape):
                leaders.append(shape)
    return Picture(tuple(texts), tuple(strokes), frame, views_in(wide, frame), tuple(leaders))


def is_ring(element: ElementTree.Element) -> bool:
    """A narrow black circle that nothing fills."""
    look = (element.get("stroke"), element.get("stroke-dasharray"), element.get("fill"))
    return element.tag == f"{SVG}circle" and look == (BLACK, None, None)


def is_leader(line: LineString) -> bool:
    """Two pieces, the second a level shelf."""
    (*_, elbow, end) = line.coords
    return len(line.coords) == 3 and elbow[1] == end[1] and abs(abs(elbow[0] - end[0]) - SHELF) < 0.0015


def views_in(wide: list[LineString], frame: BaseGeometry | None) -> tuple[BaseGeometry, ...]:
    """Hulls of lines that lie close together or inside one another; not of rules that run up to the frame."""
    near = unary_union([line.buffer(APART / 2) for line in wide])
    tree = STRtree(wide)
    hulls = []
    for part in getattr(near, "geoms", [near]):
        lines = [wide[k] for k in tree.query(part, predicate="contains")]
        hulls.append(unary_union(lines).convex_hull)
    while True:
        joined = unary_union([hull for hull in hulls if hull.area])
        merged = [part.convex_hull for part in getattr(joined, "geoms", [joined]) if not part.is_empty]
        if len(merged) == len(hulls):
            break
        hulls = merged
    return tuple(hull for hull in hulls if frame is None or frame.boundary.distance(hull) > 1.0)


def faults(svg: str) -> list[str]:
    """What touches what: text on text, text on a stroke, text out of the frame, a leader over another view."""
    picture = read(svg)
    found = []
    tree = STRtree([text.ink for text in picture.texts])
    for i, text in enumerate(picture.texts):
        for j in tree.query(text.ink, predicate="intersects"):
            if i < j:
                found.append(f"'{text.words}' on '{picture.texts[j].words}'")
        if picture.frame is not None and not picture.frame.contains(text.ink):
            found.append(f"'{text.words}' leaves the frame")
    for stroke in picture.strokes:
        found += [f"'{picture.texts[j].words}' crossed" for j in tree.query(stroke, predicate="intersects")]
    return [*found, *strayed(picture)]


def strayed(picture: Picture) -> list[str]:
    """Leaders that run over a view other than that in which they point at something, or whose text stands on one."""
    found = []
    for leader in picture.leaders:
        tip, end = Point(leader.coords[0]), Point(leader.coords[-1])
        text = min(picture.texts, key=lambda text: text.ink.distance(end))
        home = min(picture.views, key=lambda view: (view.distance(tip), view.area), default=None)
        others = [view for view in picture.views if view is not home]
        if any(view.intersection(leader).length > 0.1 or view.intersects(text.ink) for view in others):
            found.append(f"leader of '{text.words}' over another view")
    return found


@lru_cache(maxsize=2)
def font(bold: bool) -> TTFont:
    name = "SourceSansPro-Semibold.ttf" if bold else "SourceSansPro-Regular.ttf"
    return TTFont(str(files("font_source_sans_pro") / "files" / name))


@cache
def glyph(letter: str, bold: bool) -> tuple[float, tuple[float, float, float, float] | None]:
    """(advance, bounds) in parts of the size."""
    source = font(bold)
    name = source.getBestCmap()[ord(letter)]
    glyphs = source.getGlyphSet()
    pen = BoundsPen(glyphs)
    glyphs[name].draw(pen)
    em = source["head"].unitsPerEm
    return glyphs[name].width / em, tuple(v / em for v in pen.bounds) if pen.bounds else None


def _text(element: ElementTree.Element) -> Text:
    x, y = float(element.get("x", "0")), float(element.get("y", "0"))
    bold = element.get("font-weight") == "600"
    pieces = []
    runs = element.findall(f"{SVG}tspan") or [element]
    at, base = x, y
    for run in runs:
        size = float(run.get("font-size", "0"))
        base += float(run.get("dy", "0"))
        for letter in run.text or "":
            advance, bounds = glyph(letter, bold)
            if bounds:
                pieces.append(
                    box(at + bounds[0] * size, base - bounds[3] * size, at + bounds[2] * size, base - bounds[1] * size)
                )
            at += advance * size
    turned = re.match(r"rotate\(([-\d.]+) ([-\d.]+) ([-\d.]+)\)", element.get("transform", ""))
    ink = unary_union(pieces).envelope
    if turned:
        angle, cx, cy = (float(v) for v in turned.groups())
        ink = affinity.rotate(ink, angle, origin=(cx, cy))
    words = "".join(run.text or "" for run in runs)
    return Text(words, ink, max(float(run.get("font-size", "0")) for run in runs), element.get("data-mark", ""))


def _shape(element: ElementTree.Element) -> LineString:
    if element.tag == f"{SVG}circle":
        cx, cy, r = (float(element.get(name, "0")) for name in ("cx", "cy", "r"))
        return LineString(Point(cx, cy).buffer(r, quad_segs=24).exterior.coords)
    return LineString(path_points(element.get("d", "")))


def _area(element: ElementTree.Element) -> BaseGeometry:
    return Polygon(_shape(element).coords).buffer(0)


def path_points(data: str) -> list[tuple[float, float]]:
    """Points along the first ring of path data, arcs in steps of 3 degrees."""
    points: list[tuple[float, float]] = []
    for command, numbers in re.findall(r"([MLAZ])([^MLAZ]*)", data):
        values = [float(v) for v in re.findall(r"-?[\d.]+", numbers)]
        if command == "M" and points:
            break
        if command in "ML":
            points.append((values[0], values[1]))
        elif command == "A":
            points += arc_points(points[-1], values)
        elif command == "Z":
            points.append(points[0])
    return points


def arc_points(start: tuple[float, float], values: list[float]) -> list[tuple[float, float]]:
    """SVG 1.1 appendix F.6.5, circles only."""
    r, large, sweep, end = values[0], bool(values[3]), bool(values[4]), (values[5], values[6])
    x1, y1 = (start[0] - end[0]) / 2, (start[1] - end[1]) / 2
    r = max(r, math.hypot(x1, y1))
    root = math.sqrt(max(0.0, (r * r - x1 * x1 - y1 * y1) / (x1 * x1 + y1 * y1)))
    sign = 1 if large != sweep else -1
    cx, cy = sign * root * y1 + (start[0] + end[0]) / 2, -sign * root * x1 + (start[1] + end[1]) / 2
    a, b = math.atan2(start[1] - cy, start[0] - cx), math.atan2(end[1] - cy, end[0] - cx)
    turn = (b - a) % (2 * math.pi) if sweep else -((a - b) % (2 * math.pi))
    count = max(2, math.ceil(abs(turn) / math.radians(3)))
    return [
        (cx + r * math.cos(a + turn * k / count), cy + r * math.sin(a + turn * k / count)) for k in range(1, count + 1)
    ]


def lengths(svg: str) -> list[float]:
    """Lengths of all straight pieces, for tests of arrowheads and gaps."""
    root = ElementTree.fromstring(svg)
    found = []
    for path in root.iter(f"{SVG}path"):
        points = path_points(path.get("d", ""))
        found += [math.dist(a, b) for a, b in pairwise(points)]
    return found
