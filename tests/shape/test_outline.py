"""Outlines: what the corners become, and every way in which they can be wrong."""

from __future__ import annotations

import math
from typing import Any

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from planbook.shape import bounds
from planbook.shape.geometry import Arc, Line
from planbook.shape.loops import SAGITTA, area, flatten
from planbook.source.findings import Finding, Severity
from tests.shape.making import MM, plate, shaped, sound

Corner = tuple[str, str]


def outline(**corners: Corner | dict[str, Any]) -> dict[str, Any]:
    return {name: corner if isinstance(corner, dict) else {"at": corner} for name, corner in corners.items()}


BOX = outline(a=("0 mm", "0 mm"), b=("400 mm", "0 mm"), c=("400 mm", "200 mm"), d=("0 mm", "200 mm"))


def only_finding(**rest: Any) -> Finding:
    part, findings = shaped(plate(**rest))
    assert [finding.severity for finding in findings] == [Severity.STOP]
    assert part is None
    return findings[0]


def test_without_an_outline_a_part_is_its_rectangle() -> None:
    part = sound(plate())
    assert area(part.outline) == 400 * 200 * MM**2
    assert part.vertices == ()


def test_straight_corners_keep_their_names() -> None:
    part = sound(plate(outline=BOX))
    assert part.outline.names == ("a", "b", "c", "d")
    assert all(isinstance(segment, Line) for segment in part.outline.segments)
    assert area(part.outline) == 400 * 200 * MM**2


def test_a_rounded_corner_becomes_a_tangent_arc_of_its_radius() -> None:
    part = sound(plate(outline={**BOX, "c": {"at": ("400 mm", "200 mm"), "round": "30 mm"}}))
    arc = part.outline.segments[part.outline.names.index("c")]
    assert isinstance(arc, Arc)
    assert arc.start == pytest.approx((400 * MM, 170 * MM))
    assert arc.end == pytest.approx((370 * MM, 200 * MM))
    assert arc.centre == pytest.approx((370 * MM, 170 * MM))
    assert area(part.outline) == pytest.approx((400 * 200 - (1 - math.pi / 4) * 30**2) * MM**2)


def test_roundings_may_meet_in_the_middle_of_a_side() -> None:
    rounded = {name: {**corner, "round": "100 mm"} for name, corner in BOX.items()}
    part = sound(plate(outline=rounded))
    assert area(part.outline) == pytest.approx((400 * 200 - (4 - math.pi) * 100**2) * MM**2)


def test_an_inner_corner_is_rounded_outwards() -> None:
    corners = outline(
        a=("0 mm", "0 mm"), b=("400 mm", "0 mm"), c=("400 mm", "100 mm"), e=("200 mm", "200 mm"), f=("0 mm", "200 mm")
    )
    corners["d"] = {"at": ("200 mm", "100 mm"), "round": "20 mm"}
    ordered = {name: corners[name] for name in "abcdef"}
    part = sound(plate(outline=ordered))
    arc = part.outline.segments[part.outline.names.index("d")]
    assert isinstance(arc, Arc)
    assert not arc.ccw
    assert area(part.outline) == pytest.approx((400 * 200 - 200 * 100 + (1 - math.pi / 4) * 20**2) * MM**2)


def test_a_side_through_a_point_is_an_arc() -> None:
    """A sagitta of 100 on a chord of 200 is a half circle of radius 100."""
    corners = outline(a=("0 mm", "0 mm"), b=("300 mm", "0 mm"), d=("0 mm", "200 mm"))
    corners["c"] = {"at": ("300 mm", "200 mm"), "through": ("400 mm", "100 mm")}
    part = sound(plate(outline={name: corners[name] for name in "abcd"}))
    assert area(part.outline) == pytest.approx((300 * 200 + math.pi * 100**2 / 2) * MM**2)
    assert bounds(part.outline)[1] == pytest.approx((400 * MM, 200 * MM))


def test_two_arcs_make_a_disc() -> None:
    disc = {
        "left": {"at": ("0 mm", "100 mm"), "through": ("100 mm", "200 mm")},
        "right": {"at": ("200 mm", "100 mm"), "through": ("100 mm", "0 mm")},
    }
    part = sound(plate(length="200 mm", outline=disc))
    assert area(part.outline) == pytest.approx(math.pi * 100**2 * MM**2)


@given(st.lists(st.floats(0.3, 1.0), min_size=3, max_size=9), st.floats(0.0, 0.2))
def test_area_of_a_rounded_star_agrees_with_shapely(reaches: list[float], rounding: float) -> None:
    """Any star round a centre is a simple outline, unless its roundings do not fit."""
    count = len(reaches)
    corners = {}
    for i, reach in enumerate(reaches):
        x = 500 + 500 * reach * math.cos(math.tau * i / count)
        y = 500 + 500 * reach * math.sin(math.tau * i / count)
        corner: dict[str, Any] = {"at": (f"{x:.3f} mm", f"{y:.3f} mm")}
        if rounding > 0.01 and i % 2:
            corner["round"] = f"{rounding * 50:.3f} mm"
        corners[f"v{i}"] = corner
    part, findings = shaped({"size": ("1000 mm", "1000 mm", "18 mm"), "outline": corners})
    if part is None:
        assert {finding.code for finding in findings} <= {"outline-round-too-large", "outline-crosses-itself"}
        return
    polygon = shapely.Polygon(flatten(part.outline))
    assert polygon.is_valid
    assert area(part.outline) == pytest.approx(polygon.area, abs=polygon.length * SAGITTA)


