"""Angles: an arc with arrowheads about the corner, its legs, and the text level beside it (ISO 129-1).

As with all dimensions, a way to write one is taken only if no lettering is touched.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from planbook.drawing.facing import Facing
from planbook.drawing.ink import CLEAR, Box, Segment, segments_of
from planbook.drawing.ledger import Ledger
from planbook.drawing.lines import (
    ARROW,
    GAP,
    LETTER,
    OVERSHOOT,
    arrowhead,
    belonging,
    letter,
    lettering_box,
    line_width,
    stroke,
)
from planbook.drawing.recording import Anchor, ArcTo, Pen, Primitive, Pt, Stroke
from planbook.drawing.solid import XYZ
from planbook.drawing.tracing import Setting
from planbook.drawing.wording import Line, linear_lines
from planbook.statement.model import DimensionStated

MM: Final = 1e-6
_LEAST: Final = 8.0
"""The smallest arc that is drawn, in millimetres on paper."""
_FURTHER: Final = (5.0, 10.0, 15.0, 20.0, 27.0, 35.0, 43.0, 52.0, 62.0, 74.0, -5.0, -10.0, -15.0, -20.0, -27.0)
"""How far outside its legs' feet an arc may run; below zero inside."""
_FURTHER_COST: Final = 0.15
_OFF: Final = 1.4
"""From the arc to its text."""
_TAIL: Final = ARROW + 3.0
_PLACES: Final = (0.5, 0.35, 0.65, 0.2, 0.8)
_PITCH: Final = 4.4
_RISE: Final = 0.4
_DROP: Final = 0.8
"""Room over capitals and under the last baseline, for brackets and tails."""
_CROSSING_COST: Final = 1.0
_INSIDE_COST: Final = 1.0
_HIDDEN_COST: Final = 8.0
"""Of an arc that runs on an outline, where nobody would see it."""
_NEAR: Final = 1e-3
_ALONG: Final = (0.1, 0.3, 0.5, 0.7, 0.9)
_THICK: Final = 0.3
_TRIALS: Final = 4
"""So many orders more are tried where one finds no room."""
_APART: Final = 4.0
"""Between two arcs about one corner, in millimetres."""


@dataclass(frozen=True, slots=True)
class Corner:
    """An angle on paper: its corner, the directions of its legs (radians, y upwards), how far they reach."""

    at: Pt
    begin: float
    sweep: float
    reach: float
    lines: tuple[Line, ...]
    key: str

    def place(self, radius: float, share: float) -> Pt:
        """A place of an arc, `share` of the way from its first leg to its second; beyond them outside 0 to 1."""
        turn = self.begin + self.sweep * share
        return Pt(self.at.x + radius * math.cos(turn), self.at.y - radius * math.sin(turn))


@dataclass(frozen=True, slots=True)
class _Way:
    """An arc that may run on past its legs, the middle of the text's first baseline, and the text's box."""

    radius: float
    inside: bool
    tails: tuple[bool, bool]
    text: Pt
    box: Box
    cost: float


def is_angle(dimension: DimensionStated) -> bool:
    """Whether it is drawn as an arc between two legs."""
    return dimension.kind == "angle" and len(dimension.points) > 2


def corner_of(dimension: DimensionStated, facing: Facing, setting: Setting) -> Corner:
    """An angle as a view shows it."""
    at, first, second = (setting(facing.flat(XYZ(*(c * MM for c in point)))) for point in dimension.points[:3])
    begin, end = (math.atan2(at.y - leg.y, leg.x - at.x) for leg in (first, second))
    sweep = math.radians(dimension.nominal)
    # A view that shows the face mirrored sees the angle turn the other way.
    if abs(math.remainder(begin + sweep - end, math.tau)) > abs(math.remainder(begin - sweep - end, math.tau)):
        sweep = -sweep
    reach = max(math.dist(at, first), math.dist(at, second))
    return Corner(at, begin, sweep, reach, linear_lines(dimension), dimension.id)


def corners_of(dimension: DimensionStated, facing: Facing, setting: Setting) -> tuple[Corner, ...]:
    """The corners at which an angle may be drawn: its own, then those of the equal ones that it speaks for."""
    places = (dimension.points, *(other.points for other in dimension.also))
    return tuple(corner_of(replace(dimension, points=points), facing, setting) for points in places)


