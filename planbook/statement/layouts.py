"""Plans of cutting as they are told: each sheet or board with its pieces, its cuts in order, and what is left of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planbook.cutting import Layout, Placed, Rectangle, Step, Stock, Way, list_steps
from planbook.measure import UNIT_SIGNS, Precision, Quantity, Units, print_quantity
from planbook.measure.dimensionality import LENGTH
from planbook.source.models.cutting import Machine
from planbook.source.models.market import Grain, StockKind
from planbook.statement.model import CutLineStated, LayoutStated, OffcutStated, PieceStated
from planbook.takeoff.layouts import StockPlan
from planbook.takeoff.routing import Corners, corners_left
from planbook.takeoff.shopping import bound_words

_LEAST_OFFCUT = 50e6
"""Nanometres, in both directions, of an offcut that is worth keeping, or the stock's own width: common practice, no
source."""


def state_layouts(plans: Sequence[StockPlan], units: Units) -> tuple[LayoutStated, ...]:
    """One for each sheet or board that is cut differently, stock by stock."""
    return tuple(
        _Telling(plan, layout, units).layout(number)
        for plan in plans
        for number, layout in enumerate(plan.plan.layouts, start=1)
    )


class _Telling:
    """One layout in the words of an edition."""

    def __init__(self, plan: StockPlan, layout: Layout, units: Units) -> None:
        self.plan, self.told, self.units = plan, layout, units
        self.size: Stock = plan.sizes[layout.stock]
        self.is_rod = plan.stock.model.kind is StockKind.ROD

    def layout(self, number: int) -> LayoutStated:
        offcuts = [each for each in self.told.offcuts if self._worth(each)]
        routed = self.plan.way.machine is Machine.ROUTER
        lines = () if routed else tuple(self._cuts())
        return LayoutStated(
            id=f"{self.plan.stock.key}/{number}",
            stock=self.plan.stock.key,
            title=str(self.plan.stock.model.title),
            kind=str(self.plan.stock.model.kind),
            machine=str(self.plan.way.machine),
            times=self.told.times,
            size=(float(self.size.length), float(self.size.width)),
            text=self._both(self.size.length, self.size.width),
            count=self.plan.plan.count,
            bound=bound_words(self.plan),
            pieces=tuple(self._piece(each) for each in self.told.placed),
            offcuts=tuple(OffcutStated(_box(each), self._size(each.length, each.width)) for each in offcuts),
            cuts=lines,
            grain=self.plan.stock.model.grain is not Grain.NONE,
            kerf=self._full(self.plan.job.kerf),
            radius=self._full(self.plan.job.kerf / 2) if routed else "",
            corners=tuple(self._corners()) if routed else (),
        )

    def _full(self, nm: float) -> str:
        return print_quantity(Quantity(float(nm), LENGTH), self.units, Precision.WOODWORK).full

    def _corners(self) -> Iterator[str]:
        """Of each part on it, those that the cutter leaves rounder than they are drawn."""
        parts = dict.fromkeys(self.plan.of_key(each.piece).part.key for each in self.told.placed)
        for part in (self.plan.of_key(key).part for key in parts):
            left = list(corners_left(part, self.plan.job.kerf / 2))
            if left:
                yield f"part {part.number}, {', '.join(_corner_words(each) for each in left)}"

    def _worth(self, offcut: Rectangle) -> bool:
        least = _LEAST_OFFCUT
        wide = min(least, self.size.clear_width)
        return offcut.length >= least and (self.is_rod or offcut.width >= wide)

    def _piece(self, placed: Placed) -> PieceStated:
        part = self.plan.of_key(placed.piece).part
        long, wide = placed.place.length, placed.place.width
        length, width = (wide, long) if placed.turned else (long, wide)
        rings = (placed.outline or (), *placed.holes)
        outline, *holes = (tuple((float(x), float(y)) for x, y in ring) for ring in rings)
        box, text = _box(placed.place), self._size(length, width)
        return PieceStated(part.key, str(part.number), text, box, placed.turned, outline, tuple(holes))

    def _cuts(self) -> Iterator[CutLineStated]:
        """Each cut with its line on the stock; cuts that trim both sides alike are two."""
        bench = {0: Rectangle(0, 0, self.size.length, self.size.width)}
        kerf = self.plan.job.kerf
        for step in list_steps(self.told, self.size):
            panel = bench.pop(step.panel)
            near, far, at = _parted(step, panel, kerf)
            if step.near is not None:
                bench[step.near] = near
            if step.far is not None:
                bench[step.far] = far
            kept = [each for each, name in ((near, step.near), (far, step.far)) if name is not None]
            gives = () if step.trim else tuple(self._named(each) for each in kept)
            yield CutLineStated(str(step.way.value), self._length(step.at), _line(step, panel, at), step.trim, gives)

    def _named(self, panel: Rectangle) -> str:
        """What lies there after a cut: a part's number, "offcut", or "" for what is cut on."""
        for each in self.told.placed:
            if each.place == panel:
                return str(self.plan.of_key(each.piece).part.number)
        return "offcut" if panel in self.told.offcuts else ""

    def _size(self, length: float, width: float) -> str:
        return self._length(length) if self.is_rod else f"{self._length(length)} × {self._length(width)}"

    def _both(self, length: float, width: float) -> str:
        printed = [print_quantity(Quantity(float(each), LENGTH), self.units, Precision.WOODWORK)
                   for each in ((length,) if self.is_rod else (length, width))]  # fmt: skip
        own, other = " × ".join(each.text for each in printed), " × ".join(each.other for each in printed)
        return f"{own} {UNIT_SIGNS[self.units]} [{other} {printed[0].other_unit}]"

    def _length(self, nm: float) -> str:
        return print_quantity(Quantity(float(nm), LENGTH), self.units, Precision.WOODWORK).text


def _corner_words(left: Corners) -> str:
    """`2 of the notch rear post`: how many, and of what; a name that says its kind needs no more."""
    name = left.feature.replace("_", " ")
    kind = "" if left.kind in name.split() else f"{left.kind} "
    return f"{left.count} of {f'the {kind}{name}' if name else 'its outline'}"


def _box(place: Rectangle) -> tuple[float, float, float, float]:
    return float(place.x), float(place.y), float(place.length), float(place.width)


def _parted(step: Step, panel: Rectangle, kerf: int) -> tuple[Rectangle, Rectangle, int]:
    """The near and far side of a cut, and where its line runs, from the panel's own corner."""
    whole = panel.width if step.way is Way.RIP else panel.length
    if step.trim:
        at = whole - step.at if step.near is not None else step.at
        sides = (0, at), (at, whole - at)
    else:
        at = min(step.at + kerf // 2, whole)
        sides = (0, step.at), (step.at + kerf, max(whole - step.at - kerf, 0))
    near, far = (_side(step.way, panel, start, size) for start, size in sides)
    return near, far, at


def _side(way: Way, panel: Rectangle, start: int, size: int) -> Rectangle:
    if way is Way.RIP:
        return Rectangle(panel.x, panel.y + start, panel.length, size)
    return Rectangle(panel.x + start, panel.y, size, panel.width)


def _line(step: Step, panel: Rectangle, at: int) -> tuple[float, float, float, float]:
    if step.way is Way.RIP:
        return float(panel.x), float(panel.y + at), float(panel.x + panel.length), float(panel.y + at)
    return float(panel.x + at), float(panel.y), float(panel.x + at), float(panel.y + panel.width)
