"""Cuts in tilted planes, built anew: a leaning hole about its moved axis, an end cut through its moved long point."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from planbook.dimension.completeness.record import Pair, Plane, Removed, Triple
from planbook.dimension.completeness.tilted import is_blind, is_bored, leans, mouth
from planbook.dimension.completeness.unknowns import DEPTH
from planbook.dimension.told.loops import Loop, moved_circle
from planbook.dimension.told.moves import Moves

_ROOM = 2.0
"""The space of an end cut is made so much larger, so that it takes the whole end wherever that goes."""


def moved_tilted(cut: Removed, name: str, moves: Moves) -> Removed:
    """A tilted cut where its numbers put it."""
    return _moved_hole(cut, name, moves) if is_bored(cut) else _moved_end(cut, name, moves)


def _moved_hole(cut: Removed, name: str, moves: Moves) -> Removed:
    entry, _ = mouth(cut)
    there = _stations(entry, moves)
    plane = _turned(cut, name, moves)
    depth = cut.depth
    if is_blind(cut, moves.size):
        depth = cut.lift + moves.own(DEPTH, cut.depth - cut.lift, name)
    ring = moved_circle(cut.loop[0], lambda centre: centre, lambda radius: moves.radius(radius, name))
    assert ring.centre is not None
    arm = [u * ring.centre[0] + v * ring.centre[1] for u, v in zip(plane.u, plane.v, strict=True)]
    origin = [at + n * cut.lift - a for at, n, a in zip(there, plane.normal, arm, strict=True)]
    return replace(cut, frame=replace(plane, origin=_triple(origin)), loop=(ring,), depth=depth)


def _moved_end(cut: Removed, name: str, moves: Moves) -> Removed:
    """Its plane goes through the long point, which lies under the origin of its frame."""
    there = _stations(cut.frame.place((0.0, 0.0), cut.lift), moves)
    plane = _turned(cut, name, moves)
    lift = cut.lift * _ROOM
    origin = _triple([at + n * lift for at, n in zip(there, plane.normal, strict=True)])
    return replace(cut, frame=replace(plane, origin=origin), loop=_wider(cut.loop), depth=lift, lift=lift)


def _wider(loop: Loop) -> Loop:
    def out(point: Pair) -> Pair:
        return point[0] * _ROOM, point[1] * _ROOM

    return tuple(replace(each, start=out(each.start), end=out(each.end)) for each in loop)


def _stations(point: Triple, moves: Moves) -> Triple:
    return _triple([moves.station(axis, value) for axis, value in enumerate(point)])


def _turned(cut: Removed, name: str, moves: Moves) -> Plane:
    """The frame turned by the least turn that gives its normal the told leans."""
    told = {kind: moves.own(kind, angle, name) for kind, angle in leans(cut)}
    old = np.array(cut.frame.normal)
    main = max(range(3), key=lambda axis: abs(old[axis])) if is_bored(cut) else 0
    new = np.array(
        [
            math.copysign(
                1.0 if axis == main else math.tan(math.radians(told.get(f"lean {'xyz'[axis]}", 0.0))), old[axis]
            )
            for axis in range(3)
        ]
    )
    new /= np.linalg.norm(new)
    turn = _least_turn(old, new)
    return replace(cut.frame, u=_triple(turn @ cut.frame.u), v=_triple(turn @ cut.frame.v), normal=_triple(new))


def _least_turn(old: NDArray[np.float64], new: NDArray[np.float64]) -> NDArray[np.float64]:
    """The rotation (3, 3) that takes one unit vector to another by the shortest way; they are not opposite."""
    x, y, z = np.cross(old, new)
    skew = np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])
    return np.asarray(np.eye(3) + skew + skew @ skew / (1.0 + float(old @ new)))


def _triple(values: object) -> Triple:
    x, y, z = (float(value) for value in np.asarray(values))
    return x, y, z