def place_angles(
    angles: Sequence[Sequence[Corner]], strokes: Sequence[Primitive], ledger: Ledger, kept: Sequence[Segment] = ()
) -> tuple[str, ...]:
    """Enter angles in a view's ledger, each at the first of its corners with room; the keys of those without any.

    No lettering stands on lines that are `kept` for others.
    The narrowest first; where one then finds no room, those that found none go first, and so on a few times.
    """
    if not angles:
        return ()
    walls = segments_of(strokes, hatching=True)
    queue = sorted(angles, key=lambda each: (abs(each[0].sweep), each[0].key))
    best = _planned(queue, walls, ledger.copy(kept))
    order, again = queue, best
    for _ in range(_TRIALS):
        if len(best) == len(queue):
            break
        found = {corner.key for corner, _ in again}
        order = sorted(order, key=lambda each: each[0].key in found)
        again = _planned(order, walls, ledger.copy(kept))
        best = max(best, again, key=len)
    for corner, way in best:
        _enter(corner, way, walls, ledger)
    drawn = {corner.key for corner, _ in best}
    return tuple(each[0].key for each in queue if each[0].key not in drawn)


def _planned(queue: Sequence[Sequence[Corner]], walls: Sequence[Segment], trial: Ledger) -> list[tuple[Corner, _Way]]:
    """Where angles find room one after the other in a ledger that is only tried on."""
    placed: list[tuple[Corner, _Way]] = []
    for corners in queue:
        ways = ((corner, _cheapest(corner, walls, trial, placed)) for corner in corners)
        found = next(((corner, way) for corner, way in ways if way), None)
        if found:
            placed.append(found)
            _enter(*found, walls, trial)
    return placed


def _cheapest(
    corner: Corner, walls: Sequence[Segment], ledger: Ledger, placed: Sequence[tuple[Corner, _Way]]
) -> _Way | None:
    best: _Way | None = None
    least = float("inf")
    for way in _ways(corner):
        if way.cost >= least or any(_runs_along(corner, way, *other) for other in placed):
            continue
        own = segments_of(_arc(corner, way, walls))
        if _touches(way.box.grown(CLEAR), (*own, *walls, *ledger.strokes), ledger.boxes):
            continue
        if any(segment.meets(box.grown(CLEAR)) for segment in own for box in ledger.boxes):
            continue
        price = way.cost + _CROSSING_COST * sum(a.crosses(b) for a in own for b in ledger.lines)
        price += _HIDDEN_COST * _on_outline(corner, way, walls)
        if price < least:
            best, least = way, price
    return best


def _runs_along(corner: Corner, way: _Way, other: Corner, taken: _Way) -> bool:
    """Whether two arcs about one corner would run so near one another that they could be taken for one."""
    if math.dist(corner.at, other.at) > _APART or abs(way.radius - taken.radius) > _APART:
        return False
    tails = (sum(way.tails) + sum(taken.tails)) * _TAIL / min(way.radius, taken.radius)
    middles = (each.begin + each.sweep / 2 for each in (corner, other))
    between = abs(math.remainder(next(middles) - next(middles), math.tau))
    return between < (abs(corner.sweep) + abs(other.sweep)) / 2 + tails


def _on_outline(corner: Corner, way: _Way, walls: Sequence[Segment]) -> bool:
    """Whether most of an arc lies on lines of the part, as on the rim of a disc about the corner."""
    places = [corner.place(way.radius, share) for share in _ALONG]
    hidden = sum(any(_lies_on(place, wall, _THICK) for wall in walls) for place in places)
    return 2 * hidden > len(places)


def _touches(box: Box, strokes: Sequence[Segment], boxes: Sequence[Box]) -> bool:
    return any(box.meets(other) for other in boxes) or any(segment.meets(box) for segment in strokes)


