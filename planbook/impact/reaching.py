"""Whether a tool still reaches what is to be cut, once a part is glued in its place."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Final

import numpy as np

from planbook.dimension.completeness.record import Removed, Shape
from planbook.impact.model import Impact, PartImpact, Reach, Spot
from planbook.impact.rays import free_way
from planbook.impact.sheets import shape_of
from planbook.impact.wood import mesh_of_shape
from planbook.impact.working import called
from planbook.shape.geometry import Vec
from planbook.shape.model import Placement
from planbook.shape.solids import Mesh
from planbook.shape.solids.surfaces import Floats
from planbook.statement.model import ComponentStated, Statement

_MM: Final = 1e-6
_DRILL, _ROUTER, _PLANE = ("a right-angle drill", 90.0), ("a small router", 200.0), ("a plane or a saw", 100.0)
"""Tools and the room in front of the work that they need, in millimetres: common practice, no source."""
_ROUTED: Final = frozenset(
    {"slot", "groove", "rabbet", "mortise", "pocket", "opening", "notch", "arc_slot", "ring_sector", "arc_ramp", "ramp"}
)
_BORDER: Final = 0.01
_RIM: Final = 0.98
"""Rays start so far out towards the rim: one on the rim itself would graze a mate's hole of the same size."""


def with_reach(parts: Iterable[PartImpact], old: Statement, new: Statement) -> tuple[PartImpact, ...]:
    """The same; those that a step glues know it, and where they are to be reworked, what room there is."""
    joints = _joints(old, new)
    shop = None if new.assembly is None else _Shop(new, new.assembly)
    return tuple(_reached(each, joints.get(each.key), shop) for each in parts)


def _reached(part: PartImpact, joined: frozenset[str] | None, shop: _Shop | None) -> PartImpact:
    if joined is None:
        return part
    if part.impact is not Impact.REWORK:
        return replace(part, glued=True)
    return replace(part, glued=True, reach=None if shop is None else tuple(shop.reach(part, joined)))


def _joints(old: Statement, new: Statement) -> Mapping[str, frozenset[str]]:
    """By part: those that hang together with it by glue, itself among them."""
    joints: dict[str, frozenset[str]] = {}
    for step in (*old.steps, *new.steps):
        together = frozenset(step.glue_order).union(*(joints.get(key, ()) for key in step.glue_order))
        joints |= dict.fromkeys(together, together)
    return joints


@dataclass(frozen=True)
class _Placed:
    """A component as a solid in the assembly."""

    key: str
    turn: Floats
    """(3, 3): from the part's axes to the assembly's, mirrored where the component is."""
    shift: Floats
    mesh: Mesh


@dataclass(frozen=True)
class _Shop:
    """The assembly of a statement, with parts that are glued to one another and all else taken out."""

    statement: Statement
    assembly: tuple[ComponentStated, ...]

    @cached_property
    def _shapes(self) -> Mapping[str, Shape]:
        return {key: shape_of(part) for key, part in self.statement.parts.items()}

    @cached_property
    def _placed(self) -> tuple[_Placed, ...]:
        return tuple(self._place(each) for each in self.assembly if each.part in self._shapes)

    def _place(self, each: ComponentStated) -> _Placed:
        shape = self._shapes[each.part]
        at = Placement(Vec(*each.origin), Vec(*each.x), Vec(*each.y), Vec(*each.z), each.mirrored)
        turn = np.array([each.x, each.y, each.z]).T
        shift = np.array(each.origin) * _MM
        if each.mirrored:
            shift = shift + turn[:, 1] * shape.size[1] * _MM
            turn = turn * np.array([1.0, -1.0, 1.0])
        return _Placed(each.part, turn, shift, mesh_of_shape(shape).placed(at, shape.size[1]))

    def reach(self, part: PartImpact, joined: frozenset[str]) -> Iterator[Reach]:
        """The least room in front of each thing to be cut, over all components of the part."""
        standing = [each for each in self._placed if each.key == part.key]
        for work in part.works if standing else ():
            tool, needs = self._tool(part.key, work.feature)
            ways = list(self._ways(part, work.feature))
            free = min((self._free(each, ways, joined) for each in standing), default=np.inf)
            yield Reach(work.feature, self._called(part.key, work.feature), min(free, 10 * needs), needs, tool)

    def _free(self, component: _Placed, ways: list[_Ways], joined: frozenset[str]) -> float:
        """Of each cut the better of its ways in; of all cuts the worst."""
        others = [each.mesh.corners for each in self._placed if each.key in joined and each is not component]
        if not others or not ways:
            return float(np.inf)
        walls = np.concatenate(others)
        return min(max(_along(way, component, walls) for way in each) for each in ways)

    def _ways(self, part: PartImpact, feature: str) -> Iterator[_Ways]:
        shape = self._shapes[part.key]
        made = shape.features.get(feature)
        if made is not None:
            yield from (_into(cut, shape) for cut in made.cuts)
        else:
            yield from (_onto(spot, shape) for spot in part.goes if spot.feature in ("blank", feature))

    def _tool(self, key: str, feature: str) -> tuple[str, float]:
        made = self._shapes[key].features.get(feature)
        if made is None:
            return _PLANE
        return _DRILL if made.kind == "hole" else _ROUTER if made.kind in _ROUTED else _PLANE

    def _called(self, key: str, feature: str) -> str:
        return f"the {feature}" if feature in ("blank", "outline") else called(self.statement.parts[key], feature)


_Way = tuple[Floats, Floats]
"""Points in front of a cut (n, 3) and the direction (3,) out of the wood, in the part's axes; millimetres."""
_Ways = tuple[_Way, ...]


def _along(way: _Way, component: _Placed, walls: Floats) -> float:
    points, out = way
    return free_way(points @ component.turn.T + component.shift, component.turn @ out, walls)


def _into(cut: Removed, shape: Shape) -> _Ways:
    """From its face; of one that goes through also from the far side."""
    ring = cut.loop[0]
    if len(cut.loop) == 1 and ring.centre is not None:
        (x, y), (u, v) = ring.centre, (ring.start[0] - ring.centre[0], ring.start[1] - ring.centre[1])
        turns = ((u, v), (-v, u), (-u, -v), (v, -u))
        flat = [ring.centre, *((x + a * _RIM, y + b * _RIM) for a, b in turns)]
    else:
        flat = [tuple(np.mean([side.start for side in cut.loop], axis=0).tolist())]
    out = np.array(cut.frame.normal)
    near, far = (np.array([cut.frame.place((x, y), depth) for x, y in flat]) * _MM for depth in (cut.lift, cut.depth))
    size = np.array(shape.size) * _MM
    through = bool(np.any((far[0] < _BORDER) | (far[0] > size - _BORDER)))
    # A cut may reach past the border that it goes through; its far side is at that border.
    return ((near, out), (np.clip(far, 0.0, size), -out)) if through else ((near, out),)


def _onto(spot: Spot, shape: Shape) -> _Ways:
    """What goes from a border of the piece is reached from beyond that border."""
    low, high = np.array(spot.low), np.array(spot.high)
    axis = int(np.argmin(high - low))
    beyond = high[axis] > shape.size[axis] * _MM / 2
    middle = (low + high) / 2
    middle[axis] = high[axis] if beyond else low[axis]
    out = np.zeros(3)
    out[axis] = 1.0 if beyond else -1.0
    return ((middle[None, :], out),)
