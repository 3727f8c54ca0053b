"""What evaluation gives: values with their provenance, immutable."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from planbook.measure.quantity import Quantity
from planbook.measure.systems import Precision
from planbook.source.findings import Place
from planbook.source.models.market import HardwareItemModel, StockModel
from planbook.source.models.plan_set import EditionModel


@dataclass(frozen=True, slots=True)
class Tolerance:
    """Offsets from the nominal in base units: upper limit is nominal + plus, lower is nominal - minus. Both >= 0."""

    plus: float
    minus: float


@dataclass(frozen=True, slots=True)
class Value:
    """A formula's value and where it comes from. `inputs` are the names that the formula itself mentions."""

    quantity: Quantity
    formula: str
    place: Place
    inputs: tuple[str, ...] = ()
    precision: Precision = Precision.WOODWORK
    """The finest precision among the inputs; a rounded value is as fine as the step it was rounded to."""
    tolerance: Tolerance | None = None
    """Only when the formula is a single name that has a tolerance."""

    @property
    def number(self) -> float:
        """The value in base units (nanometres for a length, degrees for an angle)."""
        return self.quantity.value


@dataclass(frozen=True, slots=True)
class Parameter:
    """A named quantity of the design: of parameters.yaml, or stock.* or hardware.* of the market."""

    name: str
    value: Value
    means: str = ""
    given: bool = False
    """Whether its formula names nothing, so that it is the author's own number."""


@dataclass(frozen=True, slots=True)
class Judgement:
    """A requirement evaluated: sides[0] relations[0] sides[1] ... Sides are compared without arithmetic noise.

    `failing` is the place of the first relation that does not hold, None if all do.
    """

    sides: tuple[Value, ...]
    relations: tuple[str, ...]
    failing: int | None

    @property
    def holds(self) -> bool:
        """Whether every relation holds."""
        return self.failing is None


@dataclass(frozen=True)
class Overrides:
    """Everything that varies. `values` replaces given or derived names (what-if, driver, tolerance end)."""

    market: str
    values: Mapping[str, Quantity] = field(default_factory=dict)


@dataclass(frozen=True)
class Edition:
    """An edition with its name; what content says of it is in `model`."""

    name: str
    model: EditionModel


@dataclass(frozen=True)
class Stock:
    """A stock of the edition's market, evaluated. Lengths in nanometres."""

    key: str
    model: StockModel
    thickness: float
    accepted: tuple[float, float] | None
    width: float | None = None
    """Of its first size, where it has one."""
    measured: bool = False
    """Whether its thickness is that of sheets at hand, which leaves no range to accept."""
    narrowed: bool = False
    """Whether the design takes less than the market's table accepts."""


@dataclass(frozen=True)
class Hardware:
    """A hardware item of the market, evaluated: measure name to quantity."""

    key: str
    model: HardwareItemModel
    measures: Mapping[str, Quantity]
