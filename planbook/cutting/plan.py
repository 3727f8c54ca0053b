"""What is answered: layouts of sheets or boards, what could not be placed and why, and how good the plan is."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from planbook.cutting.model import Point


class Way(Enum):
    """Which way a cut runs: with a rip along the stock's length, with a crosscut across it."""

    RIP = "rip"
    CROSSCUT = "crosscut"


@dataclass(frozen=True)
class Rectangle:
    """A place on the stock as bought: x along its length, y across, from its first corner."""

    x: int
    y: int
    length: int
    width: int

    @property
    def area(self) -> int:
        """Its area."""
        return self.length * self.width


@dataclass(frozen=True)
class Placed:
    """A piece where it is cut. `turned`: its length lies across the stock."""

    piece: str
    place: Rectangle
    turned: bool = False
    outline: tuple[Point, ...] | None = None
    """Where a true outline was nested, it; its rectangle may then reach into that of another."""
    holes: tuple[tuple[Point, ...], ...] = ()
    """The openings within it."""


@dataclass(frozen=True)
class Cut:
    """A panel parted in two by one straight cut from edge to edge.

    `at`: the size of the near panel, from the panel's lower edge for a rip, from its left for a crosscut. `far` is None
    where the blade leaves nothing.
    """

    way: Way
    at: int
    near: Panel
    far: Panel | None


@dataclass(frozen=True)
class Panel:
    """A rectangle of stock on its way: parted by a cut, a finished piece, or an offcut."""

    place: Rectangle
    use: Cut | Placed | None


@dataclass(frozen=True)
class Layout:
    """One sheet or board, cut alike `times` over. `cuts` is the trimmed panel; None where a router cuts freely."""

    stock: str
    times: int
    placed: tuple[Placed, ...]
    offcuts: tuple[Rectangle, ...]
    """What is left in rectangles, the largest first; for nesting, those that do not overlap one another."""
    cuts: Panel | None = None


class Why(Enum):
    """Why a piece is in no layout."""

    NO_STOCK = "no stock"
    TOO_LARGE = "larger than any stock"
    GROUP_TOO_LARGE = "its group does not fit in one piece of stock"
    """No way was found."""
    USED_UP = "the stock is used up"
    NO_SIZE = "a piece without a size"


@dataclass(frozen=True)
class Unplaced:
    """Pieces that are in no layout."""

    piece: str
    quantity: int
    why: Why


class Doubt(Enum):
    """What was taken as it was given, though it is hardly meant."""

    NO_KERF = "a kerf of zero"
    KERF_OVER_PIECE = "a kerf wider than the piece"


@dataclass(frozen=True)
class Doubtful:
    """A doubt, and the piece that it is about."""

    doubt: Doubt
    piece: str | None = None


@dataclass(frozen=True)
class Bound:
    """No plan of the placed pieces has fewer sheets, nor, whatever their number, less area bought."""

    count: int
    area: int
    by: str
    """The argument that gives the count: area, conflicts, dual feasible functions, counted sizes, patterns."""


@dataclass(frozen=True)
class Plan:
    """The best found. The same job and effort give the same plan, on any machine."""

    layouts: tuple[Layout, ...]
    unplaced: tuple[Unplaced, ...]
    doubts: tuple[Doubtful, ...]
    bound: Bound
    area: int
    """Of the stock bought."""
    work: int
    """Steps of search that it took."""

    @property
    def count(self) -> int:
        """Sheets or boards."""
        return sum(layout.times for layout in self.layouts)

    @property
    def proved(self) -> bool:
        """No plan gets these pieces from fewer."""
        return self.count == self.bound.count

    @property
    def proved_area(self) -> bool:
        """Nor from less area bought."""
        return self.area == self.bound.area
