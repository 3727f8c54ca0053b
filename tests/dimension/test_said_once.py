"""Nothing is said twice on a sheet: what stands in one line, and what is alike, by the author's own formulas."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.measure import Units
from tests.dimension.random_parts import Skeleton, all_shares, feature_of, named_skeletons, skeletons
from tests.dimension.test_dimensions import line, state
from tests.dimension.test_promises import BOTH, dimensions_of
from tests.shape.making import plate


def lines_of(features: dict[str, Any], **rest: Any) -> dict[str, str]:
    """Every line that is not about the blank, with parameters a, b and c."""
    dimensions, findings = state(plate(features=features, **rest), **{"a": "30 mm", "b": "50 mm", "c": "90 mm"})
    assert findings == ()
    return {key: line(each) for key, each in dimensions.items() if each.feature != "blank"}


def hole(x: str, y: str, diameter: str = "8 mm", **rest: Any) -> dict[str, Any]:
    return {"hole": diameter, "at": (x, y), **rest}


def groove(at: str, along: str = "x", width: str = "6 mm", **rest: Any) -> dict[str, Any]:
    return {"groove": width, "along": along, "at": at, "depth": "5 mm", **rest}


def test_holes_in_one_line_say_their_common_place_once() -> None:
    found = lines_of({"first": hole("a", "b", "8 mm"), "second": hole("c", "b", "5 mm")})
    assert set(found) == {"first/x", "first/y", "first/diameter", "second/x", "second/diameter"}


def test_formulas_are_the_same_when_they_say_the_same_however_they_are_written() -> None:
    found = lines_of({"first": hole("a", "b + c"), "second": hole("c", "(2 * c + 2 * b) / 2")})
    assert "second/y" not in found


def test_equal_numbers_by_unlike_formulas_are_no_common_place() -> None:
    found = lines_of({"first": hole("a", "50 mm"), "second": hole("c", "b")})
    assert {"first/y", "second/y"} <= set(found)


def test_a_place_that_is_repeated_in_another_face_is_for_reference() -> None:
    found = lines_of({"front": hole("a", "9 mm", on="front_edge"), "top": hole("a", "b")})
    assert (found["front/x"], found["top/x"]) == ("front_edge x: 30", "face x: (30)")


def test_a_reference_stands_once_in_its_face() -> None:
    front = hole("a", "9 mm", on="front_edge")
    found = lines_of({"front": front, "one": hole("a", "b", "8 mm"), "two": hole("a", "c", "5 mm")})
    assert found["one/x"] == "face x: (30)"
    assert "two/x" not in found


def test_a_reference_carries_no_tolerance() -> None:
    features = {"front": hole("a", "9 mm", on="front_edge"), "top": hole("a", "b")}
    given_a = {"a": {"is": "30 mm", "tolerance": "0.2 mm"}, "b": "50 mm"}
    dimensions, _ = state(plate(features=features), **given_a)
    assert [line(dimensions[key]) for key in ("front/x", "top/x")] == ["front_edge x: 30 ±0.2", "face x: (30)"]


def test_a_groove_that_stops_at_another_one_does_not_say_so_again() -> None:
    found = lines_of({"low": groove("a"), "high": groove("c", along="y", start="a + 6 mm")})
    assert "high/start" not in found
    assert {"low/y", "low/width", "high/x"} <= set(found)


def test_what_the_author_measured_from_a_feature_is_what_stays() -> None:
    first, second = hole("a", "b"), hole("a", "b")
    features = {"early": hole("a + c", "20 mm", "5 mm"), "first": first, "second": {**second, "at": ("c", "0 mm")}}
    features["second"]["from"] = "first"
    found = lines_of(features)
    assert found["second/x/first"] == "face x: 90"
    assert "early/x" not in found


def test_rows_side_by_side_say_their_pitch_once() -> None:
    row = {"repeat": {"count": 3, "pitch": "40 mm", "along": "x"}}
    found = lines_of({"low": hole("a", "b", **row), "high": hole("a", "c", **row)})
    assert sum("pitch" in key for key in found) == 1
    other = {"repeat": {"count": 2, "pitch": "40 mm", "along": "x"}}
    found = lines_of({"low": hole("a", "b", **row), "high": hole("a", "c", **other)})
    assert sum("pitch" in key for key in found) == 2


def test_equal_sizes_of_like_features_are_counted_at_one_of_them() -> None:
    found = lines_of({"left": groove("a", "y"), "right": groove("c", "y")})
    assert found == {
        "left/x": "front_edge x: 30",
        "left/width": "front_edge x: 2x 6",
        "left/depth": "front_edge z: 2x 5",
        "right/x": "front_edge x: 90",
    }


def test_a_counted_dimension_knows_what_it_counts() -> None:
    dimensions, _ = state(plate(features={"left": groove("a", "y"), "right": groove("c", "y")}), a="30 mm", c="90 mm")
    (also,) = dimensions["left/width"].also
    assert (also.id, also.feature) == ("plate/right/width", "right")
    assert [point.x for point in also.points] == [90e6, 96e6]


def test_a_callout_is_counted_only_when_all_of_it_is_equal() -> None:
    sunk = {"counterbore": {"diameter": "12 mm", "depth": "4 mm"}}
    found = lines_of({"one": hole("a", "b", **sunk), "two": hole("c", "b", **sunk), "third": hole("b", "a", "8 mm")})
    assert found["one/diameter"] == "face diameter: 2x Ø8 through"
    assert found["one/counterbore_depth"] == "face note: 4 deep"
    assert found["third/diameter"] == "face diameter: Ø8 through"
    assert not [key for key in found if key.startswith("two/") and key != "two/x"]
    noted = lines_of({"one": hole("a", "b", note="ream it"), "two": hole("c", "b")})
    assert {"one/diameter", "two/diameter"} <= set(noted)


def test_rows_that_are_alike_add_up() -> None:
    row = {"repeat": {"count": 3, "pitch": "40 mm", "along": "x"}}
    found = lines_of({"low": hole("a", "b", **row), "high": hole("a", "c", **row)})
    assert found["high/diameter"] == "face diameter: 6x Ø8 through"


def test_only_one_group_is_counted_so_that_the_others_cannot_be_taken_for_it() -> None:
    wide, narrow = "10 mm", "5 mm"
    found = lines_of(
        {
            "a1": hole("a", "20 mm", wide), "a2": hole("b", "21 mm", wide), "a3": hole("c", "22 mm", wide),
            "b1": hole("a", "60 mm", narrow), "b2": hole("b", "61 mm", narrow),
        }
    )  # fmt: skip
    assert {key: words for key, words in found.items() if key.endswith("diameter")} == {
        "a1/diameter": "face diameter: 3x Ø10 through",
        "b1/diameter": "face diameter: Ø5 through",
        "b2/diameter": "face diameter: Ø5 through",
    }


@pytest.mark.parametrize("face", ["back", "front_edge"])
def test_features_of_other_faces_say_their_own_sizes(face: str) -> None:
    found = lines_of({"one": hole("a", "9 mm"), "two": hole("c", "9 mm", on=face)})
    assert {"one/diameter", "two/diameter"} <= set(found)


@given(skeletons(), all_shares(), BOTH)
def test_a_feature_and_its_double_are_dimensioned_as_one(skeleton: Skeleton, shares: list[float], units: Units) -> None:
    """The double differs in its name only: all that it says has been said, so it has no dimension of its own."""
    once = feature_of(skeleton, shares)
    alone = dimensions_of({"size": ("400 mm", "200 mm", "30 mm"), "features": {"ash": once}}, units)
    two = dimensions_of({"size": ("400 mm", "200 mm", "30 mm"), "features": {"ash": once, "elm": once}}, units)
    assert set(two) == set(alone)


@given(named_skeletons(), all_shares(), st.randoms())
def test_what_is_said_does_not_hang_on_the_order_in_the_file(
    named: dict[str, Skeleton], shares: list[float], random: Any
) -> None:
    """Features of one set of numbers: many have formulas in common."""
    features = {name: feature_of(skeleton, shares) for name, skeleton in named.items()}
    shuffled = list(features.items())
    random.shuffle(shuffled)
    size = ("400 mm", "200 mm", "30 mm")
    first = dimensions_of({"size": size, "features": features}, Units.MILLIMETRE)
    second = dimensions_of({"size": size, "features": dict(shuffled)}, Units.MILLIMETRE)
    assert {key: line(each) for key, each in first.items()} == {key: line(each) for key, each in second.items()}
