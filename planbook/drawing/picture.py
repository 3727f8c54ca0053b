"""A picture of a scene on paper: tints, lines, scale bar, part references; the whole, or a cropped piece of it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final

import shapely
from shapely.geometry import LineString
from shapely.geometry.base import BaseGeometry

from planbook.drawing.balloons import MARGIN, balloons
from planbook.drawing.curves import XY
from planbook.drawing.footprint import footprint
from planbook.drawing.hidden import Chain, Kind, Scene, Sight, lines_of, regions_of, tones_of
from planbook.drawing.ink import Box
from planbook.drawing.lines import stroke
from planbook.drawing.pointing import Piece, spots_of
from planbook.drawing.recording import Circle, Drawing, LineTo, Pen, Primitive, Stroke
from planbook.drawing.scale_bar import HEIGHT as BAR_HEIGHT
from planbook.drawing.scale_bar import scale_bar
from planbook.drawing.tracing import Setting

_PAD: Final = 1.0
_MOST_SCALE: Final = 1.0
BAR: Final = 40.0
_LEAST_TINT: Final = 0.05
"""The same of a piece of a tint: what faces that touch leave between them. Dashes would keep out of it."""
_LEAST_LINE: Final = 0.1
"""Millimetres on paper under which nobody sees a line."""
_SMOOTH: Final = 0.005
"""Points of polylines nearer than this (mm on paper) to a straight line are left out."""
_SKIN: Final = 0.05
"""Millimetres in the world by which a tint is taken wider where dashed lines keep out of it."""
_PENS: Final = {Kind.OUTLINE: Pen.EDGE, Kind.JOINT: Pen.INNER, Kind.INNER: Pen.INNER}


Bounds = tuple[float, float, float, float]
"""Least x, least y, greatest x, greatest y on the plane of view."""


@dataclass(frozen=True, slots=True)
class Canvas:
    """What any picture of the assembly is drawn on: at most `width` by `height` millimetres.

    `labels` gives part references by component name; `units` are those of the scale bar; `title` is its words.
    """

    width: float = 160.0
    height: float = 100.0
    labels: Mapping[str, str] = field(default_factory=dict)
    units: str = "millimetre"
    title: str = ""


@dataclass(frozen=True, slots=True)
class Look:
    """How a scene is shown. `enlarged`: a length along an axis of the assembly over the same as projected.

    `crop` is what is shown of the plane of view, all without it; `traces` are narrow lines besides the scene's own.
    `shaded`: faces in tones.
    """

    canvas: Canvas
    enlarged: float = 1.0
    emphasise: frozenset[str] = frozenset()
    crop: Bounds | None = None
    traces: Sequence[Piece] = ()
    shaded: bool = False


def draw_scene(scene: Scene, look: Look) -> Drawing:
    """The picture; its height is what is really used."""
    canvas = look.canvas
    if not scene.names:
        return Drawing(canvas.width, BAR_HEIGHT, (), canvas.title)
    margin = MARGIN if canvas.labels else _PAD
    bounds = look.crop or scene.box
    setting, picture = setting_of(bounds, (canvas.width, canvas.height), margin, look.enlarged)
    window = shapely.box(*bounds) if look.crop else None
    strong = look.emphasise & set(scene.names)
    drawn = list(_shades(scene, setting, window)) if look.shaded else []
    drawn += list(drawn_scene(scene, setting, strong, window, grey=bool(look.emphasise)))
    drawn += (stroke(setting(XY(*a)), setting(XY(*b))) for a, b in look.traces)
    if window is not None:
        drawn.append(_traced([XY(*p) for p in window.exterior.coords], setting, Pen.GRID))
    spots = spots_of(scene, canvas.labels, setting, window, look.traces) if canvas.labels else {}
    marks = balloons(spots, picture, footprint(drawn).strokes) if spots else ()
    unseen = {label for name, label in canvas.labels.items() if name in scene.names and label not in spots}
    below = any(isinstance(mark, Circle) and mark.centre.y > picture.bottom for mark in marks)
    bottom = picture.bottom + (MARGIN if below else _PAD) + BAR_HEIGHT - 1.5
    drawn += scale_bar(setting.scale / look.enlarged, BAR, picture.left, bottom, canvas.units)
    drawn += marks
    return Drawing(canvas.width, bottom + 1.5, tuple(drawn), canvas.title, unseen=tuple(sorted(unseen)))


def setting_of(
    bounds: Bounds, room: tuple[float, float], margin: float, enlarged: float, *, bar: bool = True
) -> tuple[Setting, Box]:
    """The scale that fills the room, less that for a `bar`, and the picture's box on paper."""
    x0, y0, x1, y1 = bounds
    across, down = room[0] - 2 * margin, room[1] - 2 * margin - (BAR_HEIGHT if bar else 0.0)
    scale = min(across / max(x1 - x0, 1e-6), down / max(y1 - y0, 1e-6), _MOST_SCALE * enlarged)
    left = (room[0] - (x1 - x0) * scale) / 2
    box = Box(left, margin, left + (x1 - x0) * scale, margin + (y1 - y0) * scale)
    return Setting(scale, left - x0 * scale, margin + y1 * scale), box


