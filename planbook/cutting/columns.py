"""The linear programme of cutting patterns: the least number of lengths when they may be cut in fractions.

P. C. Gilmore and R. E. Gomory, "A linear programming approach to the cutting-stock problem", Operations Research 9
(1961) 849-859. Whatever the accuracy of its prices, they prove a bound: with the most that any pattern is worth at
them, in whole numbers, demand at the prices divided by it is no more than the lengths needed (A. A. Farley, Operations
Research 38 (1990) 922-923).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

Pattern = tuple[int, ...]
"""How many of each size."""

_SCALE = 1_000_000
_NOTHING = 1e-9
_ROUNDS = 2_000

Price = Callable[[Sequence[int]], tuple[Pattern, int] | None]
"""The most valuable pattern at whole prices, and a value that no pattern exceeds; None to go no further."""


@dataclass(frozen=True)
class Relaxed:
    """Patterns with how often each is cut, the prices of the sizes (per million), and the proved bound."""

    patterns: tuple[tuple[Pattern, float], ...]
    prices: tuple[int, ...]
    bound: int


def relax(demands: Sequence[int], most: Sequence[int], price: Price) -> Relaxed:
    """Solve by generating patterns. `most`: how many of one size alone make a pattern, at least 1."""
    basis = _Basis(demands, most)
    bound = 0
    prices = basis.prices()
    for _ in range(_ROUNDS):
        surplus = int(basis.worth.argmin())
        if basis.worth[surplus] < -_NOTHING:
            if not basis.enter(None, surplus):
                break
            continue
        prices = basis.prices()
        found = price(prices)
        if found is None:
            break
        pattern, value = found
        total = sum(each * demand for each, demand in zip(prices, demands, strict=True))
        bound = max(bound, -(-total // max(value, 1)) if value else 0)
        if value <= _SCALE or bound >= basis.total() - 1e-6 or not basis.enter(pattern, -1):
            break
    return Relaxed(basis.patterns(), prices, bound)


class _Basis:
    """The simplex method's state: inverse of the basis, amounts, and worth of each size. Products are taken one by one,
    never as sums in an order that the machine chooses, so that every machine gets the same numbers."""

    def __init__(self, demands: Sequence[int], most: Sequence[int]) -> None:
        count = len(demands)
        self.inverse = np.diag([1.0 / each for each in most])
        self.amounts = np.array([demand / each for demand, each in zip(demands, most, strict=True)])
        self.worth = np.array([1.0 / each for each in most])
        self.columns: list[Pattern | None] = [
            tuple(each if at == row else 0 for at in range(count)) for row, each in enumerate(most)
        ]

    def prices(self) -> tuple[int, ...]:
        return tuple(max(0, int(each * _SCALE)) for each in self.worth)

    def total(self) -> float:
        return sum(float(x) for x, column in zip(self.amounts, self.columns, strict=True) if column is not None)

    def patterns(self) -> tuple[tuple[Pattern, float], ...]:
        pairs = zip(self.columns, self.amounts, strict=True)
        return tuple((column, float(x)) for column, x in pairs if column is not None and x > _NOTHING)

    def enter(self, pattern: Pattern | None, surplus: int) -> bool:
        """Bring in a pattern, or more of a size than is asked for; False where rounding has spoilt the basis."""
        if pattern is None:
            column, gain = -self.inverse[:, surplus], float(self.worth[surplus])
        else:
            column, gain = np.zeros(len(self.amounts)), 1.0
            for at, count in enumerate(pattern):
                if count:
                    column = column + count * self.inverse[:, at]
                    gain -= count * float(self.worth[at])
        ratios = np.full(len(self.amounts), np.inf)
        np.divide(self.amounts, column, out=ratios, where=column > _NOTHING)
        row = int(ratios.argmin())
        if not np.isfinite(ratios[row]):
            return False
        self._pivot(row, column, gain)
        self.columns[row] = pattern
        return True

    def _pivot(self, row: int, column: np.ndarray, gain: float) -> None:
        pivot = self.inverse[row] / column[row]
        amount = self.amounts[row] / column[row]
        self.inverse = self.inverse - column[:, None] * pivot[None, :]
        self.inverse[row] = pivot
        self.amounts = np.maximum(self.amounts - column * amount, 0.0)
        self.amounts[row] = amount
        self.worth = self.worth + gain * pivot
