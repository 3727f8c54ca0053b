"""Callouts at leaders: lettering in free room near what it speaks of, outside the view where that is possible.

The leader crosses no lettering and no view but the one in which it points at something; of the free places the cheapest
is taken, reckoned by length, slope and what the leader crosses (ISO 128-2 leader and reference lines).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import Final

import numpy as np
from numpy.typing import NDArray

from planbook.drawing.footprint import Floats, Footprint, grown, strokes_about, strokes_crossed, strokes_met
from planbook.drawing.ink import CLEAR, Box, Segment
from planbook.drawing.lines import LETTER, arrowhead, belonging, dot, letter, line_width, stroke
from planbook.drawing.recording import Anchor, Primitive, Pt, Stroke
from planbook.drawing.room import Room
from planbook.drawing.wording import Line

PITCH: Final = 4.4
"""Between baselines of a stack."""
AIR: Final = 1.4
"""Room round a stack, in millimetres: more than lettering must have, so that it stands calmly."""
_SHELF: Final = 2.0
_SHELF_GAP: Final = 0.9
_DROP: Final = 0.8
"""Room under the last baseline for brackets and tails."""
_RISE: Final = 0.4
_TRIES: Final = 240
_MANY: Final = 3000
"""Of more free places than this every third along and down is looked at."""
_ENOUGH: Final = 120
_FEW: Final = 16
_CROSSED: Final = 6.0
_TANGLED: Final = 20.0
"""What it costs to cross a line, or another leader, in millimetres of leader."""
_ELSEWHERE: Final = 10.0
"""By so much a leader to the far end of a row has to be cheaper than to its start."""
_STRAY: Final = 10.0
"""Lettering stands no more than this (mm) nearer to another view than to its own."""
_GROWTH: Final = 1.5
"""What a millimetre costs by which a block becomes wider or higher, in millimetres of leader."""


@dataclass(frozen=True, slots=True)
class Callout:
    """What is to be placed. `radius` > 0: the leader's arrow touches a circle about `at`; 0: it ends in a dot there.

    `radius` < 0: an arrow at `at` itself, a place on a curve. `home` is the box of the view that shows the place.
    `other` is an equal place, the far end of a row, at which it may point instead.
    """

    at: Pt
    radius: float
    lines: tuple[Line, ...]
    key: str
    home: Box
    other: Pt | None = None

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the stack."""
        height = _RISE + LETTER + PITCH * (len(self.lines) - 1) + _DROP
        return max(line_width(line) for line in self.lines), height


@dataclass
class Paper:
    """What a leader has to do with: boxes (k, 4) of lettering, strokes (n, 4), the free room, and the views' own boxes.

    `kept` is the box of a block that callouts make larger: so far as they need, and no farther.
    """

    room: Room
    boxes: Floats
    strokes: Floats
    views: Sequence[Box]
    leaders: list[Segment] = field(default_factory=list)
    kept: Box | None = None

    def note(self, ink: Footprint) -> None:
        """What stands on it as well from now on."""
        self.boxes = np.concatenate([self.boxes, ink.boxes])
        self.strokes = np.concatenate([self.strokes, ink.strokes])


@dataclass(frozen=True, slots=True)
class _Ways:
    """`k` places for one callout's lettering with the leader to each, one a row, by rising `cost` (k,)."""

    tips: Floats
    """(k, 2), as are `elbows` and `shelves`: the leader's points from what it speaks of to the lettering"""
    elbows: Floats
    shelves: Floats
    boxes: Floats
    """(k, 4): left, top, right, bottom of the lettering"""
    right: NDArray[np.bool_]
    """(k,): whether the lettering stands to the right of its leader"""
    cost: Floats

    @property
    def legs(self) -> Floats:
        """(2, k, 4): the two straight pieces of each leader."""
        ends = (self.tips, self.elbows), (self.elbows, self.shelves)
        return np.stack([np.concatenate(pair, axis=1) for pair in ends])

    def some(self, rows: slice | NDArray[np.bool_]) -> _Ways:
        """A few of them."""
        return _Ways(
            self.tips[rows], self.elbows[rows], self.shelves[rows], self.boxes[rows], self.right[rows], self.cost[rows]
        )

    def way(self, row: int) -> _Way:
        """One of them."""
        tip, elbow, shelf = (Pt(*each[row].tolist()) for each in (self.tips, self.elbows, self.shelves))
        return _Way(tip, elbow, shelf, Box(*self.boxes[row].tolist()), bool(self.right[row]))


