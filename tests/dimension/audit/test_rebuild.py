"""Parts rebuilt from the printed numbers of their sheets."""

from __future__ import annotations

import json
import math
from dataclasses import asdict, replace
from itertools import accumulate, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.design import Design
from planbook.dimension import dimension_parts
from planbook.dimension.audit import Coordinate, Number, read_numbers, rebuild
from planbook.dimension.audit.record import Lettering
from planbook.dimension.completeness import SheetRecord, read_sheet_record
from planbook.dimension.completeness.record import Segment, Told
from planbook.measure import INCH, Precision, Quantity, Units, print_quantity
from planbook.measure.dimensionality import LENGTH
from planbook.shape import shape_parts
from planbook.statement.restating import Wording, state_dimension, state_part
from tests.dimension.completeness.plates import BLANK, MM, hole, linear, noted, plate, polygon, sheet
from tests.dimension.random_parts import Skeleton, all_shares, named_skeletons, part_of
from tests.shape.making import content_of, design_of

HALF_STEP = {Units.INCH: INCH / 64, Units.MILLIMETRE: 0.25 * MM}
"""Woodwork is printed to 1/32 in or 0.5 mm."""


def printed(told: Told, units: Units, precision: Precision = Precision.WOODWORK) -> Number:
    words = print_quantity(Quantity(told.nominal, LENGTH), units, precision)
    lettering = Lettering(words.text, words.value, words.unit)
    return Number(told.id, told.kind, told.characteristic, told.nominal, lettering)


def rebuilt(record: SheetRecord, units: Units) -> tuple[Coordinate, ...]:
    return rebuild(record, {each.id: printed(each, units) for each in record.dimensions})


def chained(gaps: list[float]) -> SheetRecord:
    """Holes in a line, each measured from the one before it."""
    places = list(accumulate(gaps))
    holes = [hole(f"h{n}", x, 30, diameter=1) for n, x in enumerate(places)]
    told = [linear(f"h{n}/x", "x", a, b) for n, (a, b) in enumerate(pairwise([0.0, *places]))]
    level = [linear("h0/y", "y", 0, 30), *(noted(f"h{n}/diameter", 1, "diameter") for n in range(len(places)))]
    return sheet(plate(*holes), *told, *level)


GAPS = st.lists(st.floats(3, 30), min_size=1, max_size=6)
UNITS = st.sampled_from(list(Units))


@given(GAPS, UNITS)
def test_a_chain_comes_to_the_sum_of_what_is_printed(gaps: list[float], units: Units) -> None:
    """Worked out anew here: the number of each hole's dimension added to those of the holes before it."""
    found = {each.features: each for each in rebuilt(chained(gaps), units) if each.direction == "x"}
    drawn = sums = 0.0
    for n, gap in enumerate(gaps):
        drawn += gap * MM
        sums += print_quantity(Quantity(gap * MM, LENGTH), units, Precision.WOODWORK).value
        coordinate = found[(f"h{n}",)]
        assert math.isclose(coordinate.drawn + coordinate.deviation, sums, abs_tol=5)
        assert abs(coordinate.deviation) <= (n + 1) * HALF_STEP[units] + 5
        assert set(coordinate.chain) == {f"plate/h{k}/x" for k in range(n + 1)}
        assert math.isclose(coordinate.drawn, drawn, abs_tol=5)


def test_a_radius_is_off_by_half_of_what_its_diameter_is() -> None:
    record = SheetRecord(plate(hole("pivot", 40, 30, diameter=8.3)), (*BLANK, noted("pivot/diameter", 8.3, "diameter")))
    (radius,) = (each for each in rebuilt(record, Units.MILLIMETRE) if each.direction == "radius")
    assert radius.deviation == pytest.approx(0.1 * MM)
    assert radius.chain == {"plate/pivot/diameter": pytest.approx(0.5)}


