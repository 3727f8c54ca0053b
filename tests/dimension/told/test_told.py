"""The shape that numbers describe: a part built from the numbers of another of its kind is that other part."""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace

import pytest
from hypothesis import assume, given, settings

from planbook.dimension.audit import Number, read_numbers, rebuild
from planbook.dimension.completeness import SheetRecord, read_sheet_record
from planbook.dimension.completeness.record import Shape
from planbook.dimension.told import told_shape
from planbook.measure import Units
from tests.dimension.audit.test_rebuild import made_of
from tests.dimension.random_parts import Skeleton, all_shares, named_skeletons, part_of

MM = 1e6


def read(part: dict[str, object]) -> tuple[SheetRecord, dict[str, Number]]:
    content = made_of(part, Units.MILLIMETRE)
    numbers = {each.id: each for each in read_numbers(content)}
    exact = {name: replace(each, printed=replace(each.printed, value=each.nominal)) for name, each in numbers.items()}
    return read_sheet_record(content), exact


def told(record: SheetRecord, numbers: dict[str, Number], values: dict[str, float]) -> Shape:
    off = {name: values.get(name, each.nominal) - each.nominal for name, each in numbers.items()}
    return told_shape(record.part, rebuild(record, numbers), off)


def measures(value: object) -> list[float]:
    """All numbers of a shape, in order."""
    if is_dataclass(value):
        return [number for field in fields(value) for number in measures(getattr(value, field.name))]
    if isinstance(value, dict):
        return [number for each in value.values() for number in measures(each)]
    if isinstance(value, tuple):
        return [number for each in value for number in measures(each)]
    return [float(value)] if isinstance(value, int | float) else []


def alike(one: list[float], other: list[float]) -> list[float]:
    """Other shares that choose the same edges, and rows as long."""
    a, b, c = other
    return [a / 2 + (0.0 if one[0] < 0.5 else 0.5), (int(3 * one[1]) + 0.98 * b) / 3, c]


@given(named_skeletons(), all_shares(), all_shares())
@settings(max_examples=150)
def test_a_part_with_the_numbers_of_another_is_that_other(
    named: dict[str, Skeleton], one: list[float], other: list[float]
) -> None:
    other = alike(one, other)
    drawn, numbers = read(part_of(named, one))
    wanted, theirs = read(part_of(named, other))
    assume(numbers.keys() == theirs.keys())
    assume([len(measures(each)) for each in (drawn, wanted)] == [len(measures(drawn))] * 2)
    values = {name: each.nominal for name, each in theirs.items()}
    off = [abs(a - b) for a, b in zip(measures(told(drawn, numbers, values)), measures(wanted.part), strict=True)]
    assert max(off) < 50.0  # nanometres


def test_a_part_with_its_own_numbers_is_itself() -> None:
    record, numbers = read({"size": ("400 mm", "200 mm", "18 mm")})
    assert told(record, numbers, {}) is record.part


PIVOT = {"hole": "8 mm", "at": ("173 mm", "40 mm"), "on": "face"}
BAR = {"size": ("400 mm", "80 mm", "18 mm"), "features": {"pivot": PIVOT}}


def test_a_misprinted_place_is_where_the_hole_is_bored() -> None:
    record, numbers = read(BAR)
    shape = told(record, numbers, {"plate/pivot/x": 137 * MM})
    centre = shape.features["pivot"].cuts[0].loop[0].centre
    assert centre == pytest.approx((137 * MM, 40 * MM), abs=1)


def test_a_leaning_hole_follows_its_angle_and_its_mouth() -> None:
    lean = {**PIVOT, "lean": {"x": "10 deg"}}
    record, numbers = read({**BAR, "features": {"pivot": lean}})
    wanted, theirs = read({**BAR, "features": {"pivot": {**lean, "at": ("180 mm", "44 mm"), "lean": {"x": "14 deg"}}}})
    shape = told(record, numbers, {name: each.nominal for name, each in theirs.items()})
    made, meant = (each.features["pivot"].cuts[0] for each in (shape, wanted.part))
    assert made.frame.normal == pytest.approx(meant.frame.normal, abs=1e-9)
    assert made.frame.place((0.0, 0.0), made.lift) == pytest.approx(meant.frame.place((0.0, 0.0), meant.lift), abs=2)


def test_an_end_cut_goes_through_its_long_point() -> None:
    ends = {"size": ("400 mm", "80 mm", "18 mm"), "features": {"foot": {"end_cut": "right", "mitre": "10 deg"}}}
    record, numbers = read(ends)
    shape = told(record, numbers, {"plate/blank/length": 380 * MM, "plate/foot/mitre": 12.0})
    cut = shape.features["foot"].cuts[0]
    assert cut.frame.place((0.0, 0.0), cut.lift) == pytest.approx((380 * MM, 0.0, 0.0), abs=2)