@dataclass(frozen=True, slots=True)
class _Way:
    tip: Pt
    elbow: Pt
    shelf: Pt
    box: Box
    right: bool

    @property
    def segments(self) -> tuple[Segment, Segment]:
        return Segment(self.tip, self.elbow), Segment(self.elbow, self.shelf)


def place_callout(callout: Callout, paper: Paper) -> tuple[Primitive, ...] | None:
    """Place one callout and note it on the paper; None when no free place was found."""
    found = _cheapest(callout, paper)
    if callout.other is not None:
        there = replace(callout, at=callout.other)
        other = _cheapest(there, paper)
        if other and (found is None or other[1] + _ELSEWHERE < found[1]):
            callout, found = there, other
    return None if found is None else _take(found[0], callout, paper)


def leader_length(placed: Sequence[Primitive]) -> float:
    """Of a callout that has been placed: from what it points at to where its leader turns level, in millimetres."""
    leader = placed[0]
    assert isinstance(leader, Stroke)
    return math.dist(leader.start, leader.steps[0].end)


def _cheapest(callout: Callout, paper: Paper) -> tuple[_Way, float] | None:
    """The best free place for a callout, with its price."""
    best: _Way | None = None
    least, tried = float("inf"), 0
    leaders = np.array([(*a, *b) for a, b in paper.leaders], dtype=np.float64).reshape(-1, 4)
    for ways in _bundles(callout, paper):
        free = ways.some(_clear_of_lettering(ways, paper))
        crossed = _CROSSED * _crossings(free, paper.strokes) + _TANGLED * _crossings(free, leaders)
        for row, (cost, more) in enumerate(zip(free.cost.tolist(), crossed.tolist(), strict=True)):
            if cost >= least or tried >= _ENOUGH:
                break
            tried += 1
            if cost + more < least:
                best, least = free.way(row), cost + more
        if ways.cost[-1] >= least or tried >= _ENOUGH:
            break
    return None if best is None else (best, least)


def _bundles(callout: Callout, paper: Paper) -> Iterator[_Ways]:
    """Free places by rising cost, few at first: often one of the cheapest is taken and the others are not looked at."""
    width, height = callout.size
    lefts, tops = paper.room.places(width + 2 * AIR, height + 2 * AIR, _MANY)
    if not len(lefts):
        return
    lefts, tops = lefts + AIR, tops + AIR
    costs = np.concatenate([_costs(callout, paper, lefts, tops, right) for right in (True, False)])
    order = np.argsort(costs, kind="stable")[:_TRIES]
    order = order[np.isfinite(costs[order])]
    place, right = order % len(lefts), order < len(lefts)
    ways = _ways(callout, lefts[place], tops[place], right, costs[order])
    start, count = 0, _FEW
    while start < len(order):
        yield ways.some(slice(start, start + count))
        start, count = start + count, 2 * count


def _ways(callout: Callout, lefts: Floats, tops: Floats, right: NDArray[np.bool_], cost: Floats) -> _Ways:
    """Lettering with its left and top at some places (k,), and the leader to each."""
    width, height = callout.size
    boxes = np.stack([lefts, tops, lefts + width, tops + height], axis=1)
    way, base = np.where(right, -1.0, 1.0), tops + _RISE + LETTER / 2
    shelf_x = np.where(right, lefts, lefts + width) + way * _SHELF_GAP
    shelves, elbows = np.stack([shelf_x, base], axis=1), np.stack([shelf_x + way * _SHELF, base], axis=1)
    at = np.array(callout.at)
    if callout.radius > 0:
        length = np.maximum(np.hypot(elbows[:, 0] - at[0], elbows[:, 1] - at[1]), 1e-9)
        tips = at + (elbows - at) * (callout.radius / length)[:, None]
    else:
        tips = np.broadcast_to(at, elbows.shape)
    return _Ways(tips, elbows, shelves, boxes, right, cost)


def _clear_of_lettering(ways: _Ways, paper: Paper) -> NDArray[np.bool_]:
    """(k,): whether the leader runs through no lettering, its own among it."""
    legs = ways.legs
    own = strokes_met(legs, grown(ways.boxes, CLEAR))
    others = strokes_met(legs[:, :, None], grown(paper.boxes, CLEAR)).any(axis=2)
    return np.asarray(~(own | others).any(axis=0))


