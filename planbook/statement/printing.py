"""Values of the design as the edition prints them."""

from __future__ import annotations

from planbook.design import Design, Parameter, Stock
from planbook.measure import (
    Precision,
    Printed,
    Quantity,
    Units,
    print_calculated,
    print_limits,
    print_quantity,
    print_tolerance,
)
from planbook.measure import printed_diameter as print_bought
from planbook.measure.dimensionality import ANGLE, LENGTH
from planbook.statement.model import ParameterStated, PrintedStated


def print_parameter(parameter: Parameter, design: Design, units: Units, figure: bool = False) -> Printed:
    """A parameter's text. What is bought is printed as it is sold, as finely as that takes; a drill keeps its name.
    A `figure`, to which nobody sets a tool, is printed as among the calculations.
    """
    quantity = parameter.value.quantity
    if figure:
        return print_calculated(quantity, units)
    head = parameter.name.partition(".")[0]
    if quantity.dimensionality == LENGTH and head in ("hardware", "stock"):
        return print_bought(quantity.value, units, design.drills if head == "hardware" else ())
    return print_quantity(quantity, units, parameter.value.precision)


def state_parameter(parameter: Parameter, printed: Printed, units: Units) -> ParameterStated:
    """A parameter as stated: value, text, tolerance and where it comes from."""
    value, kind = parameter.value, parameter.value.quantity.dimensionality
    return ParameterStated(
        name=parameter.name,
        value=float(value.number),
        dimensionality=(kind.length, kind.mass, kind.time, kind.angle),
        printed=state_printed(printed),
        tolerance=_tolerance(parameter, units),
        means=parameter.means,
        formula=value.formula,
        inputs=value.inputs,
        given=parameter.given,
    )


def state_printed(printed: Printed) -> PrintedStated:
    """The same in the form of the statement."""
    return PrintedStated(printed.text, printed.other, float(printed.value), printed.unit, printed.other_unit)


def _tolerance(parameter: Parameter, units: Units) -> str:
    value, kind = parameter.value, parameter.value.quantity.dimensionality
    if value.tolerance is None:
        return ""
    plus, minus = value.tolerance.plus, value.tolerance.minus
    if kind in (LENGTH, ANGLE):
        return print_tolerance(plus, minus, units, value.precision, kind).text
    upper, lower = (print_quantity(Quantity(each, kind), units, Precision.CALIPER).text for each in (plus, minus))
    return f"±{upper}" if upper == lower else f"+{upper}/−{lower}"


def accepted_range(stock: Stock | None, units: Units) -> str:
    """`accepted .700 to .730 in`, "" for a stock that states no range; of measured sheets their own thickness.

    Where the design takes less than is sold, also what to do outside it.
    """
    if stock is not None and stock.measured:
        thickness = print_bought(stock.thickness, units, ())
        return f"drawn for {thickness.text} {thickness.unit}, as measured"
    if stock is None or stock.accepted is None:
        return ""
    least, greatest = print_limits(*stock.accepted, units, Precision.CALIPER)
    outside = "; outside it stop, and have the set made for your sheet" if stock.narrowed else ""
    return f"accepted {least.text} to {greatest.text} {greatest.unit}{outside}"
