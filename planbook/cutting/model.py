"""What is asked: pieces, the stock they may be cut from, and the tool that parts them. Whole numbers of one unit."""

from __future__ import annotations

from dataclasses import dataclass

Point = tuple[int, int]


@dataclass(frozen=True)
class Piece:
    """One kind of rectangle to cut, `length` along the grain. `quantity`: exactly so many."""

    key: str
    length: int
    width: int
    quantity: int = 1
    turnable: bool = False
    """May lie with its length across the stock: where grain does not matter."""
    group: str | None = None
    """All pieces of one group come from one sheet or board: matching grain."""
    outline: tuple[Point, ...] | None = None
    """For a router: its true outline, which fills the rectangle from (0, 0) to (length, width)."""
    holes: tuple[tuple[Point, ...], ...] = ()
    """Openings within that outline, in which smaller pieces may lie."""

    @property
    def area(self) -> int:
        """Of one."""
        return self.length * self.width


@dataclass(frozen=True)
class Stock:
    """One size that is sold, `length` along the grain."""

    key: str
    length: int
    width: int
    available: int | None = None
    """How many there are; None: as many as needed."""
    end_trim: int = 0
    """Taken off both ends, kerf included: defects, checks, a damaged edge."""
    edge_trim: int = 0
    """Taken off both long edges, kerf included."""

    @property
    def area(self) -> int:
        """As bought."""
        return self.length * self.width

    @property
    def clear_length(self) -> int:
        """Between the trimmed ends."""
        return self.length - 2 * self.end_trim

    @property
    def clear_width(self) -> int:
        """Between the trimmed edges."""
        return self.width - 2 * self.edge_trim


@dataclass(frozen=True)
class Job:
    """Pieces to get from stock with a tool that turns `kerf` to dust: the saw's kerf or the cutter's diameter."""

    pieces: tuple[Piece, ...]
    stocks: tuple[Stock, ...]
    kerf: int
