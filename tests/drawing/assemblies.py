"""A few placed components, made from the hand-made parts: a top on legs, an apron, a bar, a turned lever, rods."""

from __future__ import annotations

import math
from typing import cast

from planbook.design.values import Value
from planbook.shape.geometry import Arc, Frame, Line, Loop, Point, Vec
from planbook.shape.model import Component, Cut, Feature, Part, Placement
from planbook.statement.model import CutStated, SegmentStated
from tests.drawing import samples
from tests.drawing.samples import NM, Bench

X, Y, Z = Vec(1, 0, 0), Vec(0, 1, 0), Vec(0, 0, 1)
BACKWARDS = Vec(0, -1, 0)


class _Number:
    """Stands for an evaluated value: drawing asks only for its number."""

    def __init__(self, number: float) -> None:
        self.number = number


def shaped(bench: Bench) -> Part:
    stated = bench.stated()
    features = {
        name: Feature(name, feature.kind, feature.face, None, tuple(_cut(cut) for cut in feature.cuts))  # type: ignore[arg-type]
        for name, feature in stated.features.items()
    }
    size = tuple(cast(Value, _Number(measure)) for measure in stated.size)
    return Part(
        stated.key, stated.number, stated.title, None, stated.sheet, stated.stock,  # type: ignore[arg-type]
        1, 0, size, _loop(stated.outline), (), features, None,  # type: ignore[arg-type]
    )  # fmt: skip


def _loop(segments: tuple[SegmentStated, ...]) -> Loop:
    return Loop(
        tuple(
            Line(Point(*s.start), Point(*s.end))
            if s.centre is None
            else Arc(Point(*s.start), Point(*s.end), Point(*s.centre), s.ccw)
            for s in segments
        )
    )


def _cut(cut: CutStated) -> Cut:
    frame = Frame(Vec(*cut.frame.origin), Vec(*cut.frame.u), Vec(*cut.frame.v), Vec(*cut.frame.normal))
    bottom = _loop(cut.bottom) if cut.bottom else None
    return Cut(frame, _loop(cut.loop), cut.depth, tuple(_loop(island) for island in cut.islands), bottom)


def at(x: float, y: float, z: float) -> Vec:
    return Vec(x * NM, y * NM, z * NM)


def turned(angle: float) -> tuple[Vec, Vec]:
    """x and y axes turned about the viewer's axis by degrees."""
    cos, sin = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    return Vec(cos, 0, sin), Vec(-sin, 0, cos)


def desk_like() -> tuple[Component, ...]:
    top, apron, bar, leg, button = (
        shaped(make()) for make in (samples.top, samples.apron, samples.ramp_bar, samples.leg, samples.button)
    )
    along, across = turned(30)
    return (
        Component("top", Placement(at(0, 0, 742), X, Y, Z), top),
        Component("apron", Placement(at(130, 77, 607), X, Z, BACKWARDS), apron),
        Component("bar", Placement(at(200, 106, 607), X, Z, BACKWARDS), bar),
        Component("left_leg", Placement(at(60, 50, 32), Z, X, Y), leg),
        Component("right_leg", Placement(at(1350, 50, 32), Z, X, Y, mirrored=True), leg),
        Component("lever", Placement(at(1100, 20, 500), along, across, BACKWARDS), button),
        Component("pin", Placement(at(700, -30, 683), Y, X, Vec(0, 0, -1)), None, "pin", 6 * NM, 150 * NM),
        Component("rod", Placement(at(300, 20, 300), along, Y, across), None, "rod", 15 * NM, 600 * NM),
    )
