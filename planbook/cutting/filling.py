"""Filling sheets piece by piece with cuts from edge to edge: each piece takes the corner of a panel, which is parted in
two. The choices of panel and of cut are those of J. Jylänki, "A thousand ways to pack the bin" (2010).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import Enum

from planbook.cutting.opening import Filler
from planbook.cutting.problem import Bin, Problem
from planbook.cutting.search import Filled, Order


class Node:
    """A panel while it is being filled, kerf included: parted in `near` and `far` across x or y, or holding a kind."""

    __slots__ = ("across", "far", "kind", "length", "near", "turned", "width", "x", "y")

    def __init__(self, x: int, y: int, length: int, width: int) -> None:
        self.x, self.y, self.length, self.width = x, y, length, width
        self.clear()

    def clear(self) -> None:
        """Whole and free again."""
        self.across = ""
        self.near: Node | None = None
        self.far: Node | None = None
        self.kind = -1
        self.turned = False

    def copy(self, over: int = 0, up: int = 0) -> Node:
        """A panel with all that is in it, moved by so much."""
        new = Node(self.x + over, self.y + up, self.length, self.width)
        new.across, new.kind, new.turned = self.across, self.kind, self.turned
        new.near = None if self.near is None else self.near.copy(over, up)
        new.far = None if self.far is None else self.far.copy(over, up)
        return new

    def take(self, other: Node) -> None:
        """The content of a panel of the same size and place."""
        self.across, self.near, self.far = other.across, other.near, other.far
        self.kind, self.turned = other.kind, other.turned

    def leaves(self) -> Iterator[Node]:
        """Its pieces and what is left."""
        if not self.across:
            yield self
        for part in (self.near, self.far):
            if part is not None:
                yield from part.leaves()

    def part(self, across: str, at: int) -> tuple[Node, Node | None]:
        """Cut across x or y at a distance from its own corner; no far part where nothing is left."""
        self.across = across
        if across == "x":
            self.near = Node(self.x, self.y, at, self.width)
            rest = self.length - at
            self.far = Node(self.x + at, self.y, rest, self.width) if rest else None
        else:
            self.near = Node(self.x, self.y, self.length, at)
            rest = self.width - at
            self.far = Node(self.x, self.y + at, self.length, rest) if rest else None
        return self.near, self.far

    def hold(self, kind: int, length: int, width: int, turned: bool, across_first: bool = True) -> list[Node]:
        """Put a piece of this size into the corner; the panels that are left beside it."""
        cuts = (("x", length), ("y", width)) if across_first else (("y", width), ("x", length))
        node, free = self, []
        for across, at in cuts:
            if at < (node.length if across == "x" else node.width):
                node, far = node.part(across, at)
                free += [] if far is None else [far]
        node.kind, node.turned = kind, turned
        return free


class Fit(Enum):
    """Which panel a piece takes: the one in which this is least."""

    AREA = "area left over"
    SHORT = "shorter of the two gaps"
    LONG = "longer of the two gaps"


class Parting(Enum):
    """Which cut goes right through the panel."""

    CROSSCUT = "always across"
    RIP = "always along"
    LARGE = "the one that leaves the largest panel"
    EVEN = "the one that leaves the more even panels"
    SHORTER = "along the shorter gap"


@dataclass(frozen=True)
class Rule:
    """One way of filling."""

    fit: Fit
    parting: Parting
    turn_first: bool = False
    """Of two equally good ways to lie, the turned one."""


class Sheet:
    """A bin that has been opened. `free`: panels without a piece."""

    __slots__ = ("bin", "free", "root")

    def __init__(self, bin_: Bin, root: Node | None = None) -> None:
        self.bin = bin_
        self.root = Node(0, 0, bin_.length, bin_.width) if root is None else root
        self.free = [leaf for leaf in self.root.leaves() if leaf.kind < 0]

    def kinds(self) -> list[int]:
        """The kinds of its pieces."""
        return [leaf.kind for leaf in self.root.leaves() if leaf.kind >= 0]

    def largest_left(self) -> int:
        """Area of its largest free panel."""
        return max((node.length * node.width for node in self.free), default=0)

    def reach(self) -> tuple[int, int]:
        """How far its pieces reach along and across, kerf included."""
        held = [leaf for leaf in self.root.leaves() if leaf.kind >= 0]
        return max(leaf.x + leaf.length for leaf in held), max(leaf.y + leaf.width for leaf in held)

    def renumber(self, numbers: Sequence[int]) -> None:
        """Its pieces were of these kinds, told by their place in a shorter list."""
        for leaf in self.root.leaves():
            if leaf.kind >= 0:
                leaf.kind = numbers[leaf.kind]

    def widened(self, whole: Bin) -> Sheet:
        """The same pieces in the corner of a larger sheet."""
        root = node = Node(0, 0, whole.length, whole.width)
        for across, at, size in (("x", self.bin.length, whole.length), ("y", self.bin.width, whole.width)):
            if at < size:
                node, _ = node.part(across, at)
        node.take(self.root)
        return Sheet(whole, root)


def fill(problem: Problem, order: Order, rule: Rule, bins: Sequence[Bin]) -> Filled[Sheet]:
    """Units in order, by one rule."""
    return _Filler(problem, rule, bins).fill(order)


class _Filler(Filler[Sheet]):
    def __init__(self, problem: Problem, rule: Rule, bins: Sequence[Bin]) -> None:
        super().__init__(problem, bins, rule.turn_first)
        self.rule = rule

    def new(self, bin_: Bin) -> Sheet:
        return Sheet(bin_)

    def together(self, unit: tuple[int, ...], sheet: Sheet) -> bool:
        before = list(sheet.free)
        for kind in unit:
            if not self.place(kind, (sheet,)):
                for node in before:
                    node.clear()
                sheet.free = before
                return False
        return True

    def place(self, kind: int, sheets: Sequence[Sheet]) -> bool:
        best = self._seek(kind, sheets)
        if best is None:
            return False
        sheet, node, length, width, turned = best
        sheet.free.remove(node)
        sheet.free += node.hold(kind, length, width, turned, self._across_first(node, length, width))
        return True

    def _seek(self, kind: int, sheets: Sequence[Sheet]) -> tuple[Sheet, Node, int, int, bool] | None:
        fit, best, found = self.rule.fit, None, None
        for sheet in sheets:
            self.looks += len(sheet.free)
            for node in sheet.free:
                for length, width, turned in self.ways[kind]:
                    gap_x, gap_y = node.length - length, node.width - width
                    if gap_x < 0 or gap_y < 0:
                        continue
                    if fit is Fit.SHORT:
                        badness = min(gap_x, gap_y)
                    elif fit is Fit.AREA:
                        badness = node.length * node.width
                    else:
                        badness = max(gap_x, gap_y)
                    if best is None or badness < best:
                        best, found = badness, (sheet, node, length, width, turned)
        return found

    def _across_first(self, node: Node, length: int, width: int) -> bool:
        """Whether the crosscut goes right through, and the rip only beside the piece."""
        gap_x, gap_y = node.length - length, node.width - width
        parting = self.rule.parting
        if parting is Parting.CROSSCUT:
            return True
        if parting is Parting.RIP:
            return False
        if parting is Parting.SHORTER:
            return gap_x > gap_y
        whole_x, whole_y = gap_x * node.width, gap_y * node.length
        if parting is Parting.LARGE:
            return whole_x >= whole_y
        return max(whole_x, length * gap_y) < max(whole_y, width * gap_x)
