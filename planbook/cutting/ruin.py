"""One sheet fewer: panels emptied at random and filled anew, with fewer and fewer setbacks allowed.

The pieces of the emptiest sheet are taken in hand, and room is sought for them on the others. Ruin and recreate is due
to G. Schrimpf and others, Journal of Computational Physics 159 (2000) 139-171; one bin fewer as the goal, with
guillotine cuts, to J. Gardeyn and T. Wauters, EJOR 301 (2022) 444-456.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import sqrt
from random import Random

from planbook.cutting.filling import Node, Sheet
from planbook.cutting.search import Filled, RuleT, Search

_HOT = 0.06
"""The largest setback that is put up with at first, in parts of a sheet's area."""
_EMPTIED = 12
"""Most pieces in a panel that is emptied."""
_BLINK = 0.03
"""How often a place is overlooked."""


def make_room(search: Search[RuleT, Sheet], effort: int, across_only: bool) -> None:
    """Plans with one sheet fewer, offered to the search, until this much effort is spent in all.

    Where there is none, then one with as little as was found on the last sheet, for the sake of its offcut.
    """
    while search.looks < effort and not search.best.left:
        goal = _Goal(search, across_only)
        if not goal.movable:
            return
        if not goal.reach(effort):
            goal.settle()
            return


