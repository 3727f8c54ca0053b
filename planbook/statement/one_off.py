"""A set made for one builder: the measures that stand in it in the place of the plan's own, and how it says so."""

from __future__ import annotations

from planbook.design import Design, Overrides, Parameter, Plan, evaluate
from planbook.design.entries import MASS
from planbook.measure import Units
from planbook.statement.model import OneOffStated, Statement
from planbook.statement.printing import print_parameter


def state_one_off(design: Design, plan: Plan, units: Units) -> tuple[OneOffStated, ...]:
    """What was supposed, with what the plan itself has there; none in a design that stands as it is written."""
    standing, _ = evaluate(plan, Overrides(design.market)) if _supposed(design) else (None, ())
    if standing is None:
        return ()
    return tuple(
        OneOffStated(
            name=name,
            what=_what(design.parameters[name]),
            text=_printed(design.parameters[name], design, units),
            was=_printed(standing.parameters[name], standing, units) if name in standing.parameters else "",
            derived=bool(plan.markets[design.market].inputs[name]),
        )
        for name in _supposed(design)
        if name in design.parameters
    )


def _supposed(design: Design) -> list[str]:
    """What stands in place of the plan's own; what was weighed is the plan's own."""
    return [name for name in design.fixed if not name.startswith(MASS)]


def one_off_notes(statement: Statement) -> tuple[str, ...]:
    """For the cover and each sheet: `One-off, for sheets or measures of one builder: ...`; nothing in a set for all."""
    many = (f"the lists and layouts are for {statement.pieces} pieces",) if statement.pieces > 1 else ()
    told = "; ".join((*(_told(each) for each in statement.one_off), *many))
    return (f"One-off, changed for one builder, not a release: {told}.",) if told else ()


def _told(each: OneOffStated) -> str:
    was = f"the {each.was} that follows from the rest" if each.derived else each.was
    return f"{each.what or each.name} is {each.text}" + (f", not {was}" if each.was else "")


def _what(parameter: Parameter) -> str:
    """In words: the thickness of a stock needs more than the stock's title."""
    words = parameter.name.split(".")
    measure = words[-1].replace("_", " ")
    return f"{measure} of {parameter.means}" if words[0] in ("stock", "hardware") else parameter.means


def _printed(parameter: Parameter, design: Design, units: Units) -> str:
    printed = print_parameter(parameter, design, units)
    space = "" if printed.unit in ("", "°") else " "
    return f"{printed.text}{space}{printed.unit}"
