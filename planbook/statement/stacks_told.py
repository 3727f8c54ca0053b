"""Stacks as findings, and as the engineering pages print them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from planbook.measure import (
    Precision,
    Printed,
    Quantity,
    Units,
    print_calculated,
    print_gauged,
    print_limits,
)
from planbook.measure.dimensionality import LENGTH, Dimensionality
from planbook.mechanics.stacks import Layer, Range, root_sum_square, worst_case
from planbook.source.findings import Finding, Severity
from planbook.source.sentences import capital
from planbook.statement.model import RowStated
from planbook.statement.stacking import Stack, is_sheet

Findings = tuple[Finding, ...]
STACKS: Final = "stacks"
"""The list of a statement that holds the layers of all stacks."""


def check_stacks(stacks: tuple[Stack, ...], set_key: str, units: Units) -> Findings:
    """Those that do not hold, and sheets that a market sells and the design does not take."""
    return tuple(finding for stack in stacks for finding in _check(stack, set_key, units))


def _check(stack: Stack, set_key: str, units: Units) -> Iterator[Finding]:
    layers, told = stack.layers, _Told(stack, units)
    worst = worst_case(stack.value.number, layers)
    if not stack.allowed.holds(worst):
        yield _fails(stack, worst, layers, told)
    elif not layers and not stack.is_measured:
        message = f"Nothing that the stack {stack.name} hangs on has a tolerance, and no sheet an accepted range."
        remedy = "Give its measures a tolerance."
        yield Finding("stack-empty", Severity.WARN, message, remedy, stack.model.stack.place)
    else:
        sheets = (layer for layer in layers if is_sheet(layer.name))
        yield from (_refused(stack, layer, set_key, told) for layer in sheets if not stack.takes(layer))


def _fails(stack: Stack, worst: Range, layers: tuple[Layer, ...], told: _Told) -> Finding:
    closing, within = stack.model.closes_on, told.range(stack.within)
    most = f"; {told.layer(layers[0])} takes most of it" if layers else ""
    there = f"{told.range(worst)} at worst" if layers else f"it is {told.amount(worst.low)}"
    if closing is None:
        message = f"The stack {stack.name} does not hold: {there}, and {within} is wanted{most}."
        remedy = "Hold its layers closer, or close it on what is fitted: `closes_on: {name: ..., by: [..., ...]}`."
        return Finding("stack-fails", Severity.STOP, message, remedy, stack.model.stack.place)
    message = (
        f"{capital(str(closing.name))} cannot close the stack {stack.name}: {there}, and only what is "
        f"{told.range(stack.allowed)} before can be brought to {within}{most}."
    )
    return Finding(
        "stack-open", Severity.STOP, message, "Let it shift further, or hold the layers closer.", closing.by[0].place
    )


def _refused(stack: Stack, layer: Layer, set_key: str, told: _Told) -> Finding:
    does = stack.sheet(layer)
    thin, thick = layer.nominal - layer.minus, layer.nominal + layer.plus
    worst = thin if does.low - thin > thick - does.high else thick
    there = stack.at(layer.name, worst)
    off = (there or stack.value.number) - stack.value.number
    more = "more" if off > 0 else "less"
    message = (
        f"The stack {stack.name} takes {told.layer(layer)} of {told.thickness(does)}, and it is sold from "
        f"{told.thickness(Range(thin, thick))}: at {told.length(worst)} `{stack.model.stack}` is "
        f"{told.amount(abs(off))} {more} than drawn."
    )
    remedy = (
        "Have each sheet measured before anything is cut, and stop outside that range: the set can be made again for "
        f'such a sheet, `planbook draft {set_key} --with "{layer.name} = {told.length(worst)}"`.'
    )
    return Finding("sheet-not-accepted", Severity.WARN, message, remedy, stack.model.stack.place)


def state_stacks(stacks: tuple[Stack, ...], units: Units) -> tuple[tuple[RowStated, ...], tuple[RowStated, ...]]:
    """A row for each stack as a calculation, and one for each layer of all of them."""
    layers = [
        RowStated(f"{stack.name}/{layer.name}", {**_Told(stack, units).cells(layer), "Stack": stack.name})
        for stack in stacks
        for layer in stack.layers
    ]
    return tuple(RowStated(stack.name, _Told(stack, units).summary()) for stack in stacks), tuple(layers)


class _Told:
    """A stack in words, in the units of the edition."""

    def __init__(self, stack: Stack, units: Units) -> None:
        self._stack, self._units = stack, units

    def summary(self) -> dict[str, str]:
        """In the cells of a calculation."""
        stack, model = self._stack, self._stack.model
        layers = stack.layers
        parameter = stack.design.parameters.get(str(model.stack))
        formula = parameter.value.formula if parameter is not None else str(model.stack)
        worst, likely = (each(stack.value.number, layers) for each in (worst_case, root_sum_square))
        result = f"At worst {self.range(worst)}" if layers else self.amount(stack.value.number)
        together = f"; root-sum-square {self.range(likely)}" if len(layers) > 1 else ""
        closes = ""
        if model.closes_on is not None:
            closes = f"; {model.closes_on.name} brings it there from {self.range(stack.allowed)}"
        cells = {
            "Calculation": str(model.title),
            "Name": stack.name,
            "Formula": formula.replace("*", "·").replace("-", "\N{MINUS SIGN}"),
            "With": f"As drawn {self.amount(stack.value.number)}; it may be {self.range(stack.within)}{closes}",
            "Result": f"{result}{together}",
            "Sheets": "; ".join(self._sheets(layers)),
            "Assumes": capital(str(model.assumes)),
        }
        return {head: text for head, text in cells.items() if text}

    def _sheets(self, layers: tuple[Layer, ...]) -> Iterator[str]:
        for layer in layers:
            if not is_sheet(layer.name):
                continue
            sold = self.thickness(Range(layer.nominal - layer.minus, layer.nominal + layer.plus))
            kept = f"which leaves {self._stack.keep * 100:.0f} % of the tolerance for the making"
            if self._stack.takes(layer):
                yield f"{self.layer(layer)}: any of {sold} does, {kept}"
            else:
                does = self.thickness(self._stack.sheet(layer))
                stop = "outside that stop, and have the set made for your sheet"
                yield f"{self.layer(layer)}: measure it; {does} does, {kept}; {stop}"

    def cells(self, layer: Layer) -> dict[str, str]:
        """Of a row of the layers' table."""
        total = sum(each.share for each in self._stack.layers)
        kind = self._stack.design.parameters[layer.name].value.quantity.dimensionality
        return {
            "Layer": self.layer(layer),
            "Nominal": self._number(layer.nominal, kind),
            "Limits": self._either(layer.plus, layer.minus, kind),
            "Adds": self._either(layer.ends[1], -layer.ends[0], self._stack.kind),
            "Share": f"{100 * layer.share / total:.0f} %",
        }

    def layer(self, layer: Layer) -> str:
        """What it is: a stock by its title."""
        parameter = self._stack.design.parameters[layer.name]
        return parameter.means or layer.name

    def amount(self, number: float) -> str:
        """Of the sum; a length to a hundredth of a millimetre or a thousandth of an inch."""
        return self._number(number, self._stack.kind)

    def range(self, range_: Range) -> str:
        """`from -0.8 mm to 0 mm`, without the first word."""
        return f"{self.amount(range_.low)} to {self.amount(range_.high)}"

    def length(self, number: float) -> str:
        """Of a sheet."""
        return self._number(number, LENGTH)

    def thickness(self, range_: Range) -> str:
        """Rounded inwards."""
        low, high = print_limits(range_.low, range_.high, self._units, Precision.CALIPER)
        return f"{low.text} to {high.text} {high.unit}"

    def _either(self, plus: float, minus: float, kind: Dimensionality) -> str:
        upper, lower = self._number(plus, kind), self._number(minus, kind)
        return f"±{upper}" if upper == lower else f"+{upper} / \N{MINUS SIGN}{lower}"

    def _number(self, number: float, kind: Dimensionality) -> str:
        if kind == LENGTH:
            return _full(print_gauged(number, self._units))
        return _full(print_calculated(Quantity(number, kind), self._units))


def _full(printed: Printed) -> str:
    text = printed.text.replace("-", "\N{MINUS SIGN}")
    return f"{text}{'' if printed.unit in ('', '°') else ' '}{printed.unit}"
