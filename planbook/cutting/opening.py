"""Filling sheets unit by unit, a new one where there is no room: what all ways of filling have in common."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Sequence
from typing import Generic

from planbook.cutting.problem import Bin, Problem
from planbook.cutting.search import Filled, Order, SheetT


class Filler(ABC, Generic[SheetT]):
    """The state of one filling. `ways`: how each kind may lie, in the order in which it is tried."""

    def __init__(self, problem: Problem, bins: Sequence[Bin], turn_first: bool) -> None:
        self.ways = [kind.ways[::-1] if turn_first else kind.ways for kind in problem.kinds]
        self.bins = bins
        self.opened = [0] * len(bins)
        self.sheets: list[SheetT] = []
        self.left: list[tuple[int, ...]] = []
        self.looks = 0

    @abstractmethod
    def new(self, bin_: Bin) -> SheetT:
        """An empty sheet."""

    @abstractmethod
    def place(self, kind: int, sheets: Sequence[SheetT]) -> bool:
        """Put one piece in the best place on these sheets; whether there is one."""

    @abstractmethod
    def together(self, unit: tuple[int, ...], sheet: SheetT) -> bool:
        """All of a unit on one sheet, or nothing."""

    def fill(self, order: Order) -> Filled[SheetT]:
        """Units in order, each into the sheets that are open, else into a new one of the first bin that it fits."""
        for unit in order:
            if not (self._on_open(unit) or self._on_new(unit)):
                self.left.append(unit)
        return Filled(self.sheets, self.left, self.looks)

    def _on_open(self, unit: tuple[int, ...]) -> bool:
        if len(unit) == 1:
            return self.place(unit[0], self.sheets)
        return any(self.together(unit, sheet) for sheet in self.sheets)

    def _on_new(self, unit: tuple[int, ...]) -> bool:
        for number, each in enumerate(self.bins):
            if each.available is not None and self.opened[number] >= each.available:
                continue
            sheet = self.new(each)
            if self.together(unit, sheet):
                self.sheets.append(sheet)
                self.opened[number] += 1
                return True
        return False
