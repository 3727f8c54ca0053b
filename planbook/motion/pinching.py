"""Where fingers are caught: surfaces of two components that close on one another as they move.

The least gap of a pair does not tell: a pin that runs along a slot with a millimetre to spare at its sides crushes what
lies at the slot's end. So a finger is tried everywhere: a ball as thick as the thinnest, lying on one of the two. How
far the other is from there, straight ahead, is the clearance at that place of the skin; where that closes through the
band that catches fingers, the two pinch.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from planbook.motion.contact import Solid
from planbook.motion.distance import clearance_ahead
from planbook.motion.facing import ROUNDING
from planbook.motion.paths import Path
from planbook.motion.probing import Probes, probes_on
from planbook.motion.sweep import Sweep
from planbook.shape.solids.surfaces import Flags, Floats, Whole

FINGER_ENTERS: Final = 7.0
"""Millimetres: what stays narrower takes no finger. EN 581-1, furniture: a shear or squeeze point is a distance of more
than 7 mm between moving parts (read in a test house's summary; EN 527-2, desks, has 8 mm)."""
FINGER_FREE: Final = 25.0
"""Millimetres: what stays wider crushes none. ISO 13854, least gap for a finger (from memory); EN 527-2, desks (read in
a test house's summary; EN 581-1 has 18 mm)."""
_BESIDE: Final = 6.0
"""Millimetres from straight ahead within which the other is in front of the finger: edges that pass each other no
further apart shear it.
"""
_CLOSES: Final = 2.0
"""Millimetres by which a clearance must change to count as closing."""


@dataclass(frozen=True, slots=True)
class Pinch:
    """Two components that close on a finger, between two places of the travel, the wider first; gaps in millimetres.

    `wide` is `FINGER_FREE` where it is that or more; `narrow` is no less than the two ever come to one another.
    The travel may be run either way: `closed` may come before `open`.
    """

    one: str
    other: str
    wide: float
    narrow: float
    open: int
    closed: int


def pinches(sweep: Sweep) -> Iterator[Pinch]:
    """The pairs that pinch: for each way of the travel the place that closes most."""
    for pair in sweep.near(FINGER_FREE):
        one, other = sorted(pair, key=lambda name: sweep.solids[name].mesh.area)
        closing = _Closing(sweep.solids[one], sweep.solids[other], sweep.paths[one].seen_from(sweep.paths[other]))
        for (opened, wide, closed, narrow), near in closing.worst():
            least = narrow if near <= narrow else _no_nearer(sweep, pair, narrow, closed)
            yield Pinch(*pair, wide, least, opened, closed)


def _no_nearer(sweep: Sweep, pair: tuple[str, str], narrow: float, place: int) -> float:
    """A clearance at a place, or what the two are apart at least where that is more, as it is when what is in front of
    a finger is not straight ahead. The whole travel is looked at only where the place alone does not tell.
    """
    facing = sweep.facing(*pair)
    if facing is None or facing.gap(place, FINGER_FREE) <= narrow + ROUNDING:
        return narrow
    nearest = sweep.nearest_of(*pair, FINGER_FREE)
    return narrow if nearest is None else max(nearest.gap, narrow)


Close = tuple[int, float, int, float]
"""Place and clearance before it closes, and where it is narrowest."""


@dataclass(frozen=True)
class _Closing:
    """A solid that moves past another; `moving` is its path as seen from that."""

    solid: Solid
    other: Solid
    moving: Path

    def worst(self) -> Iterator[tuple[Close, float]]:
        """For each way of the travel the greatest closing, and how near the two come at least. It is looked for at
        places a finger apart, and then followed through all.
        """
        probes = probes_on(self.solid, self.moving, self.other, FINGER_FREE)
        some = self._clearances(probes, self._places_apart())
        rows = [(int(row), close) for row in some.closing() for close in some.closings(row)]
        for way in (1, -1):
            of_way = [each for each in rows if (each[1][2] - each[1][0]) * way > 0]
            if of_way:
                row, _ = max(of_way, key=lambda each: _weight(each[1]))
                every = self._clearances(probes.those(np.array([row])), list(range(len(self.moving.turn))))
                closes = (each for each in every.closings(0) if (each[2] - each[0]) * way > 0)
                yield from ((each, min(some.near, every.near)) for each in sorted(closes, key=_weight)[-1:])

    def _places_apart(self) -> list[int]:
        """Between which nothing of the solid moves by more than a finger, as far as the steps of the travel let it."""
        steps = self.moving.greatest_steps(self.solid.low, self.solid.high)
        taken, moved = [0], 0.0
        for place, step in enumerate(steps, start=1):
            if moved + step > FINGER_ENTERS and place - 1 > taken[-1]:
                taken.append(place - 1)
                moved = 0.0
            moved += step
        return [*taken, len(steps)] if taken[-1] != len(steps) else taken

    def _clearances(self, probes: Probes, places: Sequence[int]) -> _Clearances:
        skin = self.moving.at(places).moved(probes.points)
        normals = probes.normals @ np.transpose(self.moving.turn[places], (0, 2, 1))
        ahead = np.full(skin.shape[:2], FINGER_FREE)
        free = np.ones(ahead.shape, dtype=bool)
        feet = skin.copy()
        near = _within(skin, self.other.low - FINGER_FREE, self.other.high + FINGER_FREE)
        found = clearance_ahead(skin[near], normals[near], _BESIDE, FINGER_FREE, self.other.skin)
        ahead[near], feet[near] = found.front, found.feet
        free[near] = (found.front >= FINGER_ENTERS) & (found.near >= FINGER_ENTERS / 2)
        least = float(found.near.min(initial=_BESIDE))
        by_finger = np.swapaxes(skin, 0, 1), np.swapaxes(feet, 0, 1)
        return _Clearances(ahead.T, free.T, *by_finger, least if least < _BESIDE else np.inf)


@dataclass(frozen=True, eq=False, slots=True)
class _Clearances:
    """What is in front of fingers at some places of the travel."""

    ahead: Floats
    """(fingers, places): from the skin under each finger, up to `FINGER_FREE`."""
    free: Flags
    """(fingers, places): whether the thinnest has room there."""
    skin: Floats
    """(fingers, places, 3): where the skin under each finger is, as seen from the other."""
    feet: Floats
    """(fingers, places, 3): the point of the other that is ahead of it."""
    near: float
    """Some finger's skin is as near to the other as this; infinite where none is within `_BESIDE`."""

    def closing(self) -> Whole:
        """The fingers on which something may close."""
        return np.flatnonzero(self.ahead.min(axis=1) <= FINGER_FREE - _CLOSES)

    def closings(self, finger: int) -> Iterator[Close]:
        """Where and how wide the clearance is before it closes, and where it is narrowest, both ways along.

        A face that only turns to what was as near before does not close on it: the skin must come nearer to the very
        point that is ahead where it is narrowest, and has no more room before than there is up to that point.
        """
        ahead, free = self.ahead[finger], self.free[finger]
        for first, last in _stretches(ahead < FINGER_FREE):
            closed = first + int(np.argmin(ahead[first : last + 1]))
            apart = np.linalg.norm(self.skin[finger] - self.feet[finger, closed], axis=1)
            room, narrow = np.minimum(ahead, apart), float(ahead[closed])
            before = _receding(apart, ahead, first - 1, -1), closed
            after = closed + 1, _receding(apart, ahead, last + 1, 1) + 1
            for start, stop in (before, after):
                roomy = [place for place in range(start, stop) if free[place]]
                if not roomy:
                    continue
                opened = max(roomy, key=lambda place: (room[place], -abs(place - closed)))
                wide, nearer = float(room[opened]), float(apart[opened] - apart[closed])
                if wide >= FINGER_ENTERS and min(wide - narrow, nearer) >= _CLOSES:
                    yield opened, wide, closed, narrow


def _receding(apart: Floats, ahead: Floats, place: int, way: int) -> int:
    """How far one can go along the travel from the place where something is no longer ahead, and be ever further from
    it. What comes ahead then is something else.
    """
    if not 0 <= place < len(apart):
        return place - way
    while 0 <= place + way < len(apart) and ahead[place + way] >= FINGER_FREE and apart[place + way] > apart[place]:
        place += way
    return place


def _weight(close: Close) -> tuple[float, float]:
    _, wide, _, narrow = close
    return wide - narrow, -narrow


def _within(points: Floats, low: Floats, high: Floats) -> Flags:
    return np.asarray(np.all((points >= low) & (points <= high), axis=-1))


def _stretches(flags: Flags) -> Iterator[tuple[int, int]]:
    """First and last of each run of true ones."""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], flags, [False]]).astype(np.int8)))
    yield from ((int(first), int(last) - 1) for first, last in zip(edges[::2], edges[1::2], strict=True))
