"""The measures that fits name: dimensions as sheets print them, with their limits, and what is bought."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from planbook.design import Design
from planbook.dimension.audit import Limits, Measure, Number, limits_of
from planbook.measure import Precision, Units, print_limits, print_tolerance
from planbook.measure.dimensionality import LENGTH
from planbook.source.content import Content
from planbook.statement.model import DimensionStated, Statement
from planbook.statement.printing import print_parameter

_EXACT = Limits(0.0, 0.0)


@dataclass(frozen=True)
class Sheets:
    """One edition and its printed numbers by dimension id; `general` is the general tolerance on lengths in
    nanometres, `angle` that on angles in degrees."""

    content: Content
    statement: Statement
    design: Design
    numbers: Mapping[str, Number]
    general: float
    angle: float

    @property
    def units(self) -> Units:
        """Those of the edition."""
        return Units(self.statement.edition.units)


def made_measures(sheets: Sheets) -> Mapping[str, Measure]:
    """Every length that a sheet prints, by the name that prose has for it: `dim.top.well.length`."""
    lengths = (each for each in sheets.statement.dimensions.values() if not sheets.numbers[each.id].is_angle)
    return {path: _made(path, stated, sheets) for stated in lengths for path in paths_of(stated)}


def bought_measure(name: str, sheets: Sheets) -> Measure | None:
    """A length of the market's tables, which is as it is sold, and stock as it is accepted; None for another name."""
    parameter = sheets.design.parameters.get(name) if name.startswith(("stock.", "hardware.")) else None
    if parameter is None or parameter.value.quantity.dimensionality != LENGTH:
        return None
    sold, tolerance = parameter.value.number, parameter.value.tolerance
    limits = Limits(tolerance.plus, -tolerance.minus) if tolerance else _EXACT
    if name.startswith("stock.") and name.endswith(".thickness"):
        limits = _accepted(name.split(".")[1], sold, sheets)
    text = print_parameter(parameter, sheets.design, sheets.units).text
    return Measure(name, name, text, sold, sold, limits, made=False)


def paths_of(stated: DimensionStated) -> Iterator[str]:
    """The names that content has for a dimension, those that it is printed for too."""
    for name in (stated.id, *(other.id for other in stated.also)):
        yield f"dim.{name.replace('/', '.')}"


def _made(path: str, stated: DimensionStated, sheets: Sheets) -> Measure:
    number = sheets.numbers[stated.id]
    label = stated.formula if stated.formula in sheets.content.parameters else path
    stock = sheets.statement.parts[stated.part].stock
    if (stated.feature, stated.characteristic) == ("blank", "thickness") and stock in sheets.design.stock:
        limits = _accepted(stock, number.nominal, sheets)
        return Measure(path, label, stated.printed.text, number.nominal, number.nominal, limits, made=False)
    limits = limits_of(number, sheets.general)
    text = f"{stated.printed.text} {stated.tolerance or _tolerance(limits, number, sheets)}"
    return Measure(path, label, text, number.nominal, number.printed.value, limits)


def _tolerance(limits: Limits, number: Number, sheets: Sheets) -> str:
    precision = Precision.CALIPER if number.caliper else Precision.WOODWORK
    return print_tolerance(limits.upper, -limits.lower, sheets.units, precision).text


def _accepted(stock: str, thickness: float, sheets: Sheets) -> Limits:
    """The range that a sheet prints as accepted for a thickness that comes with the stock."""
    accepted = sheets.design.stock[stock].accepted
    if accepted is None:
        return _EXACT
    least, greatest = print_limits(*accepted, sheets.units, Precision.CALIPER)
    return Limits(max(greatest.value - thickness, 0.0), min(least.value - thickness, 0.0))
