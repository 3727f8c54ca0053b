"""What leans, is cut at an angle or is turned is dimensioned, and its sheet says all and nothing twice."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planbook.dimension import PartDimension
from planbook.dimension.completeness import SheetRecord, Unfixed, check_sheet
from planbook.measure import Units
from tests.dimension.test_dimensions import state
from tests.dimension.test_turning_and_sloping import recorded, told
from tests.shape.making import plate

AT = ("200 mm", "100 mm")
LEANING = {"hole": "8 mm", "at": AT, "depth": "12 mm", "lean": {"x": "8 deg", "y": "-12 deg"}}
FOOT = {"end_cut": "left", "mitre": "12 deg", "bevel": "-10 deg"}
FEATURES: dict[str, dict[str, Any]] = {
    "leaning hole": LEANING,
    "leaning hole through": {"hole": "8 mm", "at": AT, "lean": {"x": "8 deg"}},
    "leaning hole in an edge": {
        "hole": "5 mm", "on": "rear_edge", "at": ("200 mm", "9 mm"), "depth": "30 mm", "lean": {"x": "-12 deg"},
    },
    "leaning holes in a row": {
        "hole": "5 mm", "at": AT, "lean": {"y": "20 deg"}, "repeat": {"count": 3, "pitch": "40 mm"},
    },
    "mitre and bevel": FOOT,
    "mitre": {"end_cut": "right", "mitre": "45 deg"},
    "bevel": {"end_cut": "right", "bevel": "30 deg"},
    "round tenon": {"round_tenon": ("12 mm", "30 mm"), "end": "right"},
    "turned length": {"turned": "16 mm", "start": "50 mm", "end": "90 mm"},
}  # fmt: skip
EACH = pytest.mark.parametrize("feature", FEATURES.values(), ids=FEATURES)
BOTH = pytest.mark.parametrize("units", list(Units))


def words(each: PartDimension) -> str:
    """As on the sheet, a reference in parentheses."""
    text = " ".join(filter(None, (each.prefix, each.printed.text, each.suffix)))
    return f"({text})" if each.reference else text


def lines(feature: dict[str, Any], units: Units = Units.MILLIMETRE) -> dict[str, str]:
    _, said = told({"it": feature}, units)
    return {key.removeprefix("it/"): words(each) for key, each in said.items() if each.feature == "it"}


def faults_without(record: SheetRecord, left_out: str) -> tuple[object, ...]:
    return check_sheet(replace(record, dimensions=tuple(each for each in record.dimensions if each.id != left_out)))


@EACH
@BOTH
def test_the_sheet_says_all_and_nothing_twice(feature: dict[str, Any], units: Units) -> None:
    assert check_sheet(recorded({"it": feature}, units)) == ()


@EACH
def test_each_dimension_taken_away_is_missed_and_each_printed_twice_is_found(feature: dict[str, Any]) -> None:
    record = recorded({"it": feature}, Units.MILLIMETRE)
    for each in record.dimensions:
        if each.reference:
            assert faults_without(record, each.id) == ()
            continue
        assert any(isinstance(fault, Unfixed) for fault in faults_without(record, each.id)), each.id
        again = (*record.dimensions, replace(each, id=f"{each.id}_again"))
        assert check_sheet(replace(record, dimensions=again)), each.id


@settings(max_examples=15)
@given(st.lists(st.sampled_from(sorted(FEATURES)), min_size=2, max_size=4, unique=True))
def test_together_they_are_complete_too(names: list[str]) -> None:
    ends = [name for name in names if "end" in FEATURES[name] or "end_cut" in FEATURES[name]]
    own = {name.replace(" ", "_"): FEATURES[name] for name in names if name not in ends[1:]}
    assert check_sheet(recorded(own, Units.MILLIMETRE)) == ()


def test_a_leaning_hole_is_told_by_both_its_angles_and_what_they_come_to() -> None:
    assert lines(LEANING) == {
        "x": "200",
        "y": "100",
        "diameter": "Ø 8",
        "depth": "12 deep",
        "lean_x": "runs in 8° towards right end",
        "lean_y": "runs in 12° towards front edge",
        "resultant": "(14.5° in all)",
        "sight_line": "(sight line 56.5° from the length)",
    }


@given(st.integers(-40, 40).filter(bool), st.integers(-40, 40).filter(bool))
def test_resultant_and_sight_line(a: int, b: int) -> None:
    """tan^2 R = tan^2 a + tan^2 b; the direction is atan2: plain trigonometry, against spherical trigonometry here."""
    _, said = told({"it": {**LEANING, "depth": "5 mm", "lean": {"x": f"{a} deg", "y": f"{b} deg"}}}, Units.MILLIMETRE)
    resultant, sight = (math.radians(said[f"it/{name}"].nominal) for name in ("resultant", "sight_line"))
    # Seen along each axis, an axis that leans by R along a sight line leans by atan(tan R cos) and atan(tan R sin).
    assert math.degrees(math.atan(math.tan(resultant) * math.cos(sight))) == pytest.approx(abs(a))
    assert math.degrees(math.atan(math.tan(resultant) * math.sin(sight))) == pytest.approx(abs(b))


def test_an_end_cut_is_told_as_a_bevel_is_set() -> None:
    assert lines(FOOT) == {
        "mitre": "mitre 12° or 64 over 300",
        "bevel": "bevel 10° or 53 over 300",
        "blade": "(saw blade tilted 10°)",
    }
    assert lines(FOOT, Units.INCH)["mitre"] == "mitre 12° or 2 9/16 over 12"
    _, said = told({"it": FOOT}, Units.MILLIMETRE)
    assert said["blank/length"].suffix == "over the long point"
    _, said = told({"it": FOOT, "top": {**FOOT, "end_cut": "right"}}, Units.MILLIMETRE)
    assert said["blank/length"].suffix == "long point to long point"
    # From the long point, which lies on the front edge, and on the face because the bevel is below zero.
    assert said["blank/length"].points[0].y == 0


def test_a_rod_is_as_thick_as_its_blank() -> None:
    """Its diameter says all, and nobody needs to be told that a hole goes through its middle."""
    hole = {"hole": "8 mm", "at": ("100 mm", "pin.thick / 2"), "depth": "9 mm"}
    features = {"rod": {"turned": "pin.thick"}, "hole": hole}
    own, findings = state(plate("200 mm", "pin.thick", "pin.thick", features=features), **{"pin.thick": "20 mm"})
    assert findings == ()
    assert sorted(own) == ["blank/length", "hole/depth", "hole/diameter", "hole/x", "rod/diameter"]


def sockets(**changed: dict[str, Any]) -> dict[str, dict[str, Any]]:
    """Four holes that mirror one another about the middle of a board of 400 by 200 mm."""
    x, y, far_x, far_y = "in.x", "in.y", "400 mm - in.x", "200 mm - in.y"
    hole = {"hole": "8 mm", "depth": "12 mm"}
    every = {
        "a": {**hole, "at": (x, y), "lean": {"x": "tip", "y": "12 deg"}},
        "b": {**hole, "at": (far_x, y), "lean": {"x": "-tip", "y": "12 deg"}},
        "c": {**hole, "at": (x, far_y), "lean": {"x": "tip", "y": "-12 deg"}},
        "d": {**hole, "at": (far_x, far_y), "lean": {"x": "-tip", "y": "-12 deg"}},
    }
    return {name: {**each, **changed.get(name, {})} for name, each in every.items()}


NAMES = {"in.x": "60 mm", "in.y": "50 mm", "tip": "8 deg"}


def said_of(features: dict[str, dict[str, Any]]) -> dict[str, PartDimension]:
    dimensions, findings = state(plate("400 mm", "200 mm", "18 mm", features=features), **NAMES)
    assert findings == ()
    return dict(dimensions)


def test_holes_that_mirror_one_another_share_a_callout() -> None:
    said = said_of(sockets())
    assert {name.partition("/")[0] for name in said if name.endswith("/diameter")} == {"a"}
    assert said["a/diameter"].count == 4
    assert words(said["a/lean_x"]) == "runs in 8° towards the middle of the length"
    assert words(said["a/lean_y"]) == "runs in 12° towards the middle of the width"
    assert [each.feature for each in said["a/lean_x"].also] == ["b", "c", "d"]


@pytest.mark.parametrize(
    "odd",
    [
        {"lean": {"x": "tip", "y": "-12 deg"}},
        {"lean": {"x": "-9 deg", "y": "-12 deg"}},
        {"at": ("400 mm - in.x + 1 mm", "200 mm - in.y")},
    ],
    ids=["leans the other way", "leans more", "stands elsewhere"],
)
def test_one_that_is_no_mirror_image_says_its_own(odd: dict[str, Any]) -> None:
    said = said_of(sockets(d=odd))
    assert said["a/diameter"].count == 3
    assert "d/diameter" in said
    assert said["d/lean_x"].suffix in ("towards right end", "towards left end")


def test_holes_that_all_lean_one_way_say_which() -> None:
    way = {"lean": {"x": "tip", "y": "12 deg"}}
    said = said_of(sockets(b=way, c=way, d=way))
    assert said["a/diameter"].count == 4
    assert said["a/lean_x"].suffix == "towards right end"
    assert said["a/lean_y"].suffix == "towards rear edge"
