"""A feature that is measured from another one: where it comes to be, what its sheet says, and what cannot be meant."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.shape import shape_parts
from planbook.source.findings import Finding
from planbook.source.origins import check_origins
from tests.dimension.test_dimensions import Lines, line, state
from tests.shape.making import MM, content_of, design_of, plate, shaped, sound

PIVOT = {"hole": "8 mm", "at": ("tail", "60 mm")}


def lines_of(features: dict[str, Any], name: str, **parameters: Any) -> Lines:
    dimensions, findings = state(plate(features=features), **{"tail": "30 mm", **parameters})
    assert findings == ()
    return {key.removeprefix(f"{name}/"): line(each) for key, each in dimensions.items() if each.feature == name}


def test_the_pitch_of_two_holes_is_stated_between_them_with_its_tolerance() -> None:
    pin = {"hole": "6.5 mm", "from": "pivot", "at": ("crank", "0 mm")}
    crank = {"is": "171 mm", "tolerance": "0.2 mm", "precision": "caliper"}
    assert lines_of({"pivot": PIVOT, "pin": pin}, "pin", crank=crank) == {
        "x/pivot": "face x: 171 ±0.2",
        "diameter": "face diameter: Ø6.5 through",
    }


def test_the_dimension_lies_between_the_two_places_in_the_features_own_view() -> None:
    pin = {"hole": "6.5 mm", "on": "back", "from": "pivot", "at": ("100 mm", "25 mm")}
    dimensions, _ = state(plate(features={"pivot": PIVOT, "pin": pin}), tail="30 mm")
    along, across = dimensions["pin/x/pivot"], dimensions["pin/y/pivot"]
    assert [tuple(c / MM for c in point) for point in along.points] == [(30, 60, 0), (130, 85, 0)]
    assert (along.view, across.view, across.printed.text) == ("back", "back", "25")
    assert along.value is not None
    assert along.value.formula == "100 mm"


def test_one_axis_may_be_measured_from_another_feature_and_the_other_from_the_datum() -> None:
    pin = {"hole": "6.5 mm", "from": {"x": "pivot"}, "at": ("100 mm", "90 mm")}
    assert set(lines_of({"pivot": PIVOT, "pin": pin}, "pin")) == {"x/pivot", "y", "diameter"}
    assert lines_of({"pivot": PIVOT, "pin": pin}, "pin")["y"] == "face y: 90"


def test_a_place_towards_the_datum_is_negative_in_content_and_has_no_sign_on_the_sheet() -> None:
    back = {"is": "-12 mm", "tolerance": "+0.5 mm/-0.2 mm"}
    pin = {"hole": "6.5 mm", "from": "pivot", "at": ("back", "-20 mm")}
    found = lines_of({"pivot": PIVOT, "pin": pin}, "pin", back=back)
    assert (found["x/pivot"], found["y/pivot"]) == ("face x: 12 +0.2/−0.5", "face y: 20")


@pytest.mark.parametrize(
    ("other", "place"),
    [
        ({"slot": "10 mm", "start": ("50 mm", "60 mm"), "end": ("90 mm", "60 mm")}, (50, 60)),
        ({"mortise": ("30 mm", "10 mm"), "at": ("40 mm", "70 mm"), "depth": "9 mm", "round": "3 mm"}, (40, 70)),
        ({"opening": ("30 mm", "10 mm"), "at": ("40 mm", "70 mm")}, (40, 70)),
        ({"hole": "8 mm", "at": ("20 mm", "60 mm"), "repeat": {"count": 3, "pitch": "30 mm"}}, (20, 60)),
    ],
)
def test_what_is_measured_from(other: dict[str, Any], place: tuple[float, float]) -> None:
    hole = {"hole": "5 mm", "from": "other", "at": ("100 mm", "30 mm")}
    part = plate(features={"hole": hole, "other": other})
    bore = sound(part).features["hole"].cuts[0]
    assert bore.loop.segments[0].centre == pytest.approx(((place[0] + 100) * MM, (place[1] + 30) * MM))
    near, far = state(part)[0]["hole/x/other"].points
    assert (near.x / MM, far.x / MM) == pytest.approx((place[0], place[0] + 100))


def test_both_ends_of_a_slot_are_measured_from_the_other_feature() -> None:
    slot = {"slot": "8 mm", "from": "pivot", "start": ("20 mm", "0 mm"), "end": ("80 mm", "0 mm")}
    assert lines_of({"pivot": PIVOT, "slot": slot}, "slot") == {
        "x/pivot": "face x: 20",
        "end_x/pivot": "face x: 80",
        "width": "face note: slot 8 wide, through",
    }


@given(st.lists(st.integers(1, 30), min_size=2, max_size=8))
def test_measures_along_a_chain_of_features_add_up(steps: list[int]) -> None:
    features: dict[str, Any] = {"h0": {"hole": "2 mm", "at": (f"{steps[0]} mm", "50 mm")}}
    for k, step in enumerate(steps[1:], 1):
        features[f"h{k}"] = {"hole": "2 mm", "from": f"h{k - 1}", "at": (f"{step} mm", "0 mm")}
    part = sound(plate(features=dict(reversed(features.items()))))
    last = part.features[f"h{len(steps) - 1}"].cuts[0].loop.segments[0]
    assert last.centre == pytest.approx((sum(steps) * MM, 50 * MM))


def test_a_place_out_of_the_part_is_said_as_the_author_measured_it() -> None:
    pin = {"hole": "10 mm", "from": "pivot", "at": ("370 mm", "0 mm")}
    _, findings = shaped(plate(features={"pivot": PIVOT, "pin": pin}), tail="30 mm")
    assert [finding.code for finding in findings] == ["feature-outside-part"]
    assert "x `370 mm` (370 mm, 14.5669 in) from `pivot`" in findings[0].message
    assert "at most 365 mm from `pivot`" in findings[0].remedy


def test_a_faulty_formula_is_reported_once_and_where_it_stands() -> None:
    pin = {"hole": "10 mm", "from": "pivot", "at": ("100 mm", "0 mm")}
    pivot = {"hole": "8 mm", "at": ("tial", "60 mm")}
    content = content_of({"plate": plate(features={"pin": pin, "pivot": pivot})}, {"tail": "30 mm"})
    _, findings = shape_parts(content, design_of(content))
    place = content.parts["plate"].features["pivot"].at[0].place  # type: ignore[union-attr]
    assert [(finding.code, finding.place) for finding in findings] == [("unknown-name", place)]


def origins(features: dict[str, Any]) -> tuple[Finding, ...]:
    part = content_of({"plate": plate(features=features)}).parts["plate"]
    return check_origins("plate", part.features)


def hole(at: tuple[str, str] = ("10 mm", "10 mm"), **rest: Any) -> dict[str, Any]:
    return {"hole": "2 mm", "at": at, **rest}


def test_an_unknown_feature_is_a_finding_with_the_nearest_names() -> None:
    (finding,) = origins({"pivot": hole(), "pin": hole(**{"from": "pivto"})})
    assert (finding.code, finding.remedy) == ("feature-unknown", "Did you mean `pivot`?")


def test_a_circle_is_shown_whole_and_once() -> None:
    ring = {"a": hole(**{"from": "c"}), "b": hole(**{"from": "a"}), "c": hole(**{"from": "b"})}
    (finding,) = origins(ring)
    assert finding.code == "from-circle"
    assert finding.message.endswith("in a circle: `a` from `c`, `c` from `b`, `b` from `a`.")
    assert len(finding.related) == 2
    assert [each.code for each in origins({"a": hole(**{"from": "a"})})] == ["from-circle"]


def test_features_may_be_measured_from_one_another_along_different_axes() -> None:
    assert origins({"a": hole(**{"from": {"x": "b"}}), "b": hole(**{"from": {"y": "a"}})}) == ()


def test_a_groove_is_no_place_to_measure_from() -> None:
    groove = {"groove": "6 mm", "along": "x", "at": "20 mm", "depth": "5 mm"}
    (finding,) = origins({"way": groove, "peg": hole(), "pin": hole(**{"from": "way"})})
    assert (finding.code, finding.remedy) == ("from-without-place", "Names in `plate`: `peg`.")


def test_an_axis_must_lie_in_both_faces() -> None:
    edge = hole(on="front_edge")
    (finding,) = origins({"edge": edge, "pin": hole(**{"from": "edge"})})
    assert (finding.code, finding.remedy) == ("from-axis", "Write `from: {x: edge}`, or name another feature.")
    (finding,) = origins({"peg": hole(), "pin": hole(**{"from": {"z": "peg"}})})
    assert (finding.code, finding.remedy) == ("from-axis", "Write `from: {x: peg}` or `from: {y: peg}`.")
