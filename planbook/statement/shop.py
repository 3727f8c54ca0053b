"""What the shop makes of the measures of a design: the numbers printed for them, and how far off they may be."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from planbook.design import Design, Parameter
from planbook.dimension.audit import limits_of
from planbook.measure import Quantity, is_in_degrees
from planbook.measure.dimensionality import ANGLE, LENGTH
from planbook.source.text import Text
from planbook.statement.mating_measures import Sheets
from planbook.statement.model import DimensionStated
from planbook.statement.stacking import is_sheet


@dataclass(frozen=True, slots=True)
class Held:
    """A measure as it is made, and the least and the greatest that it may be. `stated`: by limits of its own, not by a
    general tolerance."""

    made: Quantity
    low: Quantity
    high: Quantity
    stated: bool


def as_printed(sheets: Sheets) -> Mapping[str, Quantity]:
    """The parameters that sheets print by their bare names, as the numbers printed there."""
    return {name: _printed(stated) for name, stated in _telling(sheets.statement.dimensions.values(), sheets).items()}


def held_to(sheets: Sheets) -> Mapping[str, Held]:
    """Limits by name: of what sheets print as printed, else by the general tolerance; of other parameters their own
    tolerance; of stock the accepted range. What follows the stock, or another part in hand, has none.
    """
    design, stated = sheets.design, sheets.statement.dimensions.values()
    by_themselves = {name: _by_itself(each, design) for name, each in design.parameters.items()}
    made = _telling((each for each in stated if not each.method and not sheets.numbers[each.id].reference), sheets)
    by_sheet = {name: _by_sheet(each, sheets) for name, each in made.items() if not follows_stock(name, design)}
    return {name: held for name, held in by_themselves.items() if held is not None} | by_sheet


def follows_stock(name: str, design: Design) -> bool:
    """Whether it is but another name for the thickness of a stock: who makes it takes what there is."""
    while name in design.parameters and not is_sheet(name):
        name = design.parameters[name].value.formula
    return is_sheet(name)


def _telling(dimensions: Iterable[DimensionStated], sheets: Sheets) -> Mapping[str, DimensionStated]:
    """By parameter; of several dimensions that print it, that which is furthest off."""
    telling: dict[str, DimensionStated] = {}
    for each in dimensions:
        name = Text(each.formula)
        if name in sheets.content.parameters and _off(each) >= _off(telling.get(str(name), each)):
            telling[str(name)] = each
    return telling


def _off(stated: DimensionStated) -> float:
    return abs(stated.printed.value - stated.nominal)


def _printed(stated: DimensionStated) -> Quantity:
    return Quantity(stated.printed.value, ANGLE if is_in_degrees(stated.printed.text) else LENGTH)


def _by_sheet(stated: DimensionStated, sheets: Sheets) -> Held:
    number = sheets.numbers[stated.id]
    made = _printed(stated)
    limits = limits_of(number, sheets.angle if number.is_angle else sheets.general)
    return _held(made, made.value + limits.lower, made.value + limits.upper, number.upper is not None)


def _by_itself(parameter: Parameter, design: Design) -> Held | None:
    value, tolerance = parameter.value, parameter.value.tolerance
    if is_sheet(parameter.name):
        accepted = design.stock[parameter.name.split(".")[1]].accepted
        return None if accepted is None else _held(value.quantity, *accepted, True)
    if tolerance is None:
        return None
    return _held(value.quantity, value.number - tolerance.minus, value.number + tolerance.plus, True)


def _held(made: Quantity, low: float, high: float, stated: bool) -> Held:
    kind = made.dimensionality
    return Held(made, Quantity(low, kind), Quantity(high, kind), stated)
