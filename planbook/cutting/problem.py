"""A job as the search sees it: piece and stock both larger by the kerf, so that pieces may touch.

n pieces and the n - 1 kerfs between them fit in a length L when the n sizes, each with a kerf, fit in L and a kerf.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from planbook.cutting.model import Job, Piece, Stock
from planbook.cutting.plan import Doubt, Doubtful, Unplaced, Why


@dataclass(frozen=True)
class Kind:
    """Pieces alike, kerf included. `ways`: the (length, width, turned) in which one may lie in some bin.

    `covers` is the area of one that has an outline, where it is nested by that.
    """

    piece: Piece
    length: int
    width: int
    quantity: int
    ways: tuple[tuple[int, int, bool], ...]
    covers: int | None = None

    @property
    def area(self) -> int:
        """Of one, kerf included."""
        return self.length * self.width if self.covers is None else self.covers


@dataclass(frozen=True)
class Bin:
    """One size of stock within its trim, kerf included."""

    stock: Stock
    length: int
    width: int
    available: int | None

    @property
    def area(self) -> int:
        """Within the trim."""
        return self.length * self.width


@dataclass(frozen=True)
class Problem:
    """Pieces that fit in some bin; the largest bin first. `units`: what must stay together, by index of kind."""

    kinds: tuple[Kind, ...]
    bins: tuple[Bin, ...]
    kerf: int
    units: tuple[tuple[int, ...], ...]

    def area_of(self, indices: Iterable[int]) -> int:
        """Of these kinds, one of each."""
        return sum(self.kinds[index].area for index in indices)

    def without(self, left: Iterable[tuple[int, ...]]) -> Problem:
        """What remains to be cut when these units are given up."""
        missing = Counter(index for unit in left for index in unit)
        if not missing:
            return self
        kept = (replace(kind, quantity=kind.quantity - missing[index]) for index, kind in enumerate(self.kinds))
        kinds = tuple(kind for kind in kept if kind.quantity)
        return replace(self, kinds=kinds, units=_units(kinds))


def pose(job: Job) -> tuple[Problem, tuple[Unplaced, ...], tuple[Doubtful, ...]]:
    """The problem, the pieces that cannot be in it, and what is doubtful in the job."""
    kerf = max(0, job.kerf)
    bins = tuple(
        Bin(stock, stock.clear_length + kerf, stock.clear_width + kerf, stock.available)
        for stock in sorted(job.stocks, key=lambda stock: (-stock.area, -stock.length, stock.key))
        if stock.clear_length > 0 and stock.clear_width > 0 and stock.available != 0
    )
    kinds: list[Kind] = []
    unplaced: list[Unplaced] = []
    doubts = [Doubtful(Doubt.NO_KERF)] if job.kerf <= 0 and job.pieces else []
    for piece in job.pieces:
        if piece.quantity <= 0:
            continue
        why, ways = _ways(piece, kerf, bins)
        if why is not None:
            unplaced.append(Unplaced(piece.key, piece.quantity, why))
            continue
        if kerf > min(piece.length, piece.width):
            doubts.append(Doubtful(Doubt.KERF_OVER_PIECE, piece.key))
        kinds.append(Kind(piece, piece.length + kerf, piece.width + kerf, piece.quantity, ways))
    return Problem(tuple(kinds), bins, kerf, _units(kinds)), tuple(unplaced), tuple(doubts)


def _ways(piece: Piece, kerf: int, bins: Sequence[Bin]) -> tuple[Why | None, tuple[tuple[int, int, bool], ...]]:
    if piece.length <= 0 or piece.width <= 0:
        return Why.NO_SIZE, ()
    if not bins:
        return Why.NO_STOCK, ()
    length, width = piece.length + kerf, piece.width + kerf
    ways = [(length, width, False)]
    if piece.turnable and length != width:
        ways.append((width, length, True))
    fitting = tuple(way for way in ways if any(way[0] <= each.length and way[1] <= each.width for each in bins))
    return (None, fitting) if fitting else (Why.TOO_LARGE, ())


def _units(kinds: Sequence[Kind]) -> tuple[tuple[int, ...], ...]:
    groups: dict[str, list[int]] = {}
    alone: list[tuple[int, ...]] = []
    for index, kind in enumerate(kinds):
        if kind.piece.group is None:
            alone += [(index,)] * kind.quantity
        else:
            groups.setdefault(kind.piece.group, []).extend([index] * kind.quantity)
    together = [tuple(sorted(each, key=lambda index: -kinds[index].area)) for each in groups.values()]
    return (*together, *alone)