def on_paper(scene: Scene, setting: Setting) -> Iterator[Primitive]:
    """The visible lines of a scene by themselves."""
    yield from drawn_scene(scene, setting, frozenset(), grey=False)


def drawn_scene(
    scene: Scene,
    setting: Setting,
    strong: frozenset[str],
    window: shapely.Polygon | None = None,
    *,
    grey: bool,
) -> Iterator[Primitive]:
    """Tints, then what is grey, then dashed lines, then inner edges, then outlines: the heavier on top."""
    regions = sorted(regions_of(scene, strong).items()) if strong else []
    least = _LEAST_TINT / setting.scale**2
    tints = [piece for _, each in regions for piece in polygons_of(_within(each, window)) if piece.area >= least]
    yield from (filled(piece, setting) for piece in tints)
    lines = lines_of(scene, strong, strong)
    whole = (piece for chain in lines for piece in _cropped(chain, window)) if window else lines
    chains = [chain for chain in whole if _length(chain) * setting.scale > _LEAST_LINE]
    seen = [chain for chain in chains if chain.sight is Sight.SEEN]
    yield from (_traced(c.points, setting, Pen.FAINT) for c in seen if grey and c.component not in strong)
    if strong:
        hidden = (c for c in chains if c.component in strong and c.sight is Sight.COVERED and c.kind is not Kind.INNER)
        yield from _dashed(hidden, shapely.union_all(tints), setting)
    black = [(_pen(chain, strong), chain) for chain in seen if not grey or chain.component in strong]
    for pen in (Pen.INNER, Pen.EDGE):
        yield from (_traced(chain.points, setting, pen) for its, chain in black if its is pen)


def _shades(scene: Scene, setting: Setting, window: shapely.Polygon | None) -> Iterator[Primitive]:
    for tone, region in tones_of(scene).items():
        yield from (filled(piece, setting, f"tone {tone}") for piece in polygons_of(_within(region, window)))


def _within(region: BaseGeometry, window: shapely.Polygon | None) -> BaseGeometry:
    return region if window is None else region.intersection(window)


def _cropped(chain: Chain, window: shapely.Polygon) -> Iterator[Chain]:
    """The pieces of a line in a window."""
    inside = LineString(chain.points).intersection(window)
    for piece in getattr(inside, "geoms", (inside,)):
        if isinstance(piece, LineString) and not piece.is_empty:
            yield Chain(chain.component, chain.kind, chain.sight, tuple(XY(*p) for p in piece.coords))


def _pen(chain: Chain, strong: frozenset[str]) -> Pen:
    """What is emphasised has its whole border heavy, joints too."""
    return Pen.EDGE if chain.component in strong and chain.kind is Kind.JOINT else _PENS[chain.kind]


def _dashed(chains: Iterable[Chain], tinted: BaseGeometry, setting: Setting) -> Iterator[Stroke]:
    """Borders of emphasised components behind others; not those behind one that is emphasised too."""
    free = tinted.buffer(_SKIN)
    for chain in chains:
        hidden = LineString(chain.points).difference(free)
        for piece in getattr(hidden, "geoms", (hidden,)):
            if piece.length * setting.scale > _LEAST_LINE:
                yield _traced([XY(*p) for p in piece.coords], setting, Pen.HIDDEN)


def _length(chain: Chain) -> float:
    return sum(math.dist(a, b) for a, b in zip(chain.points, chain.points[1:], strict=False))


def _traced(points: Sequence[XY], setting: Setting, pen: Pen) -> Stroke:
    """A polyline on paper; one that comes back to its start is closed."""
    plain = shapely.get_coordinates(LineString(points).simplify(_SMOOTH / setting.scale)).tolist()
    closed = len(plain) > 3 and plain[0] == plain[-1]
    first, *steps = (setting(XY(x, y)) for x, y in (plain[:-1] if closed else plain))
    return Stroke(first, tuple(map(LineTo, steps)), pen, closed)


def filled(piece: shapely.Polygon, setting: Setting, fill: str = "tint") -> Stroke:
    """A filled polygon with its holes."""
    rings = [[setting(XY(*p)) for p in ring.coords[:-1]] for ring in (piece.exterior, *piece.interiors)]
    first, *holes = (Stroke(r[0], tuple(map(LineTo, r[1:])), None, closed=True, fill=fill) for r in rings)
    return Stroke(first.start, first.steps, None, True, fill, tuple(holes))


def polygons_of(region: BaseGeometry) -> Iterator[shapely.Polygon]:
    """Those of which a region is made."""
    for piece in getattr(region, "geoms", (region,)):
        if isinstance(piece, shapely.Polygon) and not piece.is_empty:
            yield piece