def _crossings(ways: _Ways, strokes: Floats) -> NDArray[np.int64]:
    """(k,): how many strokes (n, 4) each leader crosses."""
    legs = ways.legs
    if not legs.size:
        return np.zeros(0, dtype=np.int64)
    ends = legs.reshape(-1, 2)
    near = strokes_about(strokes, np.concatenate([ends.min(axis=0), ends.max(axis=0)]))
    return np.asarray(np.count_nonzero(strokes_crossed(legs[:, :, None], near), axis=(0, 2)))


def _costs(callout: Callout, paper: Paper, lefts: Floats, tops: Floats, right: bool) -> Floats:
    """Length of the leader, dearer when it is nearly level or upright, and when the lettering lies in its view.

    Without end where the leader would run over another view, or the lettering stand on it or by it.
    """
    width, _ = callout.size
    out = _SHELF + _SHELF_GAP
    elbow_x = lefts - out if right else lefts + width + out
    elbow_y = tops + _RISE + LETTER / 2
    dx, dy = elbow_x - callout.at.x, elbow_y - callout.at.y
    length = np.hypot(dx, dy)
    cost = np.maximum(length - max(callout.radius, 0.0), 0.0)
    slope = np.abs(np.degrees(np.arctan2(np.abs(dy), np.abs(dx))) - 50.0)
    cost = cost + np.maximum(0.0, slope - 25.0) * 0.25
    cost = cost + np.where((dx > 0) == right, 0.0, 25.0) + np.where(length < callout.radius + 5.0, 40.0, 0.0)
    home = _gaps(callout.home, lefts, tops, callout.size)
    cost = cost + np.where(home > 0, 0.0, 30.0)
    for view in paper.views:
        if view != callout.home:
            gap = _gaps(view, lefts, tops, callout.size)
            strayed = (gap <= 0) | (gap + _STRAY < home) | _over(callout.at, elbow_x, elbow_y, view.grown(_SHELF))
            cost = np.where(strayed, np.inf, cost)
    return cost if paper.kept is None else cost + _growth(paper.kept, lefts, tops, callout.size)


def _gaps(box: Box, lefts: Floats, tops: Floats, size: tuple[float, float]) -> Floats:
    """From a box to boxes of one size at many places; 0 where they meet."""
    across = np.maximum(np.maximum(box.left - lefts - size[0], lefts - box.right), 0.0)
    down = np.maximum(np.maximum(box.top - tops - size[1], tops - box.bottom), 0.0)
    return np.asarray(np.hypot(across, down))


def _over(at: Pt, x: Floats, y: Floats, box: Box) -> NDArray[np.bool_]:
    """Whether lines from one place to many pass over a box: `strokes_met`, but so many are asked for that less is
    reckoned for each."""
    low, high = np.zeros(len(x)), np.ones(len(x))
    for start, end, first, last in ((at.x, x, box.left, box.right), (at.y, y, box.top, box.bottom)):
        step = np.where(np.abs(end - start) < 1e-12, 1e-12, end - start)
        t0, t1 = (first - start) / step, (last - start) / step
        low, high = np.maximum(low, np.minimum(t0, t1)), np.minimum(high, np.maximum(t0, t1))
    return np.asarray(low < high)


def _growth(kept: Box, lefts: Floats, tops: Floats, size: tuple[float, float]) -> Floats:
    """What it costs that lettering stands out of a block, which becomes so much wider and higher."""
    rights, bottoms = lefts + size[0], tops + size[1]
    wider = np.maximum(kept.left - lefts, 0.0) + np.maximum(rights - kept.right, 0.0)
    higher = np.maximum(kept.top - tops, 0.0) + np.maximum(bottoms - kept.bottom, 0.0)
    return np.asarray(_GROWTH * (wider + higher))


def _take(way: _Way, callout: Callout, paper: Paper) -> tuple[Primitive, ...]:
    strokes = np.array([(*a, *b) for a, b in way.segments])
    paper.note(Footprint(np.array([way.box]), strokes))
    paper.leaders += way.segments
    paper.room.mark_box(way.box.grown(CLEAR))
    paper.room.mark_strokes(strokes, CLEAR)
    head = dot(way.tip) if callout.radius == 0 else arrowhead(way.tip, way.elbow)
    drawn: list[Primitive] = [stroke(way.tip, way.elbow, way.shelf), head]
    anchor, x = (Anchor.START, way.box.left) if way.right else (Anchor.END, way.box.right)
    for k, line in enumerate(callout.lines):
        drawn += letter(line, Pt(x, way.box.top + _RISE + LETTER + PITCH * k), anchor)
    return belonging(drawn, callout.key)
