"""A given parameter that changes nothing a builder reads has no business in a plan."""

from __future__ import annotations

from functools import lru_cache

import pytest

from planbook.design import Design, Overrides, evaluate
from planbook.dimension import dimension_parts
from planbook.measure import Precision, Quantity, Units, print_quantity
from planbook.measure.dimensionality import ANGLE, LENGTH
from planbook.shape import shape_parts
from planbook.source.mentions import names_in
from planbook.takeoff import take_off

from .sets import MILLIMETRE, SETS, comparisons, content, piece, plan

MARKET = "europe"


@lru_cache
def _given(key: str) -> dict[str, Quantity]:
    design = _design(key, {})
    named = {str(name): design.parameters[str(name)] for name in content(key).parameters}
    return {name: each.value.quantity for name, each in named.items() if each.given}


def _computed(key: str, values: dict[str, Quantity]) -> dict[str, str]:
    """The table of dimensions and the rules, by a name for each."""
    design = _design(key, values)
    told = {}
    for name in content(key).parameters:
        known = design.parameters.get(str(name))
        told[f"parameter {name}"] = _printed(known.value.quantity) if known else "no value"
    for name, require in comparisons(key, MARKET).items():
        judgement, _ = design.judge(require)
        told[f"rule {name}"] = str(judgement and [round(side.number, 3) for side in judgement.sides])
    return told


def _printed(quantity: Quantity) -> str:
    return print_quantity(quantity, Units.MILLIMETRE, Precision.CALIPER).text


def _drawn(key: str, values: dict[str, Quantity]) -> dict[str, str]:
    """The sheets and the lists, by a name for each."""
    design = _design(key, values)
    parts, _ = shape_parts(content(key), design)
    dimensions, _ = dimension_parts(content(key), design, parts, Units.MILLIMETRE)
    told = {name: each.printed.text for name, each in dimensions.items()}
    taken, _ = take_off(content(key), design, parts, Units.MILLIMETRE)
    told |= {f"kerf {plan.stock.key}": str(plan.job.kerf) for plan in taken.plans}
    return told | {f"list {name}": str(rows) for name, rows in taken.lists.items()}


def _design(key: str, values: dict[str, Quantity]) -> Design:
    weighed = piece(key, MARKET).design.fixed
    design, _ = evaluate(plan(key), Overrides(MARKET, {**weighed, **values}))
    assert design is not None
    return design


def _in_words(key: str, name: str) -> bool:
    """Whether prose, a caution, a load statement or the general tolerance note prints it."""
    bodies = [page.body for page in content(key).pages] + [step.body for step in content(key).steps]
    general = content(key).plan_set.tolerances
    printed = any(f"{{{{ {name} }}}}" in body for body in bodies)
    return (
        printed
        or name in names_in([content(key).loads, content(key).cautions])
        or name in (general.length, general.angle, general.diagonals)
    )


def _changed(quantity: Quantity) -> Quantity:
    if quantity.dimensionality == LENGTH:
        return Quantity(quantity.value + 1.2 * MILLIMETRE, LENGTH)
    return Quantity(
        quantity.value + 5 if quantity.dimensionality == ANGLE else quantity.value * 1.2, quantity.dimensionality
    )


@pytest.mark.parametrize("key", SETS)
def test_each_given_parameter_changes_what_a_builder_reads_elsewhere(key: str) -> None:
    computed, drawn = _computed(key, {}), _drawn(key, {})
    idle = []
    positions = content(key).positions
    drivers = positions.drivers if positions is not None else ()
    for name, quantity in _given(key).items():
        if name in drivers:
            continue  # moves the assembly, in pictures and travels
        changed, own = {name: _changed(quantity)}, f"parameter {name}"
        after = _computed(key, changed)
        assert after.pop(own) != computed[own], name
        elsewhere = any(computed[each] != text for each, text in after.items())
        if not (elsewhere or _in_words(key, name) or _drawn(key, changed) != drawn):
            idle.append(name)
    assert idle == []


def test_the_desk_has_more_than_fifty_given_parameters_and_the_tote_few() -> None:
    assert len(_given("sewing-desk")) > 50
    assert 20 <= len(_given("tool-tote")) <= 30
    assert len(content("sewing-desk").parameters) >= 60


@pytest.mark.parametrize("key", SETS)
def test_every_parameter_says_what_it_means(key: str) -> None:
    assert [name for name, model in content(key).parameters.items() if not model.means] == []
