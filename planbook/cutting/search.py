"""Searching for the best filling: sorted orders first, then variations of the best, until the effort is spent."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from random import Random
from typing import Generic, Protocol, TypeVar

from planbook.cutting.plan import Bound
from planbook.cutting.problem import Bin, Problem

Order = Sequence[tuple[int, ...]]
Score = tuple[int, int, int, int]


_SHARE = 8
_PIECE = 8
"""Putting a piece down costs about as much as so many looks."""


SheetT = TypeVar("SheetT", bound="Filling")
RuleT = TypeVar("RuleT")


class Filling(Protocol):
    """A sheet with pieces on it."""

    bin: Bin

    def kinds(self) -> list[int]:
        """The kinds of its pieces."""

    def largest_left(self) -> int:
        """Area of the largest rectangle left."""

    def reach(self) -> tuple[int, int]:
        """How far its pieces reach along and across, kerf included."""

    def renumber(self, numbers: Sequence[int]) -> None:
        """Its pieces were of these kinds, told by their place in a shorter list."""

    def widened(self: SheetT, whole: Bin) -> SheetT:
        """The same pieces in the corner of a larger sheet."""


@dataclass
class Filled(Generic[SheetT]):
    """The sheets opened, the units for which there was no room, and the looks it took."""

    sheets: list[SheetT]
    left: list[tuple[int, ...]]
    looks: int

    @property
    def area(self) -> int:
        """As bought."""
        return sum(sheet.bin.stock.area for sheet in self.sheets)

    def score(self, problem: Problem) -> Score:
        """The less the better: area left out, sheets, area bought, and the largest offcut counted against it."""
        return (
            sum(problem.area_of(unit) for unit in self.left),
            len(self.sheets),
            self.area,
            -max((sheet.largest_left() for sheet in self.sheets), default=0),
        )


Fill = Callable[[Problem, Order, RuleT, Sequence[Bin]], Filled[SheetT]]


class Search(Generic[RuleT, SheetT]):
    """The best filling so far of one problem, with one way of filling and its rules."""

    def __init__(
        self, problem: Problem, fill: Fill[RuleT, SheetT], rules: Sequence[RuleT], bound: Bound, effort: int
    ) -> None:
        self.problem, self.fill, self.rules, self.bound, self.effort = problem, fill, rules, bound, effort
        self.looks = 0
        self.sorted = product(orders(problem), range(len(rules)), openings(problem.bins))
        self.ranked: list[tuple[Score, int]] = []
        self.random = Random(1)
        self.order: Order = next(orders(problem))
        self.rule = rules[0]
        self.bins: Sequence[Bin] = problem.bins
        self.best = fill(problem, self.order, self.rule, problem.bins)
        self.score = self.best.score(problem)

    def offer(self, filled: Filled[SheetT]) -> None:
        """A filling found in another way; kept if it is no worse, its order to be varied."""
        self.looks += filled.looks
        score = filled.score(self.problem)
        if score <= self.score:
            self.best, self.score = filled, score

    def run(self, effort: int) -> None:
        """All sorted orders with all rules, if that was not done; then variations, up to this much effort in all."""
        for order, number, bins in self.sorted:
            self.ranked.append((self.attempt(order, self.rules[number], bins), number))
            if self.spent or self.looks >= effort:
                return
        ranked = dict.fromkeys(number for _, number in sorted(self.ranked))
        self._vary([self.rules[number] for number in ranked], effort)

    @property
    def spent(self) -> bool:
        """Where sheets and area are proved, only the offcut is left to better: a share of the effort is enough."""
        proved = self.score[:3] == (0, self.bound.count, self.bound.area)
        return self.looks >= (self.effort // _SHARE if proved else self.effort)

    def attempt(self, order: Order, rule: RuleT, bins: Sequence[Bin]) -> Score:
        """One filling, sheets opened in the first of these sizes that will do; kept if it is no worse."""
        filled = self.fill(self.problem, order, rule, bins)
        self.looks += filled.looks + _PIECE * len(order)
        score = filled.score(self.problem)
        if score <= self.score:
            self.best, self.score, self.order, self.rule, self.bins = filled, score, order, rule, bins
        return score

    def _vary(self, rules: Sequence[RuleT], effort: int) -> None:
        """With the rule that did best, or one of the better third."""
        random = self.random
        better = rules[: 1 + len(rules) // 3] or self.rules[:1]
        while not self.spent and self.looks < effort and len(self.order) > 1:
            rule = self.rule if random.random() < 0.5 else better[int(random.random() * len(better))]
            self.attempt(varied(self.order, random), rule, self.bins)


def openings(bins: Sequence[Bin]) -> Iterator[Sequence[Bin]]:
    """The sizes as they are, the largest first; then each of the others before them."""
    yield bins
    for number in range(1, len(bins)):
        yield (bins[number], *bins[:number], *bins[number + 1 :])


def orders(problem: Problem) -> Iterator[Order]:
    """Units sorted large first, by six ideas of large; groups before single pieces, for they are harder to place."""
    ideas: tuple[Callable[[int, int], tuple[int, int]], ...] = (
        lambda length, width: (length * width, max(length, width)),
        lambda length, width: (max(length, width), min(length, width)),
        lambda length, width: (min(length, width), max(length, width)),
        lambda length, width: (length + width, length * width),
        lambda length, width: (length, width),
        lambda length, width: (width, length),
    )
    for idea in ideas:
        sizes = [idea(kind.length, kind.width) for kind in problem.kinds]
        yield sorted(problem.units, key=lambda unit: (len(unit) == 1, *(-size for size in sizes[unit[0]]), unit))


def varied(order: Order, random: Random) -> Order:
    """The order with a few units swapped, or brought forward."""
    new = list(order)
    for _ in range(1 + int(random.random() * 3)):
        one, other = int(random.random() * len(new)), int(random.random() * len(new))
        if random.random() < 0.5:
            new[one], new[other] = new[other], new[one]
        else:
            new.insert(min(one, other), new.pop(max(one, other)))
    return new
