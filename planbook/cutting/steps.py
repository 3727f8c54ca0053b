"""The cuts of a layout in the order in which they are made, and what they yield when they are made again."""

from __future__ import annotations

from dataclasses import dataclass

from planbook.cutting.model import Stock
from planbook.cutting.plan import Cut, Layout, Panel, Rectangle, Way


@dataclass(frozen=True)
class Step:
    """One cut. Panels are numbered as they arise; the sheet as bought is 0.

    A trimming cut takes `at` off the panel, kerf included: off its `near` side, or off the far one. Any other leaves
    `at` on the near side, which is what the fence is set to.
    """

    way: Way
    panel: int
    at: int
    near: int | None
    far: int | None
    turn: bool
    """The panel is turned before it: the cut before ran the other way."""
    trim: bool = False


def list_steps(layout: Layout, stock: Stock) -> tuple[Step, ...]:
    """Trim first; then each panel is cut through before the next is taken up, the near part before the far."""
    if layout.cuts is None:
        return ()
    lister = _Lister()
    lister.trim(stock)
    lister.cut(layout.cuts)
    return tuple(lister.steps)


class _Lister:
    def __init__(self) -> None:
        self.steps: list[Step] = []
        self.panels = 0

    def trim(self, stock: Stock) -> None:
        for way, at in ((Way.RIP, stock.edge_trim), (Way.CROSSCUT, stock.end_trim)):
            if at > 0:
                self._add(way, self.panels, at, near=False, far=True, trim=True)
                self._add(way, self.panels, at, near=True, far=False, trim=True)

    def cut(self, panel: Panel) -> None:
        waiting = [(panel, self.panels)]
        while waiting:
            each, number = waiting.pop()
            if not isinstance(each.use, Cut):
                continue
            made = each.use
            step = self._add(made.way, number, made.at, near=True, far=made.far is not None)
            if made.far is not None and step.far is not None:
                waiting.append((made.far, step.far))
            if step.near is not None:
                waiting.append((made.near, step.near))

    def _add(self, way: Way, panel: int, at: int, near: bool, far: bool, trim: bool = False) -> Step:
        numbers: list[int | None] = []
        for kept in (near, far):
            self.panels += kept
            numbers.append(self.panels if kept else None)
        turn = bool(self.steps) and self.steps[-1].way is not way
        self.steps.append(Step(way, panel, at, numbers[0], numbers[1], turn, trim))
        return self.steps[-1]


def replay(steps: tuple[Step, ...], stock: Stock, kerf: int) -> tuple[Rectangle, ...]:
    """What lies on the bench after the cuts, by the steps alone.

    Raises ValueError for a cut that no saw can make: of a panel that is not there, or beyond its edge.
    """
    bench = {0: Rectangle(0, 0, stock.length, stock.width)}
    for step in steps:
        panel = bench.pop(step.panel, None)
        if panel is None:
            raise ValueError(f"panel {step.panel} is not there to be cut")
        for number, (start, size) in _parts(step, panel, kerf):
            if size <= 0:
                raise ValueError(f"the cut of panel {step.panel} at {step.at} leaves nothing for {number}")
            bench[number] = (
                Rectangle(panel.x, panel.y + start, panel.length, size)
                if step.way is Way.RIP
                else Rectangle(panel.x + start, panel.y, size, panel.width)
            )
    return tuple(sorted(bench.values(), key=lambda place: (place.x, place.y, place.length, place.width)))


def _parts(step: Step, panel: Rectangle, kerf: int) -> list[tuple[int, tuple[int, int]]]:
    """Number, start and size across the cut of each panel that it leaves."""
    whole = panel.width if step.way is Way.RIP else panel.length
    if step.trim:
        kept = step.near if step.near is not None else step.far
        start = 0 if step.near is not None else step.at
        return [] if kept is None else [(kept, (start, whole - step.at))]
    if step.at >= whole:
        raise ValueError(f"panel {step.panel} is {whole} across and cannot be cut at {step.at}")
    parts = [] if step.near is None else [(step.near, (0, step.at))]
    rest = whole - step.at - kerf
    if step.far is None and rest > 0:
        raise ValueError(f"the cut of panel {step.panel} leaves {rest} that no step tells of")
    return parts if step.far is None else [*parts, (step.far, (step.at + kerf, rest))]
