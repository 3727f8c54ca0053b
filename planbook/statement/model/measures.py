"""Printed measures: of the design by name, and of the sheets by id."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class PrintedStated:
    """See measure.printed.Printed."""

    text: str
    other: str
    value: float
    unit: str
    other_unit: str


@dataclass(frozen=True, slots=True)
class StandingStated:
    """What a measure is to a builder: "critical" to the fit, "free" to be changed, or "" for neither.

    `least` and `most` are what a free one may be changed to, both or none.
    """

    kind: str = ""
    because: str = ""
    least: PrintedStated | None = None
    most: PrintedStated | None = None


@dataclass(frozen=True, slots=True)
class ParameterStated:
    """A named quantity with its printed text and where it comes from."""

    name: str
    value: float
    """Base units."""
    dimensionality: tuple[int, int, int, int]
    printed: PrintedStated
    tolerance: str
    """Printed in the edition's unit, "" if none."""
    means: str
    formula: str
    inputs: tuple[str, ...]
    given: bool
    moving: bool = False
    """Whether it hangs on the assembly's driver, so that its value is that of one position only."""
    standing: StandingStated | None = None
    """None where an older release recorded none."""


@dataclass(frozen=True, slots=True)
class EqualStated:
    """See dimension.model.Equal."""

    id: str
    feature: str
    points: tuple[tuple[float, float, float], ...]


@dataclass(frozen=True, slots=True)
class DimensionStated:
    """See dimension.model.PartDimension; the same fields as stated to the builder."""

    id: str
    part: str
    feature: str
    characteristic: str
    kind: str
    view: str
    axis: str
    points: tuple[tuple[float, float, float], ...]
    nominal: float
    printed: PrintedStated
    tolerance: str = ""
    upper: float | None = None
    lower: float | None = None
    count: int = 1
    callout: str = ""
    prefix: str = ""
    suffix: str = ""
    caliper: bool = False
    reference: bool = False
    method: str = ""
    formula: str = ""
    inputs: tuple[str, ...] = ()
    also: tuple[EqualStated, ...] = ()
    """Equal measures of other features that are not printed themselves: `count` speaks for them too."""
    side: str = ""
    row: int = 0
    """Where the author has its dimension line stand; "" and 0 where that is left to the sheet."""
    standing: StandingStated | None = None
    """None where an older release recorded none."""
