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


class Filling(Protocol):
    """A sheet with pieces on it."""

    bin: Bin

    def kinds(self) -> list[int]:
        """The kinds of its pieces."""

    def largest_left(self) -> int:
        """Area of the largest rectangle left."""


SheetT = TypeVar("SheetT", bound=Filling)
RuleT = TypeVar("RuleT")


@dataclass
class Filled(Generic[SheetT]):
    """The sheets opened, the units for which there was no room, and the looks it took."""

    sheets: list[SheetT]
    left: list[tuple[int, ...]]
    looks: int

    def score(self, problem: Problem) -> Score:
        """The less the better: area left out, sheets, area bought, and the largest offcut counted against it."""
        return (
            sum(problem.area_of(unit) for unit in self.left),
            len(self.sheets),
            sum(sheet.bin.stock.area for sheet in self.sheets),
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
        self.order: Order = next(orders(problem))
        self.rule = rules[0]
        self.best = fill(problem, self.order, self.rule, problem.bins)
        self.score = self.best.score(problem)

    def run(self) -> Filled[SheetT]:
        """All sorted orders with all rules, then variations while there is effort left."""
        ranked: list[tuple[Score, int]] = []
        for order, number in product(orders(self.problem), range(len(self.rules))):
            if self.spent:
                break
            ranked.append((self.attempt(order, self.rules[number]), number))
        self._vary([self.rules[number] for number in dict.fromkeys(number for _, number in sorted(ranked))])
        sheets = smaller_stock(self)
        return Filled(sheets, self.best.left, self.looks)

    @property
    def spent(self) -> bool:
        """Where sheets and area are proved, only the offcut is left to better: a share of the effort is enough."""
        proved = self.score[:3] == (0, self.bound.count, self.bound.area)
        return self.looks >= (self.effort // _SHARE if proved else self.effort)

    def attempt(self, order: Order, rule: RuleT) -> Score:
        """One filling; kept if it is no worse."""
        filled = self.fill(self.problem, order, rule, self.problem.bins)
        self.looks += filled.looks + len(order)
        score = filled.score(self.problem)
        if score <= self.score:
            self.best, self.score, self.order, self.rule = filled, score, order, rule
        return score

    def _vary(self, rules: Sequence[RuleT]) -> None:
        """With the rule that did best, or one of the better third."""
        random = Random(1)
        better = rules[: 1 + len(rules) // 3] or self.rules[:1]
        while not self.spent and len(self.order) > 1:
            rule = self.rule if random.random() < 0.5 else better[int(random.random() * len(better))]
            self.attempt(varied(self.order, random), rule)


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


def smaller_stock(search: Search[RuleT, SheetT]) -> list[SheetT]:
    """Each sheet's pieces in the smallest size that holds them, so far as it is available."""
    used: dict[str, int] = {}
    for sheet in search.best.sheets:
        used[sheet.bin.stock.key] = used.get(sheet.bin.stock.key, 0) + 1
    result: list[SheetT] = []
    for sheet in search.best.sheets:
        smaller = [
            each
            for each in sorted(search.problem.bins, key=lambda each: each.stock.area)
            if each.stock.area < sheet.bin.stock.area
            and (each.available is None or used.get(each.stock.key, 0) < each.available)
        ]
        result.append(_smallest(search, sheet, smaller))
        used[sheet.bin.stock.key] -= 1
        used[result[-1].bin.stock.key] = used.get(result[-1].bin.stock.key, 0) + 1
    return result


def _smallest(search: Search[RuleT, SheetT], sheet: SheetT, bins: Sequence[Bin]) -> SheetT:
    kinds = search.problem.kinds
    unit = tuple(sorted(sheet.kinds(), key=lambda index: -kinds[index].area))
    needed = search.problem.area_of(unit)
    for each in bins:
        if each.area < needed:
            continue
        for rule in search.rules:
            filled = search.fill(search.problem, [unit], rule, [each])
            search.looks += filled.looks
            if not filled.left:
                return filled.sheets[0]
    return sheet
