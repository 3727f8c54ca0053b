"""Calculators as functions of the formula language: inputs checked by kind and by the range that they hold for."""

from __future__ import annotations

import math
from collections.abc import Sequence

from planbook.design.faults import Breach, Fault
from planbook.design.kinds import Checks, Typed
from planbook.design.syntax import Call
from planbook.measure.dimensionality import Dimensionality
from planbook.measure.quantity import Quantity
from planbook.measure.units import in_words
from planbook.measure.writing import written_in_both
from planbook.mechanics import Calculator, Input, OutOfRange


def calculate(calculator: Calculator, checks: Checks, call: Call, pieces: Sequence[Typed]) -> Typed:
    """The compiled call of a calculator with its number of arguments checked."""
    fits = [
        checks.demand(piece, each.kind, f"`{calculator.name}` for {each.symbol} ({each.words})")
        for piece, each in zip(pieces, calculator.takes, strict=True)
    ]
    if not all(fits):
        return Typed(call, None, lambda _: math.nan)
    runs = [piece.run for piece in pieces]
    at = [piece.node.span.start for piece in pieces]

    def run(values: Sequence[float]) -> float:
        numbers = [each(values) for each in runs]
        for number, each, offset in zip(numbers, calculator.takes, at, strict=True):
            if not each.admits(number):
                raise Breach(_out_of_range(calculator, each, number, offset))
        try:
            return calculator.compute(*numbers)
        except OutOfRange as refused:
            message = f"{refused.reason} Here {_inserted(calculator, numbers)}."
            raise Breach(Fault("out-of-range", call.span.start, message, refused.remedy)) from None
        except (ValueError, ZeroDivisionError, OverflowError):
            message = f"`{calculator.name}` has no value for {_inserted(calculator, numbers)}."
            raise Breach(Fault("no-value", call.span.start, message, f"It is {calculator.formula}.")) from None

    return Typed(call, calculator.gives.kind, run)


def _out_of_range(calculator: Calculator, which: Input, number: float, offset: int) -> Fault:
    given = f"In `{calculator.name}`, {which.symbol} ({which.words}) is {_written(number, which.kind)}"
    message = f"{given}; the formula holds {_range_of(which)} only."
    wanted = "Count whole ones" if which.whole else f"Give it {in_words(which.kind)} {_range_of(which)}"
    return Fault("out-of-range", offset, message, f"{wanted}.")


def _inserted(calculator: Calculator, numbers: Sequence[float]) -> str:
    """`r = 50 mm (1.969 in), θ = 106 deg`."""
    pairs = zip(calculator.takes, numbers, strict=True)
    return ", ".join(f"{each.symbol} = {_written(number, each.kind)}" for each, number in pairs)


def _range_of(which: Input) -> str:
    least, most = _written(which.least, which.kind), _written(which.most, which.kind)
    if which.whole:
        return f"for whole numbers from {least} to {most}"
    if math.isinf(which.most):
        return f"above {least}" if which.open_ended else f"from {least} up"
    return f"above {least} and below {most}" if which.open_ended else f"from {least} to {most}"


def _written(number: float, kind: Dimensionality) -> str:
    return written_in_both(Quantity(number, kind))