class _Goal:
    def __init__(self, search: Search[RuleT, Sheet], across_only: bool) -> None:
        self.search, self.problem, self.across_only = search, search.problem, across_only
        self.random = Random(1)
        self.whole = float(max(each.area for each in self.problem.bins))
        self.pinned = {index for unit in self.problem.units if len(unit) > 1 for index in unit}
        sheets = sorted(search.best.sheets, key=lambda sheet: self.problem.area_of(sheet.kinds()))
        given_up = next((sheet for sheet in sheets if not self.pinned.intersection(sheet.kinds())), None)
        self.movable = given_up is not None and len(sheets) > 1
        self.last = given_up
        self.bins = [sheet.bin for sheet in sheets if sheet is not given_up]
        self.roots = [sheet.root.copy() for sheet in sheets if sheet is not given_up]
        self.hand = [] if given_up is None else given_up.kinds()
        self.least = (self.roots, self.hand)

    def reach(self, effort: int) -> bool:
        """Whether there was room for all in hand."""
        search, start = self.search, self.search.looks
        cost = lowest = self.problem.area_of(self.hand) / self.whole
        while search.looks < effort:
            ahead = (effort - search.looks) / (effort - start)
            roots, hand = self._ruined()
            self._recreate(roots, hand)
            if not hand:
                search.offer(Filled(self._sheets(roots), [], 0))
                return True
            new = self.problem.area_of(hand) / self.whole
            if new < lowest:
                lowest, self.least = new, (roots, list(hand))
            if new <= cost + _HOT * ahead * ahead * ahead * self.random.random():
                self.roots, self.hand, cost = roots, hand, new
        return False

    def settle(self) -> None:
        """The least that was in hand on the last sheet, with the largest offcut that the rules give."""
        roots, hand = self.least
        if self.last is None or hand == self.last.kinds():
            return
        unit = tuple(sorted(hand, key=lambda index: -self.problem.kinds[index].area))
        for rule in self.search.rules:
            filled = self.search.fill(self.problem, [unit], rule, [self.last.bin])
            self.search.looks += filled.looks
            if not filled.left:
                self.search.offer(Filled([*self._sheets(roots), *filled.sheets], [], 0))

    def _sheets(self, roots: list[Node]) -> list[Sheet]:
        return [Sheet(bin_, root) for bin_, root in zip(self.bins, roots, strict=True)]

    def _ruined(self) -> tuple[list[Node], list[int]]:
        """A panel on one sheet or on two emptied; the other sheets are shared with the state before."""
        roots, hand = list(self.roots), list(self.hand)
        for _ in range(1 + (self.random.random() < 0.5)):
            at = int(self.random.random() * len(roots))
            root = roots[at].copy()
            panels = [node for node, count in counted(root) if 0 < count <= _EMPTIED]
            if not panels:
                continue
            panel = panels[int(self.random.random() * len(panels))]
            kinds = [leaf.kind for leaf in panel.leaves() if leaf.kind >= 0]
            if self.pinned.intersection(kinds):
                continue
            hand += kinds
            panel.clear()
            joined(root)
            roots[at] = root
            self.search.looks += 100
        return roots, hand

    def _recreate(self, roots: list[Node], hand: list[int]) -> None:
        """Those in hand, large first by a changing idea of large, each into the panel where it spoils the least."""
        kinds, random = self.problem.kinds, self.random
        idea = int(random.random() * 4)
        noise = 0.2 * random.random()

        def size(index: int) -> float:
            kind = kinds[index]
            of = sqrt(kind.area), kind.length, kind.width, max(kind.length, kind.width)
            return float(of[idea]) * (1 - noise * random.random())

        free = [(at, leaf) for at, root in enumerate(roots) for leaf in root.leaves() if leaf.kind < 0]
        fresh = {at for at, root in enumerate(roots) if root is not self.roots[at]}
        left: list[int] = []
        for index in sorted(hand, key=size, reverse=True):
            found = self._seek(index, free)
            if found is None:
                left.append(index)
                continue
            place, length, width, turned, across = found
            at, node = free[place]
            if at not in fresh:
                node = self._own(roots, at, node)
                fresh.add(at)
                free = [each for each in free if each[0] != at]
                free += [(at, leaf) for leaf in roots[at].leaves() if leaf.kind < 0 and leaf is not node]
            else:
                free.pop(place)
            free += [(at, leaf) for leaf in node.hold(index, length, width, turned, across)]
        hand[:] = left

    def _own(self, roots: list[Node], at: int, node: Node) -> Node:
        """The same panel in a copy of its sheet, which may be changed."""
        roots[at] = roots[at].copy()
        return next(leaf for leaf in roots[at].leaves() if leaf.kind < 0 and (leaf.x, leaf.y) == (node.x, node.y))

    def _seek(self, index: int, free: list[tuple[int, Node]]) -> tuple[int, int, int, bool, bool] | None:
        best, found = 0.0, None
        random, whole = self.random.random, self.whole
        self.search.looks += len(free)
        for place, (_, node) in enumerate(free):
            for length, width, turned in self.problem.kinds[index].ways:
                gap_x, gap_y = node.length - length, node.width - width
                if gap_x < 0 or gap_y < 0 or random() < _BLINK:
                    continue
                panel = worth(node.length * node.width / whole)
                across = panel - worth(gap_x * node.width / whole) - worth(length * gap_y / whole)
                along = panel - worth(gap_y * node.length / whole) - worth(width * gap_x / whole)
                loss = across if self.across_only or across <= along else along
                if found is None or loss < best:
                    best, found = loss, (place, length, width, turned, self.across_only or across <= along)
        return found


def worth(area: float) -> float:
    """Of a free panel: its area to the power of 9/8, for one large is worth more than two small ones.

    Square roots are the same on every machine, other powers need not be.
    """
    return area * sqrt(sqrt(sqrt(area)))


def counted(root: Node) -> Iterator[tuple[Node, int]]:
    """Every panel with how many pieces it holds, the parts before the whole."""
    count = int(root.kind >= 0)
    for part in (root.near, root.far):
        if part is not None:
            for node, pieces in counted(part):
                yield node, pieces
            count += pieces
    yield root, count


def joined(node: Node) -> bool:
    """Join free parts to free panels; whether it is free altogether."""
    if not node.across:
        return node.kind < 0
    near = node.near is None or joined(node.near)
    far = node.far is None or joined(node.far)
    if near and far:
        node.clear()
    return near and far