def test_a_bottom_lies_as_deep_as_printed() -> None:
    blind = noted("pivot/depth", 12.3)
    record = SheetRecord(plate(hole("pivot", 40, 30, depth=12.3)), (*BLANK, blind))
    off = [each.deviation for each in rebuilt(record, Units.MILLIMETRE) if each.direction == "z" and each.deviation]
    assert off == [pytest.approx(-0.2 * MM)]


def test_what_no_dimension_fixes_is_not_rebuilt() -> None:
    record = SheetRecord(plate(hole("pivot", 40, 30)), BLANK)
    found = rebuilt(record, Units.MILLIMETRE)
    assert found
    assert not [each for each in found if each.features == ("pivot",) or each.direction == "radius"]


def made_of(part: dict[str, object], units: Units) -> bytes:
    """The file of a part's sheet, as the program writes it."""
    content = content_of({"plate": part})
    design: Design = design_of(content)
    parts, _ = shape_parts(content, design)
    dimensions, _ = dimension_parts(content, design, parts, units)
    names = parts["plate"].features
    stated = state_part(parts["plate"], parts, design, units, Wording((), dict.fromkeys(names, ""), frozenset()))
    told = [asdict(state_dimension(each)) for each in dimensions.values()]
    return json.dumps({"part": asdict(stated), "dimensions": told}).encode()


@given(named_skeletons(), all_shares(), UNITS)
def test_no_coordinate_strays_further_than_half_a_step_for_each_number_of_its_chain(
    named: dict[str, Skeleton], shares: list[float], units: Units
) -> None:
    content = made_of(part_of(named, shares), units)
    record, numbers = read_sheet_record(content), {each.id: each for each in read_numbers(content)}
    found = rebuild(record, numbers)
    assert found
    for coordinate in found:
        room = sum(abs(factor) * half_step(numbers[name], units) for name, factor in coordinate.chain.items())
        assert abs(coordinate.deviation) <= room + 5


def half_step(number: Number, units: Units) -> float:
    """Woodwork; an angle is printed to half a degree."""
    return 0.25 if number.is_angle else HALF_STEP[units]


@given(named_skeletons(), all_shares(), UNITS)
def test_numbers_printed_exactly_rebuild_the_part_as_drawn(
    named: dict[str, Skeleton], shares: list[float], units: Units
) -> None:
    content = made_of(part_of(named, shares), units)
    record = read_sheet_record(content)
    exact = {
        each.id: replace(each, printed=replace(each.printed, value=each.nominal)) for each in read_numbers(content)
    }
    assert all(abs(each.deviation) < 1 for each in rebuild(record, exact))


@given(named_skeletons(), all_shares(), st.floats(-0.5, 0.5))
def test_a_longer_blank_is_longer_and_moves_nothing_that_the_datum_holds(
    named: dict[str, Skeleton], shares: list[float], off: float
) -> None:
    content = made_of(part_of(named, shares), Units.MILLIMETRE)
    numbers = {
        each.id: replace(each, printed=replace(each.printed, value=each.nominal)) for each in read_numbers(content)
    }
    blank = numbers["plate/blank/length"]
    longer = replace(blank, printed=replace(blank.printed, value=blank.nominal + off * MM))
    found = rebuild(read_sheet_record(content), {**numbers, blank.id: longer})
    for each in found:
        if each.direction != "x" or not each.drawn:
            assert abs(each.deviation) < 1
        elif abs(each.drawn - blank.nominal) < 1:
            assert each.deviation == pytest.approx(off * MM, abs=1)


@pytest.mark.parametrize(("face", "towards"), [("face", 1), ("back", -1)])
def test_a_wider_cone_of_the_same_angle_is_deeper(face: str, towards: int) -> None:
    """At 90 degrees by half of what it is wider: its bottom lies further from the face that it is cut from."""
    part = {"size": ("200 mm", "100 mm", "18 mm"), "features": {"pin": {
        "hole": "6 mm", "at": ("50 mm", "50 mm"), "countersink": {"diameter": "12 mm"}, "on": face,
    }}}  # fmt: skip
    content = made_of(part, Units.MILLIMETRE)
    read = {each.id: each for each in read_numbers(content)}
    cone = read["plate/pin/countersink_diameter"]
    wider = replace(cone, printed=replace(cone.printed, value=13 * MM))
    found = rebuild(read_sheet_record(content), {**read, cone.id: wider})
    off = [each.deviation for each in found if each.direction == "z" and each.deviation]
    assert off == [pytest.approx(-towards * 0.5 * MM, rel=1e-6)]


