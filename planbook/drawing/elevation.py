"""Pictures of the assembly with hidden lines removed: from a side, or isometric from a corner."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import Final

import shapely
from shapely.geometry import LineString
from shapely.geometry.base import BaseGeometry

from planbook.drawing.balloons import MARGIN, balloons
from planbook.drawing.curves import XY
from planbook.drawing.facing import Facing
from planbook.drawing.hidden import (
    NATURAL,
    SIDES,
    Chain,
    Kind,
    Scene,
    Sight,
    isometric,
    lines_of,
    regions_of,
    scene_of,
)
from planbook.drawing.ink import Box
from planbook.drawing.recording import Drawing, LineTo, Pen, Primitive, Pt, Stroke
from planbook.drawing.scale_bar import HEIGHT as BAR_HEIGHT
from planbook.drawing.scale_bar import scale_bar
from planbook.drawing.tracing import Setting
from planbook.shape.model import Component
from planbook.shape.solids import mesh_of_component
from planbook.source.models.figures import Corner

_PAD: Final = 1.0
_MOST_SCALE: Final = 1.0
_BAR: Final = 40.0
_LEAST_SEEN: Final = 0.6
"""Square millimetres on paper under which nobody sees a component."""
_LEAST_LINE: Final = 0.1
"""Millimetres on paper under which nobody sees a line."""
_SMOOTH: Final = 0.005
"""Points of polylines nearer than this (mm on paper) to a straight line are left out."""
_SKIN: Final = 0.05
"""Millimetres in the world by which a tint is taken wider where dashed lines keep out of it."""
_PENS: Final = {Kind.OUTLINE: Pen.EDGE, Kind.JOINT: Pen.INNER, Kind.INNER: Pen.INNER}


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

    `side`: front, rear, left, right, top or below. Components in `emphasise` are tinted with black edges, and dashed
    where something covers them; all others then turn grey. `labels` gives part references by component name. The
    drawing's height is what is really used.
    """
    chosen = [c for c in components if show is None or c.name in show]
    return _draw(chosen, SIDES[side], 1.0, frozenset(emphasise), labels or {}, (width, height), units, title)


def draw_isometric(
    components: Sequence[Component],
    corner: str,
    emphasise: Collection[str] = (),
    show: Collection[str] | None = None,
    labels: Mapping[str, str] | None = None,
    width: float = 160.0,
    height: float = 100.0,
    units: str = "millimetre",
    title: str = "",
) -> Drawing:
    """The same from over a corner: front_left, front_right, rear_left or rear_right.

    Lengths along the three axes of the assembly are true to the scale of the bar (ISO 5456-3); others are not.
    """
    chosen = [c for c in components if show is None or c.name in show]
    facing = isometric(Corner(corner))
    return _draw(chosen, facing, NATURAL, frozenset(emphasise), labels or {}, (width, height), units, title)


def _draw(
    components: Sequence[Component],
    facing: Facing,
    enlarged: float,
    emphasise: frozenset[str],
    labels: Mapping[str, str],
    room: tuple[float, float],
    units: str,
    title: str,
) -> Drawing:
    """`enlarged`: a length along an axis of the assembly over the same as projected."""
    scene = scene_of({component.name: mesh_of_component(component) for component in components}, facing)
    if not scene.names:
        return Drawing(room[0], BAR_HEIGHT, (), title)
    margin = MARGIN if labels else _PAD
    setting, picture = _setting(scene.box, room, margin, enlarged)
    strong = emphasise & set(scene.names)
    drawn = list(_picture(scene, setting, strong, grey=bool(emphasise)))
    bottom = picture.bottom + margin + BAR_HEIGHT - 1.5
    drawn += scale_bar(setting.scale / enlarged, _BAR, picture.left, bottom, units)
    if labels:
        drawn += balloons(_targets(scene, labels, setting), picture)
    return Drawing(room[0], bottom + 1.5, tuple(drawn), title)


def _setting(
    bounds: tuple[float, float, float, float], room: tuple[float, float], margin: float, enlarged: float
) -> tuple[Setting, Box]:
    """The scale that fills the room, and the picture's box on paper."""
    x0, y0, x1, y1 = bounds
    across, down = room[0] - 2 * margin, room[1] - 2 * margin - BAR_HEIGHT
    scale = min(across / max(x1 - x0, 1e-6), down / max(y1 - y0, 1e-6), _MOST_SCALE * enlarged)
    left = (room[0] - (x1 - x0) * scale) / 2
    box = Box(left, margin, left + (x1 - x0) * scale, margin + (y1 - y0) * scale)
    return Setting(scale, left - x0 * scale, margin + y1 * scale), box


def _picture(scene: Scene, setting: Setting, strong: frozenset[str], *, grey: bool) -> Iterator[Primitive]:
    """Tints, then what is grey, then dashed lines, then inner edges, then outlines: the heavier on top."""
    regions = [region for _, region in sorted(regions_of(scene, strong).items())] if strong else []
    yield from (_filled(piece, setting) for region in regions for piece in _polygons(region))
    chains = [chain for chain in lines_of(scene, strong, strong) if _length(chain) * setting.scale > _LEAST_LINE]
    seen = [chain for chain in chains if chain.sight is Sight.SEEN]
    yield from (_traced(c.points, setting, Pen.FAINT) for c in seen if grey and c.component not in strong)
    if strong:
        hidden = (c for c in chains if c.component in strong and c.sight is Sight.COVERED and c.kind is not Kind.INNER)
        yield from _dashed(hidden, shapely.union_all(regions), setting)
    black = [(_pen(chain, strong), chain) for chain in seen if not grey or chain.component in strong]
    for pen in (Pen.INNER, Pen.EDGE):
        yield from (_traced(chain.points, setting, pen) for its, chain in black if its is pen)


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


def _filled(piece: shapely.Polygon, setting: Setting) -> Stroke:
    """A tinted polygon with its holes."""
    rings = [[setting(XY(*p)) for p in ring.coords[:-1]] for ring in (piece.exterior, *piece.interiors)]
    first, *holes = (Stroke(r[0], tuple(map(LineTo, r[1:])), None, closed=True, fill="tint") for r in rings)
    return Stroke(first.start, first.steps, None, True, "tint", tuple(holes))


def _polygons(region: BaseGeometry) -> Iterator[shapely.Polygon]:
    for piece in getattr(region, "geoms", (region,)):
        if isinstance(piece, shapely.Polygon) and not piece.is_empty:
            yield piece


def _targets(scene: Scene, labels: Mapping[str, str], setting: Setting) -> dict[str, Pt]:
    """For each text the middle of the largest piece that is really seen of a component so labelled.

    A component that nothing is seen of gets no balloon: its leader would point at another.
    """
    least = _LEAST_SEEN / setting.scale**2
    best: dict[str, tuple[float, Pt]] = {}
    for name, region in regions_of(scene, [name for name in scene.names if labels.get(name)], least).items():
        text = labels[name]
        for piece in _polygons(region):
            spot = piece.centroid if piece.contains(piece.centroid) else piece.representative_point()
            if piece.area > max(least, best.get(text, (0.0,))[0]):
                best[text] = piece.area, setting(XY(spot.x, spot.y))
    return {text: spot for text, (_, spot) in best.items()}