def _ways(corner: Corner) -> Iterator[_Way]:
    width = max(line_width(line) for line in corner.lines)
    height = _RISE + LETTER + _PITCH * (len(corner.lines) - 1) + _DROP
    for further in _FURTHER:
        radius = corner.reach + further
        if radius < _LEAST:
            continue
        length = abs(corner.sweep) * radius
        inside = length >= 2 * ARROW + 1.5
        beyond = (_TAIL + 1.0) / length
        for share, outwards, cost in (
            *((share, 1.0, 0.3 * k) for k, share in enumerate(_PLACES)),
            *((share, -1.0, 0.8 + 0.3 * k) for k, share in enumerate(_PLACES)),
            *((share, 0.0, 1.6) for share in (-beyond, 1.0 + beyond)),
        ):
            if not inside and outwards:
                continue
            middle = _beside(corner, radius, share, outwards, width, height)
            box = Box(middle.x - width / 2, middle.y - height / 2, middle.x + width / 2, middle.y + height / 2)
            price = _FURTHER_COST * abs(further) + cost + (_INSIDE_COST if further < 0 else 0.0)
            tails = (not inside or share < 0, not inside or share > 1)
            yield _Way(radius, inside, tails, Pt(middle.x, box.top + _RISE + LETTER), box, price)


def _beside(corner: Corner, radius: float, share: float, outwards: float, width: float, height: float) -> Pt:
    """The middle of lettering outside (1) or inside (-1) the arc at a place, or at the end of its tail (0)."""
    on = corner.place(radius, share)
    out = (on.x - corner.at.x) / radius, (on.y - corner.at.y) / radius
    if outwards:
        # As far as the box reaches back in that direction: then no corner of it lies on the other side of the tangent.
        way = out[0] * outwards, out[1] * outwards
        room = width / 2 * abs(way[0]) + height / 2 * abs(way[1])
    else:
        turn = math.copysign(1.0, corner.sweep) * (1.0 if share > 1 else -1.0)
        way = out[1] * turn, -out[0] * turn
        room = min(width / 2 / max(abs(way[0]), 1e-9), height / 2 / max(abs(way[1]), 1e-9))
    room += _OFF
    return Pt(on.x + way[0] * room, on.y + way[1] * room)


def _arc(corner: Corner, way: _Way, walls: Sequence[Segment]) -> tuple[Stroke, ...]:
    """The legs and the arc, with tails where its arrowheads or its text stand outside."""
    before, after = (_TAIL / way.radius / abs(corner.sweep) * tail for tail in way.tails)
    start, end = corner.place(way.radius, -before), corner.place(way.radius, 1.0 + after)
    turn = abs(corner.sweep) * (1.0 + before + after)
    step = ArcTo(end, way.radius, turn > math.pi, corner.sweep < 0)
    legs = (_leg(corner, way.radius + OVERSHOOT, share, walls) for share in (0.0, 1.0))
    return Stroke(start, (step,), Pen.DIMENSION), *legs


def _leg(corner: Corner, end: float, share: float, walls: Sequence[Segment]) -> Stroke:
    """From the corner; where an edge of the part runs along it, only from that edge's end on."""
    middle = corner.place(corner.reach / 2, share)
    along = any(_lies_on(middle, wall) and _lies_on(corner.place(corner.reach / 3, share), wall) for wall in walls)
    start = corner.place(min(corner.reach + GAP, end - GAP), share) if along else corner.at
    return stroke(start, corner.place(end, share))


def _lies_on(p: Pt, wall: Segment, near: float = _NEAR) -> bool:
    """Whether a place is on a line, or beside it so that the way by the place is longer by less than `near`."""
    (a, b), length = wall, math.dist(wall.a, wall.b)
    return abs(math.dist(a, p) + math.dist(p, b) - length) < near


def _enter(corner: Corner, way: _Way, walls: Sequence[Segment], ledger: Ledger) -> None:
    drawn = _arc(corner, way, walls)
    head = ARROW / way.radius / abs(corner.sweep) * (1.0 if way.inside else -1.0)
    heads = (
        arrowhead(corner.place(way.radius, 0.0), corner.place(way.radius, head)),
        arrowhead(corner.place(way.radius, 1.0), corner.place(way.radius, 1.0 - head)),
    )
    ledger.primitives += belonging((*drawn, *heads), corner.key)
    for k, line in enumerate(corner.lines):
        label = letter(line, Pt(way.text.x, way.text.y + _PITCH * k), Anchor.MIDDLE)
        ledger.boxes.append(lettering_box(label))
        ledger.primitives += belonging(label, corner.key)
    ledger.strokes += segments_of(drawn)