@pytest.mark.parametrize(("face", "towards"), [("face", 1), ("back", -1)])
def test_a_flatter_cone_reaches_as_wide_at_less_depth(face: str, towards: int) -> None:
    """Worked out by hand: a countersink of 12 mm to a hole of 6 mm at 90 degrees is 3 mm deep, at 91 degrees 2.948:
    its bottom lies nearer to the face that it is cut from."""
    part = {"size": ("200 mm", "100 mm", "18 mm"), "features": {"pin": {
        "hole": "6 mm", "at": ("50 mm", "50 mm"), "countersink": {"diameter": "12 mm"}, "on": face,
    }}}  # fmt: skip
    content = made_of(part, Units.MILLIMETRE)
    read = {each.id: each for each in read_numbers(content)}
    cone = read["plate/pin/countersink_angle"]
    flatter = replace(cone, printed=replace(cone.printed, value=91.0))
    found = rebuild(read_sheet_record(content), {**read, cone.id: flatter})
    off = [each.deviation for each in found if each.direction == "z" and each.deviation]
    assert off == [pytest.approx(towards * (3 - 3 / math.tan(math.radians(45.5))) * MM, rel=0.02)]


def arched(rise: float, half: float = 60.0) -> SheetRecord:
    """A plate whose front border is arched between x = 100 - half and 100 + half, `rise` deep at x = 100."""
    left, right = 100 - half, 100 + half
    radius = (half**2 + rise**2) / (2 * rise)
    corners = polygon((0, 0), (left, 0), (right, 0), (200, 0), (200, 100), (0, 100))
    bend = Segment(*((x * MM, 0.0) for x in (left, right)), (100 * MM, (rise - radius) * MM), ccw=False)
    outline = (corners[0], bend, *corners[2:])
    ends = linear("outline.left/x", "x", 0, left), linear("outline.right/x", "x", 0, right)
    foot, top = (100 * MM, 0.0, 0.0), (100 * MM, rise * MM, 0.0)
    depth = Told("plate/outline.right/through_y", "outline.right", "through_y", "linear", "y", (foot, top), rise * MM)
    return sheet(plate(outline=outline), *ends, depth)


@given(rise=st.floats(1, 25), off=st.floats(-0.3, 0.3))
def test_of_a_flat_arc_its_rise_is_judged_and_not_its_radius(rise: float, off: float) -> None:
    """The rise misprinted: the radius goes by many times as much, the wood by what was misprinted."""
    record = arched(rise)
    numbers = {each.id: printed(each, Units.MILLIMETRE) for each in record.dimensions}
    numbers = {key: replace(each, printed=replace(each.printed, value=each.nominal)) for key, each in numbers.items()}
    key = "plate/outline.right/through_y"
    wrong = replace(numbers[key].printed, value=(rise + off) * MM)
    (radius,) = (
        each
        for each in rebuild(record, numbers | {key: replace(numbers[key], printed=wrong)})
        if each.direction == "radius"
    )
    # d(radius)/d(rise) of (c^2 / 4 + h^2) / 2h, worked out by hand.
    assert radius.deviation == pytest.approx((rise**2 - 60**2) / (2 * rise**2) * off * MM, rel=1e-6, abs=1)
    assert abs(radius.off) == pytest.approx(abs(off) * MM, rel=1e-6, abs=1)


def test_of_a_rounded_corner_and_a_half_turn_all_of_the_radius_is_judged() -> None:
    assert {each.share for each in rebuilt(arched(60.0), Units.MILLIMETRE)} == {1.0}
    assert {each.share for each in rebuilt(chained([20.0]), Units.MILLIMETRE)} == {1.0}