def test_sides_that_cross_are_both_named() -> None:
    finding = only_finding(
        outline=outline(a=("0 mm", "0 mm"), b=("400 mm", "200 mm"), c=("400 mm", "0 mm"), d=("0 mm", "200 mm"))
    )
    assert finding.code == "outline-crosses-itself"
    assert "the side from `a` to `b` meets the side from `c` to `d`" in finding.message
    assert "200 mm, 7.874 in" in finding.message


def test_a_side_that_runs_back_on_itself_is_found() -> None:
    finding = only_finding(
        outline=outline(
            a=("0 mm", "0 mm"),
            b=("400 mm", "0 mm"),
            c=("400 mm", "200 mm"),
            d=("400 mm", "50 mm"),
            e=("0 mm", "200 mm"),
        )
    )
    assert finding.code == "outline-crosses-itself"
    assert "the side from `b` to `c` meets the side from `c` to `d`" in finding.message


def test_a_clockwise_outline_is_refused() -> None:
    finding = only_finding(outline=dict(reversed(BOX.items())))
    assert finding.code == "outline-clockwise"
    assert "the side from `d` to `c` is followed by the side from `c` to `b`" in finding.message


def test_a_rounding_that_does_not_fit_gets_the_greatest_that_does() -> None:
    finding = only_finding(
        outline={
            **BOX,
            "c": {"at": ("400 mm", "200 mm"), "round": "120 mm"},
            "d": {"at": ("0 mm", "200 mm"), "round": "100 mm"},
            "b": {"at": ("400 mm", "0 mm"), "round": "100 mm"},
        }
    )
    assert finding.code == "outline-round-too-large"
    assert "The rounding of `c`, `120 mm` (120 mm, 4.7244 in)" in finding.message
    assert "the side from `b` to `c` is 200 mm, 7.874 in long" in finding.message
    assert finding.remedy == "Make it at most 109.091 mm."


@pytest.mark.parametrize(
    ("corners", "code", "said"),
    [
        ({"c": {"at": ("400 mm", "200 mm"), "through": ("400 mm", "100 mm")}}, "outline-arc-straight", "`b` to `c`"),
        ({"c": {"at": ("400 mm", "0 mm")}}, "outline-side-empty", "`b` to `c`"),
        ({"c": {"at": ("400 mm", "200 mm"), "round": "0 mm"}}, "size-not-positive", "The rounding of `c` is `0 mm`"),
        ({"c": {"at": ("401 mm", "200 mm")}}, "outline-outside-size", "leaves its size by 1 mm, 0.0394 in along x"),
        ({"a": {"at": ("-2 mm", "0 mm")}}, "outline-outside-size", "leaves its size by 2 mm, 0.0787 in along x"),
        (
            {"c": {"at": ("400 mm", "200 mm"), "through": ("420 mm", "100 mm"), "round": "9 mm"}},
            "outline-round-impossible",
            "an arc ends there",
        ),
    ],
)
def test_faults_of_one_corner(corners: dict[str, Any], code: str, said: str) -> None:
    finding = only_finding(outline={**BOX, **corners})
    assert finding.code == code
    assert said in finding.message
    assert finding.remedy


def test_a_corner_on_a_straight_side_cannot_be_rounded() -> None:
    corners = {**BOX, "e": {"at": ("0 mm", "100 mm"), "round": "5 mm"}}
    finding = only_finding(outline=corners)
    assert finding.code == "outline-round-impossible"
    assert "run straight on" in finding.message


def test_two_straight_corners_enclose_nothing() -> None:
    finding = only_finding(outline=outline(a=("0 mm", "0 mm"), b=("400 mm", "0 mm")))
    assert finding.code == "outline-too-short"


def test_an_outline_that_does_not_fill_its_size_is_a_warning() -> None:
    part, findings = shaped(plate(length="410 mm", outline=BOX))
    assert part is not None
    assert [(finding.code, finding.severity) for finding in findings] == [("outline-short-of-size", Severity.WARN)]
    assert "`410 mm` (410 mm, 16.1417 in)" in findings[0].message


def test_a_finding_stands_at_the_measure_and_speaks_of_the_parameter() -> None:
    part, findings = shaped(plate(length="board.length"), **{"board.length": "0 mm - 3 in"})
    assert part is None
    (finding,) = findings
    assert finding.code == "size-not-positive"
    assert finding.message == "The length of plate is `board.length` (-76.2 mm, -3 in), which is not more than nothing."
    assert finding.place is not None
    assert finding.place.file == "trial.yaml"
