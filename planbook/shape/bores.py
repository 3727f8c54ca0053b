"""Holes and slots: what a drill or a router bit leaves."""

from __future__ import annotations

import math

from planbook.design.values import Value
from planbook.shape.around import ring_of
from planbook.shape.bench import FINE, Bench, both
from planbook.shape.board import Board
from planbook.shape.faces import frame_of, stock_depth
from planbook.shape.geometry import Point
from planbook.shape.kinds import HoleShape, SlotShape
from planbook.shape.leaning import make_leaning_hole, solve_lean
from planbook.shape.loops import circle, polar, stadium
from planbook.shape.made import Fit, Made, depth_or_through
from planbook.shape.model import Cut
from planbook.shape.wording import in_both, like, said
from planbook.source.models.around import CircleModel
from planbook.source.models.bores import HoleModel, SlotModel
from planbook.source.text import Text


def make_hole(bench: Bench, board: Board, name: Text, model: HoleModel) -> Made | None:
    """A hole with its counterbore and countersink, all from the same face."""
    shape = _solve_hole(bench, name, model)
    if shape is None:
        return None
    if model.lean is not None:
        return make_leaning_hole(bench, board, name, model.on, shape)
    depth = depth_or_through(bench, board, model.on, shape.depth, f"the hole `{name}`")
    ring = ring_of(bench, name, model.around, _at(shape)) if model.around else None
    if depth is None or (model.around and ring is None):
        return None
    cuts = [Cut(frame_of(model.on, board.blank), circle(_centre(shape), shape.diameter.number / 2), depth)]
    if shape.counterbore is not None:
        bore = _counterbore(bench, name, shape, cuts[0])
        if bore is None:
            return None
        cuts.append(bore)
    if shape.countersink is not None:
        sink = _countersink(bench, name, shape, cuts[0], stock_depth(model.on, board.blank))
        if sink is None:
            return None
        cuts.append(sink)
    return Made(model.on, shape, tuple(cuts), Fit.INSIDE, shape.at, ring=ring)


def _at(shape: HoleShape) -> Point:
    return Point(shape.at[0].number, shape.at[1].number)


def _centre(shape: HoleShape) -> Point:
    """Of the hole itself, the first of those that stand on a circle."""
    if shape.circle is None:
        return _at(shape)
    diameter, start = shape.circle
    return polar(_at(shape), diameter.number / 2, start.number if start else 0.0)


def _solve_hole(bench: Bench, name: Text, model: HoleModel) -> HoleShape | None:
    diameter = bench.size(model.hole, f"the diameter of `{name}`")
    at = bench.pair(model.at)
    depth = None if model.depth is None else bench.size(model.depth, f"the depth of `{name}`")
    bore = sink = None
    if model.counterbore is not None:
        bore = both(
            bench.size(model.counterbore.diameter, f"the counterbore of `{name}`"),
            bench.size(model.counterbore.depth, f"the counterbore's depth of `{name}`"),
        )
    if model.countersink is not None:
        sink = both(
            bench.size(model.countersink.diameter, f"the countersink of `{name}`"),
            bench.angle(model.countersink.angle),
        )
    lean = (None, None) if model.lean is None else solve_lean(bench, name, model.on, model.lean)
    circle = None if model.around is None else _circle(bench, name, model.around)
    missing = (model.depth and depth is None) or (model.counterbore and bore is None) or lean is None
    missing = missing or (model.around is not None and circle is None)
    if diameter is None or at is None or missing or (model.countersink and sink is None):
        return None
    assert lean is not None
    return HoleShape(diameter, at, depth, bore, sink, circle, lean)


def _circle(bench: Bench, name: Text, model: CircleModel) -> tuple[Value, Value | None] | None:
    diameter = bench.size(model.circle, f"the circle of `{name}`")
    start = None if model.start is None else bench.angle(model.start)
    return None if diameter is None or (model.start and start is None) else (diameter, start)


def _wider(bench: Bench, name: Text, what: str, outer: Value, hole: Value) -> bool:
    if outer.number > hole.number + FINE:
        return True
    bench.stop(
        f"{what}-too-small",
        outer.place,
        f"The {what} of `{name}` is {said(outer)} in diameter, and its hole is {said(hole)}: it would remove nothing.",
        f"Make the {what} wider than {like(outer, hole.number)}, or leave it out.",
    )
    return False


def _counterbore(bench: Bench, name: Text, shape: HoleShape, hole: Cut) -> Cut | None:
    assert shape.counterbore is not None
    diameter, sunk = shape.counterbore
    if not _wider(bench, name, "counterbore", diameter, shape.diameter):
        return None
    if sunk.number >= hole.depth - FINE:
        bench.stop(
            "feature-too-deep",
            sunk.place,
            f"The counterbore of `{name}` is {said(sunk)} deep, and the hole itself only {in_both(hole.depth)}.",
            f"Make the counterbore less than {like(sunk, hole.depth)} deep.",
        )
        return None
    return Cut(hole.frame, circle(_centre(shape), diameter.number / 2), sunk.number)


def _countersink(bench: Bench, name: Text, shape: HoleShape, hole: Cut, behind: float) -> Cut | None:
    """The cone down to the hole: depth = (D - d) / 2 / tan(angle / 2)."""
    assert shape.countersink is not None
    diameter, angle = shape.countersink
    if not _wider(bench, name, "countersink", diameter, shape.diameter):
        return None
    if not 0 < angle.number < 180:
        bench.stop(
            "countersink-angle",
            angle.place,
            f"The countersink of `{name}` has an angle of `{angle.formula}` ({angle.number:g} deg).",
            "Give the angle of the whole cone, between 0 and 180 deg; screws take 90 deg or 82 deg.",
        )
        return None
    depth = (diameter.number - shape.diameter.number) / 2 / math.tan(math.radians(angle.number) / 2)
    if depth >= behind:
        bench.stop(
            "feature-too-deep",
            diameter.place,
            f"The countersink of `{name}`, {said(diameter)} at {angle.number:g} deg, would be {in_both(depth)} deep, "
            f"and there is only {in_both(behind)} of wood.",
            "Make the countersink smaller or its angle blunter.",
        )
        return None
    outer = circle(_centre(shape), diameter.number / 2)
    return Cut(hole.frame, outer, depth, bottom=hole.loop)


def make_slot(bench: Bench, board: Board, name: Text, model: SlotModel) -> Made | None:
    """A slot with round ends about its two centres."""
    width = bench.size(model.slot, f"the width of `{name}`")
    start, end = bench.pair(model.start), bench.pair(model.end)
    depth = None if model.depth is None else bench.size(model.depth, f"the depth of `{name}`")
    if width is None or start is None or end is None or (model.depth and depth is None):
        return None
    first, last = Point(start[0].number, start[1].number), Point(end[0].number, end[1].number)
    if math.dist(first, last) < FINE:
        bench.stop(
            "slot-without-length",
            model.end[0].place,
            f"The slot `{name}` starts and ends at the same point, {said(start[0])}, {said(start[1])}.",
            "Give `end` another place, or write a hole.",
        )
        return None
    down = depth_or_through(bench, board, model.on, depth, f"the slot `{name}`")
    if down is None:
        return None
    cut = Cut(frame_of(model.on, board.blank), stadium(first, last, width.number / 2), down)
    return Made(model.on, SlotShape(width, start, end, depth), (cut,), Fit.INSIDE, start)
