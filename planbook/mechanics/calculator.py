"""What a calculator is: a pure function, with what it takes and gives, where it is published and what it assumes."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from planbook.measure.dimensionality import ANGLE, LENGTH, SCALAR, Dimensionality


class OutOfRange(ValueError):  # noqa: N818 - it tells where a formula ends to hold, not that the program failed
    """A formula does not hold for its inputs. `reason` is a sentence, `remedy` another, both in a maker's words."""

    def __init__(self, reason: str, remedy: str) -> None:
        super().__init__(reason)
        self.reason, self.remedy = reason, remedy


@dataclass(frozen=True, slots=True)
class Input:
    """One input, in base units. The formula holds from `least` to `most`, without the ends if `open_ended`, and for
    whole numbers only if it is `whole`.
    """

    name: str
    symbol: str
    words: str
    kind: Dimensionality
    least: float = -math.inf
    most: float = math.inf
    open_ended: bool = False
    whole: bool = False

    def admits(self, value: float) -> bool:
        """Whether the formula holds for a value."""
        if self.whole and value != round(value):
            return False
        if self.open_ended:
            return self.least < value < self.most
        return self.least <= value <= self.most


@dataclass(frozen=True, slots=True)
class Output:
    """What comes out, in base units."""

    symbol: str
    words: str
    kind: Dimensionality


@dataclass(frozen=True, slots=True)
class Way:
    """One of the ways in which something gives: what it is called, what happens, and what it bears until then."""

    name: str
    words: str
    value: float


@dataclass(frozen=True, slots=True)
class Calculator:
    """A published formula. `formula` is written in the symbols of the inputs, `compute` takes them in order.

    Where the result is the least of several, `ways` takes the same inputs and gives each of them, in a fixed order.
    """

    name: str
    title: str
    takes: tuple[Input, ...]
    gives: Output
    formula: str
    source: str
    assumes: str
    compute: Callable[..., float]
    ways: Callable[..., tuple[Way, ...]] | None = None

    @property
    def usage(self) -> str:
        """How it is written in a formula."""
        return f"{self.name}({', '.join(each.name for each in self.takes)})"


ALL_ANGLES: Final = 360.0


def size(name: str, symbol: str, words: str) -> Input:
    """A length greater than 0."""
    return Input(name, symbol, words, LENGTH, 0.0, open_ended=True)


def span(name: str, symbol: str, words: str) -> Input:
    """A length of 0 or more: a clearance, a tolerance."""
    return Input(name, symbol, words, LENGTH, 0.0)


def above_zero(name: str, symbol: str, words: str, kind: Dimensionality) -> Input:
    """A quantity greater than 0."""
    return Input(name, symbol, words, kind, 0.0, open_ended=True)


def not_negative(name: str, symbol: str, words: str, kind: Dimensionality) -> Input:
    """A quantity of 0 or more."""
    return Input(name, symbol, words, kind, 0.0)


def friction(symbol: str = "μ") -> Input:
    """A coefficient of friction. 0 is refused: nothing in a workshop is without friction."""
    return Input("friction", symbol, "coefficient of friction", SCALAR, 0.0, 2.0, open_ended=True)


def slope(symbol: str = "α") -> Input:
    """The angle of a ramp over the level."""
    return Input("slope", symbol, "slope", ANGLE, 0.0, 90.0, open_ended=True)


def turn(name: str, symbol: str, words: str) -> Input:
    """An angle within a whole turn either way."""
    return Input(name, symbol, words, ANGLE, -ALL_ANGLES, ALL_ANGLES)


def share(name: str, symbol: str, words: str, most: float = 1.0) -> Input:
    """A plain number from 0 to `most`."""
    return Input(name, symbol, words, SCALAR, 0.0, most)
