"""As much as will go on one sheet, laid anywhere: a beam search along the skyline, for many pieces.

Pieces go one by one to either end of the lowest stretch. Of all ways to have laid so many pieces, only the most
promising are followed: with little waste, a skyline of few and even steps, and the large pieces gone. It finds perfect
packings of some thirty pieces, though it proves nothing where it finds none.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from planbook.cutting.free_filling import Lying
from planbook.cutting.problem import Kind
from planbook.cutting.skyline import Skyline, beside, lowest, replaced, start_of


@dataclass(frozen=True)
class Taste:
    """What promises well: weights of waste (per area of a mean piece), of steps in the skyline, of their height (per
    width of the sheet), and of the area laid."""

    waste: float
    steps: float
    height: float
    area: float


TASTES = (Taste(60, 2, 2, 9), Taste(24, 2, 4, 5), Taste(60, 2, 6, 12))
_LOOKS = 60
"""A state of the beam costs about as much as so many looks."""


@dataclass(frozen=True)
class _State:
    sky: Skyline
    left: tuple[int, ...]
    waste: int
    value: int
    last: Lying | None
    before: _State | None

    def path(self) -> tuple[Lying, ...]:
        state: _State | None = self
        lying: list[Lying] = []
        while state is not None and state.last is not None:
            lying.append(state.last)
            state = state.before
        return tuple(reversed(lying))


@dataclass(frozen=True)
class Packed:
    """The best found: its value, the pieces, whether all are there, and the work in looks."""

    value: int
    lying: tuple[Lying, ...]
    complete: bool
    work: int


def pack(
    size: tuple[int, int],
    kinds: Sequence[Kind],
    values: Sequence[int],
    beam: int,
    taste: Taste,
    spare: int | None = None,
) -> Packed:
    """On a sheet of this length and width, following `beam` ways at once; at most `spare` waste, if that is given."""
    return _Beam(size, kinds, values, taste, spare).run(beam)


class _Beam:
    def __init__(
        self, size: tuple[int, int], kinds: Sequence[Kind], values: Sequence[int], taste: Taste, spare: int | None
    ) -> None:
        self.length, self.width = size
        self.kinds, self.values, self.taste = kinds, values, taste
        self.spare = self.length * self.width if spare is None else spare
        self.moves = [
            (at, *way) for at in sorted(range(len(kinds)), key=lambda at: -kinds[at].area) for way in kinds[at].ways
        ]
        count = sum(kind.quantity for kind in kinds)
        self.mean = sum(kind.area * kind.quantity for kind in kinds) / max(1, count)
        self.worth = sum(kind.quantity * value for kind, value in zip(kinds, values, strict=True)) / max(1, count)
        self.work = 0

    def run(self, beam: int) -> Packed:
        states = [_State(((self.length, 0),), tuple(kind.quantity for kind in self.kinds), 0, 0, None, None)]
        best = states[0]
        while states:
            found: dict[tuple[Skyline, tuple[int, ...]], tuple[float, _State]] = {}
            for state in states:
                for after in self._after(state):
                    self.work += _LOOKS
                    key = after.sky, after.left
                    if key not in found:
                        found[key] = self._badness(after), after
            ranked = sorted(found.items(), key=lambda each: (each[1][0], each[0]))[:beam]
            states = [state for _, (_, state) in ranked]
            best = max((best, *states), key=lambda state: state.value)
            if states and not any(states[0].left):
                break
        return Packed(best.value, best.path(), not any(best.left), self.work)

    def _after(self, state: _State) -> Iterator[_State]:
        """One piece more, at the left or the right end of the lowest stretch that has room for any."""
        sky, waste = state.sky, state.waste
        while True:
            at = lowest(sky)
            run, low = sky[at]
            room = self.width - low
            moves = [move for move in self.moves if state.left[move[0]] and move[1] <= run and move[2] <= room]
            if moves or room <= 0:
                break
            up = min(beside(sky, at, self.width))
            waste += run * (up - low)
            if waste > self.spare:
                return
            sky = replaced(sky, at, ((run, up),))
        start = start_of(sky, at)
        for kind, length, width, turned in moves:
            left = (*state.left[:kind], state.left[kind] - 1, *state.left[kind + 1 :])
            value = state.value + self.values[kind]
            piece, rest = (length, low + width), (run - length, low)
            lying = Lying(kind, start, low, length, width, turned)
            yield _State(replaced(sky, at, (piece, rest)), left, waste, value, lying, state)
            if run > length:
                lying = Lying(kind, start + run - length, low, length, width, turned)
                yield _State(replaced(sky, at, (rest, piece)), left, waste, value, lying, state)

    def _badness(self, state: _State) -> float:
        heights = [height for _, height in state.sky]
        climb = sum(abs(one - other) for one, other in pairwise(heights))
        taste = self.taste
        return (
            taste.waste * state.waste / self.mean
            + taste.steps * len(heights)
            + taste.height * climb / self.width
            - taste.area * state.value / self.worth
        )
