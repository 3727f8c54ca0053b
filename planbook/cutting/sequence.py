"""Sheet by sheet: each takes the most valuable pieces that are left, at values that are corrected from plan to plan.

What ended on wasteful sheets is worth more the next time, and so goes onto a sheet with better company.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Generic

from planbook.cutting.problem import Bin, Kind
from planbook.cutting.search import Filled, RuleT, Search, SheetT

Choose = Callable[[Bin, Sequence[Kind], Sequence[int]], tuple[SheetT, Sequence[int], int]]
"""A sheet of this size with the best of these kinds, at so much each; how many of each are on it; and the looks."""

_SCALE = 1_000_000


class Sequences(Generic[RuleT, SheetT]):
    """Plans made sheet by sheet, offered to a search. Only where no pieces belong together and stock is unlimited."""

    def __init__(self, search: Search[RuleT, SheetT], values: Sequence[float] | None = None) -> None:
        self.search = search
        self.kinds = search.problem.kinds
        self.values = [float(kind.area) for kind in self.kinds] if values is None else list(values)

    def plan(self, choose: Choose[SheetT], random: float) -> None:
        """One plan; `random` between 0 and 1 says how fast values follow."""
        left = [kind.quantity for kind in self.kinds]
        sheets: list[SheetT] = []
        whole = self.search.problem.bins[0]
        while any(left):
            if self.search.spent:
                return
            numbers = [number for number, count in enumerate(left) if count]
            kinds = [replace(self.kinds[number], quantity=left[number]) for number in numbers]
            top = max(self.values[number] for number in numbers)
            values = [1 + int(self.values[number] / top * _SCALE) for number in numbers]
            sheet, counts, looks = choose(whole, kinds, values)
            self.search.looks += looks
            if not any(counts):
                return
            sheet.renumber(numbers)
            sheets.append(sheet)
            self._correct(numbers, counts, whole, random)
            for number, count in zip(numbers, counts, strict=True):
                left[number] -= count
        self.search.offer(Filled(sheets, [], 0))

    def _correct(self, numbers: Sequence[int], counts: Sequence[int], whole: Bin, random: float) -> None:
        used = sum(self.kinds[number].area * count for number, count in zip(numbers, counts, strict=True))
        for number, count in zip(numbers, counts, strict=True):
            if count:
                fair = self.kinds[number].area * whole.area / used
                self.values[number] += (0.3 + 0.4 * random) * (fair - self.values[number])
