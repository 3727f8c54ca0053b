"""Where the names of a chart's limits stand: beside their levels, on no curve, and led to their level where need be.

All in points, x to the right and y up.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Final

from shapely import LineString, Polygon, box

_PAD: Final = 1.5
"""Between a name and what it keeps off."""
_APART: Final = 6.0
"""Between two names side by side."""
_BESIDE: Final = 3.0
"""From a level to a name that stands right on it or under it, and so needs no leader."""
_STEP: Final = 3.0
_COLUMNS: Final = 40
_ROOM: Final = 24.0
"""More room than this to the next curve makes a place no better."""
_HIDES, _CROSSES, _FAR, _FREE = 1000.0, 60.0, 1.0, 0.2
"""What weighs against a place: each thing that it hides, each curve that its leader crosses, each point between name
and level; and what weighs for it, each point of room."""


@dataclass(frozen=True, slots=True)
class Name:
    """What a limit's name takes, and its level."""

    width: float
    height: float
    level: float


@dataclass(frozen=True, slots=True)
class Spot:
    """The lower left corner of a name, and the x of its leader; None where it stands right beside its level."""

    x: float
    y: float
    leader: float | None = None


def place_names(frame: Polygon, curves: Sequence[LineString], names: Sequence[Name]) -> tuple[Spot, ...]:
    """A place within the frame for each name, in their order; earlier ones are kept off by later ones.

    Where no place is free it is the one that hides least.
    """
    left, _, right, _ = frame.bounds
    levels = [LineString([(left, name.level), (right, name.level)]) for name in names]
    taken: list[LineString | Polygon] = []
    spots: list[Spot] = []
    lines = [name.level + _BESIDE for name in names]
    for at, name in enumerate(names):
        others = levels[:at] + levels[at + 1 :]
        spot = min(
            _candidates(frame, name, lines),
            key=lambda each: _weight(each, name, curves, others, taken),
        )
        spots.append(spot)
        taken += [_covered(spot, name, _APART), *([_leader(spot, name)] if spot.leader is not None else [])]
    return tuple(spots)


def _candidates(frame: Polygon, name: Name, lines: Sequence[float]) -> Iterator[Spot]:
    """`lines` are heights on which names stand in line with others."""
    left, low, right, high = frame.bounds
    columns = [left + _PAD + step / _COLUMNS * (right - left - name.width - 2 * _PAD) for step in range(_COLUMNS + 1)]
    above, under = name.level + _BESIDE, name.level - _BESIDE - name.height
    for x in columns:
        yield from (Spot(x, y) for y in (above, under) if low <= y <= high - name.height)
    rows = [low + _PAD + _STEP * step for step in range(int((high - low - name.height) / _STEP))]
    for x, y in product(columns, [*lines, *rows]):
        if low <= y <= high - name.height and (y > above or y < under):
            yield Spot(x, y, x + name.width / 2)


def _weight(
    spot: Spot,
    name: Name,
    curves: Sequence[LineString],
    levels: Sequence[LineString],
    taken: Sequence[LineString | Polygon],
) -> float:
    covered = _covered(spot, name)
    hidden = sum(covered.intersects(each) for each in (*curves, *levels, *taken))
    room = min((covered.distance(curve) for curve in curves), default=_ROOM)
    weight = float(_HIDES * hidden - _FREE * min(room, _ROOM))
    if spot.leader is None:
        return weight
    leader = _leader(spot, name)
    crossed = sum(leader.crosses(curve) for curve in curves)
    through = sum(leader.intersects(each) for each in taken)
    return weight + float(_FAR * leader.length + _CROSSES * crossed + _HIDES * through)


def _covered(spot: Spot, name: Name, beside: float = _PAD) -> Polygon:
    return box(spot.x - beside, spot.y - _PAD, spot.x + name.width + beside, spot.y + name.height + _PAD)


def _leader(spot: Spot, name: Name) -> LineString:
    """From the edge of the name that is nearer to its level, down or up to it."""
    edge = spot.y - _PAD if spot.y > name.level else spot.y + name.height + _PAD
    return LineString([(spot.leader, edge), (spot.leader, name.level)])
