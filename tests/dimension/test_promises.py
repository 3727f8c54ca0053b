"""What holds of every dimension of every part: measured from the shape, each once, an id that never moves."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.dimension import DimensionKind, PartDimension, dimension_parts
from planbook.measure import Units
from planbook.shape import FACES, shape_parts
from planbook.source.findings import Severity
from tests.dimension.random_parts import SIZE, Skeleton, all_shares, named_skeletons, part_of
from tests.shape.making import MM, content_of, design_of

BOTH = st.sampled_from(list(Units))


def dimensions_of(part: dict[str, Any], units: Units) -> dict[str, PartDimension]:
    content = content_of({"plate": part})
    design = design_of(content)
    parts, findings = shape_parts(content, design)
    assert findings == ()
    dimensions, findings = dimension_parts(content, design, parts, units)
    assert not [finding for finding in findings if finding.severity is Severity.STOP]
    return dict(dimensions)


@given(named_skeletons(), all_shares(), BOTH)
def test_every_feature_has_the_dimensions_that_state_it(
    named: dict[str, Skeleton], shares: list[float], units: Units
) -> None:
    dimensions = dimensions_of(part_of(named, shares), units)
    counts = {name: sum(each.feature == name for each in dimensions.values()) for name in ["blank", *named]}
    assert counts == {"blank": 3} | {name: skeleton.count for name, skeleton in named.items()}


@given(named_skeletons(), all_shares(), BOTH)
def test_a_nominal_is_the_distance_of_its_points(named: dict[str, Skeleton], shares: list[float], units: Units) -> None:
    for dimension in dimensions_of(part_of(named, shares), units).values():
        if dimension.kind is DimensionKind.LINEAR:
            axis = "xyz".index(dimension.axis)
            near, far = dimension.points
            assert far[axis] - near[axis] == dimension.nominal > 0
            assert axis != FACES[dimension.view].normal
        elif dimension.kind is DimensionKind.ANGLE:
            at, *legs = ([point[axis] for axis in _across(dimension)] for point in dimension.points)
            turns = [math.degrees(math.atan2(leg[1] - at[1], leg[0] - at[0])) for leg in legs]
            assert (turns[1] - turns[0]) % 360 == pytest.approx(dimension.nominal, abs=1e-6)
        elif dimension.kind is not DimensionKind.NOTE:
            apart = sum((a - b) ** 2 for a, b in zip(*dimension.points, strict=True)) ** 0.5
            times = 2 if dimension.kind is DimensionKind.DIAMETER else 1
            assert times * apart == pytest.approx(dimension.nominal)
        if dimension.value is not None:
            assert dimension.nominal == pytest.approx(dimension.value.number, abs=1024)


def _across(dimension: PartDimension) -> tuple[int, int]:
    return FACES[dimension.view].u, FACES[dimension.view].v


@given(named_skeletons(), all_shares(), BOTH)
def test_all_points_lie_in_the_plane_of_their_view(
    named: dict[str, Skeleton], shares: list[float], units: Units
) -> None:
    for dimension in dimensions_of(part_of(named, shares), units).values():
        axes = FACES[dimension.view]
        plane = SIZE[axes.normal] * MM if axes.far else 0.0
        assert all(point[axes.normal] == plane for point in dimension.points)
        assert all(-1 <= c <= size * MM + 1 for point in dimension.points for c, size in zip(point, SIZE, strict=True))


@given(named_skeletons(), all_shares(), all_shares(), BOTH, st.randoms())
def test_ids_do_not_move_with_values_order_or_units(
    named: dict[str, Skeleton], shares: list[float], others: list[float], units: Units, random: Any
) -> None:
    shuffled = list(named.items())
    random.shuffle(shuffled)
    first = dimensions_of(part_of(named, shares), units)
    second = dimensions_of(part_of(dict(shuffled), others), Units.INCH)
    assert set(first) == set(second)
    assert all(key == dimension.id for key, dimension in first.items())
    assert {key: dimension.callout for key, dimension in first.items()} == {
        key: dimension.callout for key, dimension in second.items()
    }


HALF_STEPS = {
    (Units.INCH, False): 25.4 / 64,
    (Units.INCH, True): 25.4 * 0.0025,
    (Units.MILLIMETRE, False): 0.25,
    (Units.MILLIMETRE, True): 0.05,
}
"""Millimetres: half of 1/32 in, .005 in, 0.5 mm and 0.1 mm, the floors of woodwork and of caliper work."""


@given(named_skeletons(), all_shares(), BOTH, st.booleans())
def test_a_text_is_never_further_from_the_shape_than_half_of_its_step(
    named: dict[str, Skeleton], shares: list[float], units: Units, caliper: bool
) -> None:
    part = part_of(named, shares) | ({"precision": "caliper"} if caliper else {})
    for dimension in dimensions_of(part, units).values():
        if not dimension.characteristic.endswith("angle"):
            apart = abs(dimension.printed.value - dimension.nominal) / MM
            assert apart <= HALF_STEPS[units, dimension.caliper] + 1e-6
