"""What turns about a centre: arc slots, sectors of a ring, ramps along an arc, and equal features round a centre."""

from __future__ import annotations

import math

from planbook.design.values import Value
from planbook.shape.bench import FINE, Bench, both
from planbook.shape.board import Board
from planbook.shape.faces import FACES, frame_of
from planbook.shape.geometry import Loop, Point
from planbook.shape.kinds import ArcRampShape, ArcSlotShape, RingSectorShape
from planbook.shape.loops import arc_band
from planbook.shape.made import Fit, Made, depth_or_through
from planbook.shape.model import Cut, Ring
from planbook.shape.slopes import sinks
from planbook.shape.wording import like, said
from planbook.source.models.around import (
    ArcRampModel,
    ArcSlotModel,
    BandModel,
    RingSectorModel,
    SweptModel,
    TurnModel,
)
from planbook.source.text import Text

WHOLE_TURN = 360.0
_FINEST = 1e-9
"""Degrees."""


def make_arc_slot(bench: Bench, board: Board, name: Text, model: ArcSlotModel) -> Made | None:
    """A slot with round ends along an arc."""
    width = bench.size(model.arc_slot, f"the width of `{name}`")
    radius = bench.size(model.radius, f"the radius of `{name}`")
    at, angles, depth = _swept(bench, name, model)
    if width is None or radius is None or at is None or angles is None or (model.depth and depth is None):
        return None
    half = width.number / 2
    if half > radius.number - FINE:
        bench.stop(
            "arc-slot-too-wide",
            width.place,
            f"The arc slot `{name}` is {said(width)} wide, and the radius of its middle line only {said(radius)}.",
            f"Make it narrower than {like(width, 2 * radius.number)}, or its radius larger.",
        )
        return None
    # A round end reaches past its centre by the angle under which half the width is seen along the middle line.
    if not _comes_round(bench, name, angles, 2 * math.degrees(2 * math.asin(half / radius.number / 2))):
        return None
    loop = arc_band(_point(at), (radius.number - half, radius.number + half), _numbers(angles), round_ends=True)
    return _made(bench, board, name, model, ArcSlotShape(width, at, radius, angles, depth), loop)


def make_ring_sector(bench: Bench, board: Board, name: Text, model: RingSectorModel) -> Made | None:
    """A piece of a ring with straight ends."""
    radii = bench.sizes(model.ring_sector, f"`{name}`")
    at, angles, depth = _swept(bench, name, model)
    if radii is None or at is None or angles is None or (model.depth and depth is None):
        return None
    if not _has_width(bench, name, "ring_sector", radii) or not _comes_round(bench, name, angles, 0.0):
        return None
    loop = arc_band(_point(at), _numbers(radii), _numbers(angles), round_ends=False)
    return _made(bench, board, name, model, RingSectorShape(radii, at, angles, depth), loop)


def make_arc_ramp(bench: Bench, board: Board, name: Text, model: ArcRampModel) -> Made | None:
    """A floor that climbs evenly along an arc, between two radii."""
    radii = bench.sizes(model.radii, f"the radii of `{name}`")
    depths = both(bench.length(model.arc_ramp[0]), bench.length(model.arc_ramp[1]))
    at, angles = _placed(bench, model)
    if radii is None or depths is None or at is None or angles is None:
        return None
    if not _has_width(bench, name, "radii", radii) or not _comes_round(bench, name, angles, 0.0):
        return None
    ring = ring_of(bench, name, model.around, _point(at)) if model.around else None
    if not sinks(bench, board, name, depths, FACES[model.on].normal) or (model.around and ring is None):
        return None
    loop = arc_band(_point(at), _numbers(radii), _numbers(angles), round_ends=False)
    climbs = _numbers(depths)
    cut = Cut(frame_of(model.on, board.blank), loop, max(climbs), climbs=climbs)
    return Made(model.on, ArcRampShape(radii, at, angles, depths), (cut,), Fit.INSIDE, at, ring=ring)


def _has_width(bench: Bench, name: Text, key: str, radii: tuple[Value, Value]) -> bool:
    inner, outer = radii
    if outer.number > inner.number + FINE:
        return True
    bench.stop(
        "ring-sector-without-width",
        outer.place,
        f"The outer radius of `{name}` is {said(outer)}, not more than its inner one, {said(inner)}.",
        f"Write `{key}: [inner radius, outer radius]`, the outer one more than {like(outer, inner.number)}.",
    )
    return False


def ring_of(bench: Bench, name: Text, model: TurnModel, centre: Point) -> Ring | None:
    """How a feature is repeated about a centre; None after a finding."""
    if model.step is None:
        return Ring(model.count, centre, WHOLE_TURN / model.count, None)
    step = bench.angle(model.step)
    if step is None:
        return None
    if not _FINEST < step.number <= WHOLE_TURN / model.count + _FINEST:
        bench.stop(
            "around-too-far",
            step.place,
            f"`{name}` is repeated {model.count} times in steps of `{step.formula}` ({step.number:g} deg), which is "
            + ("no way round." if step.number <= _FINEST else "more than a whole turn."),
            f"Give a step of at most {WHOLE_TURN / model.count:g} deg, or leave it out for equal spaces.",
        )
        return None
    return Ring(model.count, centre, step.number, step)


def _swept(
    bench: Bench, name: Text, model: SweptModel
) -> tuple[tuple[Value, Value] | None, tuple[Value, Value] | None, Value | None]:
    at, angles = _placed(bench, model)
    depth = None if model.depth is None else bench.size(model.depth, f"the depth of `{name}`")
    return at, angles, depth


def _placed(bench: Bench, model: BandModel) -> tuple[tuple[Value, Value] | None, tuple[Value, Value] | None]:
    return bench.pair(model.at), both(bench.angle(model.angles[0]), bench.angle(model.angles[1]))


def _comes_round(bench: Bench, name: Text, angles: tuple[Value, Value], ends: float) -> bool:
    """Whether it runs from its first angle on to its second and meets itself nowhere; `ends` reach on so far."""
    first, last = angles
    span = last.number - first.number
    if span > _FINEST and span + ends < WHOLE_TURN - _FINEST:
        return True
    runs = f"`{name}` runs from `{first.formula}` ({first.number:g} deg) to `{last.formula}` ({last.number:g} deg)"
    if span <= _FINEST:
        message = f"{runs}, and not on from the one to the other."
        remedy = f"Add a whole turn to the second, `{last.formula} + 360 deg`, or exchange the two."
    else:
        message = f"{runs} and runs into its own start."
        remedy = f"Let it end before {first.number + WHOLE_TURN - ends:g} deg."
    bench.stop("arc-without-length", last.place, message, remedy)
    return False


def _made(
    bench: Bench, board: Board, name: Text, model: SweptModel, shape: ArcSlotShape | RingSectorShape, loop: Loop
) -> Made | None:
    depth = depth_or_through(bench, board, model.on, shape.depth, f"`{name}`")
    ring = ring_of(bench, name, model.around, _point(shape.at)) if model.around else None
    if depth is None or (model.around and ring is None):
        return None
    cut = Cut(frame_of(model.on, board.blank), loop, depth)
    return Made(model.on, shape, (cut,), Fit.INSIDE, shape.at, ring=ring)


def _point(at: tuple[Value, Value]) -> Point:
    return Point(at[0].number, at[1].number)


def _numbers(values: tuple[Value, Value]) -> tuple[float, float]:
    return values[0].number, values[1].number
