"""What each kind of feature is stated by, in which view, in which words."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from planbook.dimension import PartDimension, dimension_parts
from planbook.dimension.dimensions import measures_of
from planbook.dimension.stating import Edition
from planbook.dimension.stating import state as state_measure
from planbook.measure import Units
from planbook.shape import shape_parts
from planbook.source.findings import Finding, Severity
from tests.shape.making import MARKET, MM, content_of, design_of, plate, sound

Lines = dict[str, str]


def state(
    part: dict[str, Any], units: Any = Units.MILLIMETRE, market: Any = MARKET, **parameters: Any
) -> tuple[dict[str, PartDimension], tuple[Finding, ...]]:
    other = plate(number=9, title="Jig", kind="jig")
    content = content_of({"plate": part, "jig": other}, parameters, market=market)
    design = design_of(content)
    parts, findings = shape_parts(content, design)
    assert findings == ()
    dimensions, findings = dimension_parts(content, design, parts, units)
    own = {key.removeprefix("plate/"): each for key, each in dimensions.items() if each.part == "plate"}
    return own, findings


def line(dimension: PartDimension) -> str:
    """View and axis or kind, then the words as they stand on the sheet."""
    where = f"{dimension.view} {dimension.axis or dimension.kind}"
    count = f"{dimension.count}x " if dimension.count > 1 else ""
    words = f"{count}{dimension.prefix}{' ' if dimension.prefix[-1:].islower() else ''}{dimension.printed.text}"
    tolerance = f" {dimension.tolerance.text}" if dimension.tolerance else ""
    after = f" {dimension.suffix}" if dimension.suffix else ""
    whole = f"{words}{tolerance}{after}"
    return f"{where}: {f'({whole})' if dimension.reference else whole}"


def lines(feature: dict[str, Any], units: Units = Units.MILLIMETRE, **rest: Any) -> Lines:
    """What states a feature `it` on a plate of 400 by 200 by 18 mm."""
    dimensions, findings = state(plate(features={"it": feature}, **rest), units)
    assert findings == ()
    return {key.removeprefix("it/"): line(each) for key, each in dimensions.items() if each.feature == "it"}


def test_a_blank() -> None:
    dimensions, findings = state(plate())
    assert findings == ()
    assert {key: line(each) for key, each in dimensions.items()} == {
        "blank/length": "face x: 400",
        "blank/width": "face y: 200",
        "blank/thickness": "front_edge z: 18",
    }
    assert dimensions["blank/length"].printed.bare == "400 [15 3/4]"


def test_the_thickness_stands_in_an_edge_view_that_is_drawn_anyway() -> None:
    hole = {"hole": "5 mm", "at": ("50 mm", "9 mm"), "on": "right_end", "depth": "20 mm"}
    assert state(plate(features={"it": hole}))[0]["blank/thickness"].view == "right_end"
    hole["on"] = "rear_edge"
    assert state(plate(features={"it": hole}))[0]["blank/thickness"].view == "rear_edge"


def test_a_through_hole() -> None:
    assert lines({"hole": "8 mm", "at": ("50 mm", "60 mm")}) == {
        "x": "face x: 50",
        "y": "face y: 60",
        "diameter": "face diameter: Ø8 through",
    }


def test_a_row_of_counterbored_blind_holes_in_an_edge() -> None:
    hole = {
        "hole": "6.5 mm",
        "at": ("50 mm", "9 mm"),
        "on": "front_edge",
        "depth": "40 mm",
        "counterbore": {"diameter": "10 mm", "depth": "5 mm"},
        "repeat": {"count": 4, "pitch": "64 mm"},
    }
    assert lines(hole) == {
        "x": "front_edge x: 50",
        "z": "front_edge z: 9",
        "diameter": "front_edge diameter: 4x Ø6.5",
        "depth": "front_edge note: 40 deep",
        "counterbore_diameter": "front_edge note: counterbore Ø10",
        "counterbore_depth": "front_edge note: 5 deep",
        "pitch": "front_edge x: 3x 64",
    }


def test_a_countersunk_hole_stands_at_one_leader() -> None:
    feature = {"hole": "5 mm", "at": ("50 mm", "60 mm"), "countersink": {"diameter": "9 mm"}, "on": "back"}
    dimensions, _ = state(plate(features={"it": feature}))
    own = {key: each for key, each in dimensions.items() if each.feature == "it"}
    assert [line(each) for each in own.values() if each.callout == "plate/it"] == [
        "back diameter: Ø5 through",
        "back note: countersink Ø9",
        "back note: countersink 90°",
    ]
    assert own["it/countersink_angle"].printed.full == "90°"
    assert own["it/countersink_angle"].nominal == pytest.approx(90)


def test_a_slot_along_an_axis_states_its_far_end_once() -> None:
    assert lines({"slot": "10 mm", "start": ("50 mm", "60 mm"), "end": ("150 mm", "60 mm"), "depth": "6 mm"}) == {
        "x": "face x: 50",
        "y": "face y: 60",
        "end_x": "face x: 150",
        "width": "face note: slot 10 wide",
        "depth": "face note: 6 deep",
    }


def test_an_oblique_slot_states_both_ends() -> None:
    oblique = lines({"slot": "10 mm", "start": ("50 mm", "60 mm"), "end": ("150 mm", "90 mm")})
    assert oblique["end_y"] == "face y: 90"
    assert oblique["width"] == "face note: slot 10 wide, through"


@pytest.mark.parametrize(
    ("groove", "expected"),
    [
        (
            {"along": "x"},
            {"y": "left_end y: 20", "width": "left_end y: 6", "depth": "left_end z: 5"},
        ),
        (
            {"along": "y", "start": "30 mm"},
            {"x": "rear_edge x: 20", "width": "rear_edge x: 6", "depth": "rear_edge z: 5", "start": "face y: 30"},
        ),
        (
            {"along": "y", "start": "30 mm", "end": "90 mm"},
            {
                "x": "face x: 20",
                "width": "face x: 6",
                "depth": "face note: 5 deep",
                "start": "face y: 30",
                "end": "face y: 90",
            },
        ),
    ],
)
def test_a_groove_is_stated_where_its_section_shows(groove: dict[str, Any], expected: Lines) -> None:
    assert lines({"groove": "6 mm", "at": "20 mm", "depth": "5 mm", **groove}) == expected


def test_a_row_of_grooves() -> None:
    row = {"count": 3, "pitch": "40 mm", "along": "x"}
    groove = lines({"groove": "6 mm", "at": "20 mm", "depth": "5 mm", "along": "y", "repeat": row})
    assert groove["width"] == "front_edge x: 3x 6"
    assert groove["pitch"] == "front_edge x: 2x 40"


def test_a_rabbet() -> None:
    assert lines({"rabbet": "9 mm", "edge": "rear", "depth": "6 mm"}) == {
        "width": "left_end y: 9",
        "depth": "left_end z: 6",
    }
    assert lines({"rabbet": "9 mm", "edge": "left", "depth": "6 mm"})["width"] == "front_edge x: 9"


def test_a_mortise_an_opening_and_a_notch() -> None:
    assert lines({"mortise": ("40 mm", "8 mm"), "at": ("50 mm", "5 mm"), "depth": "30 mm", "on": "rear_edge"}) == {
        "x": "rear_edge x: 50",
        "z": "rear_edge z: 5",
        "length": "rear_edge x: 40",
        "width": "rear_edge z: 8",
        "depth": "rear_edge note: 30 deep",
    }
    assert lines({"mortise": ("40 mm", "8 mm"), "at": ("50 mm", "5 mm")})["width"] == "face y: 8 through"
    opening = lines({"opening": ("40 mm", "30 mm"), "at": ("50 mm", "60 mm"), "round": "6 mm"})
    assert opening["radius"] == "face radius: 4x R6"
    assert lines({"notch": ("40 mm", "30 mm"), "corner": "front_right", "round": "6 mm"}) == {
        "length": "face x: 40",
        "width": "face y: 30",
        "radius": "face radius: R6",
    }
    assert lines({"notch": ("40 mm", "30 mm"), "edge": "front", "start": "70 mm"}) == {
        "x": "face x: 70",
        "length": "face x: 40",
        "width": "face y: 30",
    }


def test_a_notch_is_measured_at_its_inner_sides() -> None:
    """The corner of the part itself is cut away, so nothing can be measured from there."""
    feature = {"notch": ("40 mm", "30 mm"), "corner": "front_left"}
    dimensions, _ = state(plate(features={"it": feature}))
    assert [(point.x / MM, point.y / MM) for point in dimensions["it/length"].points] == [(0, 30), (40, 30)]
    assert [(point.x / MM, point.y / MM) for point in dimensions["it/width"].points] == [(40, 0), (40, 30)]


def test_a_recess_on_the_datum_border_has_no_position() -> None:
    assert "x" not in lines({"mortise": ("40 mm", "8 mm"), "at": ("0 mm", "5 mm"), "depth": "3 mm"})


def test_a_centred_tenon_says_so_instead_of_a_position() -> None:
    assert lines({"tenon": ("30 mm", "150 mm", "8 mm"), "end": "right"}) == {
        "length": "face x: 30",
        "width": "face y: 150 centred",
        "thickness": "front_edge z: 8 centred",
    }
    assert lines({"tenon": ("30 mm", "150 mm", "8 mm"), "end": "left", "at": ("20 mm", "4 mm")}) == {
        "length": "face x: 30",
        "width": "face y: 150",
        "y": "face y: 20",
        "thickness": "front_edge z: 8",
        "z": "front_edge z: 4",
    }


def test_a_tenon_without_a_shoulder_on_two_sides_has_no_dimension_there() -> None:
    assert set(lines({"tenon": ("30 mm", "200 mm", "8 mm"), "end": "right"})) == {"length", "thickness"}


def test_two_tenons_give_the_distance_between_their_shoulders_for_reference() -> None:
    tenon = {"tenon": ("30 mm", "150 mm", "8 mm")}
    dimensions, _ = state(plate(features={"b": {**tenon, "end": "right"}, "a": {**tenon, "end": "left"}}))
    assert line(dimensions["a/shoulder/b"]) == "face x: (340)"
    assert dimensions["a/shoulder/b"].value is None


def test_corners_of_an_outline_are_stated_once_and_not_on_the_blanks_borders() -> None:
    outline = {
        "a": {"at": ("0 mm", "0 mm"), "round": "r"},
        "b": {"at": ("400 mm", "0 mm"), "round": "r"},
        "c": {"at": ("400 mm", "shoulder")},
        "d": {"at": ("400 mm - 80 mm", "200 mm")},
        "e": {"at": ("80 mm", "200 mm")},
        "f": {"at": ("0 mm", " shoulder")},
    }
    dimensions, findings = state(plate(outline=outline), shoulder="120 mm", r="12 mm")
    assert findings == ()
    assert {key: line(each) for key, each in dimensions.items() if each.feature.startswith("outline")} == {
        "outline.c/y": "face y: 120",
        "outline.d/x": "face x: 320",
        "outline.e/x": "face x: 80",
        "outline.a/radius": "face radius: 2x R12",
    }
    assert [point.y / MM for point in dimensions["outline.d/x"].points] == [120, 200]


def test_an_arc_is_stated_by_its_point_and_its_radius_for_reference() -> None:
    outline = {
        "a": {"at": ("0 mm", "0 mm")},
        "b": {"at": ("100 mm", "0 mm")},
        "c": {"at": ("300 mm", "0 mm"), "through": ("200 mm", "50 mm")},
        "d": {"at": ("400 mm", "0 mm")},
        "e": {"at": ("400 mm", "200 mm")},
        "f": {"at": ("0 mm", "200 mm")},
    }
    dimensions, _ = state(plate(outline=outline))
    # Radius by chord and sagitta: (100^2 + 50^2) / (2 * 50) = 125. The highest point of an arc lies in its middle.
    assert {key: line(each) for key, each in dimensions.items() if each.feature == "outline.c"} == {
        "outline.c/x": "face x: 300",
        "outline.c/through_x": "face x: (200)",
        "outline.c/through_y": "face y: 50",
        "outline.c/arc_radius": "face radius: (R125)",
    }


def test_inches_come_first_in_an_inch_edition_and_drills_keep_their_name() -> None:
    inch = {**MARKET, "drills": ("1/4 in", "9/32 in", "5/16 in")}
    feature = {"hole": "9/32 in", "at": ("2 1/2 in", "3 in")}
    dimensions, findings = state(plate(features={"it": feature}), Units.INCH, inch)
    assert findings == ()
    assert dimensions["it/x"].printed.bare == "2 1/2 [63.5]"
    assert dimensions["it/diameter"].printed.text == "9/32"
    metric, _ = state(plate(features={"it": feature}), Units.MILLIMETRE, inch)
    # A shop that sells inch drills has no other name for it; on a sheet in millimetres the text says its unit.
    assert metric["it/diameter"].printed.text == "9/32 in"
    assert metric["it/x"].printed.text == "63.5"


def test_precision_and_tolerance_come_from_the_parameter_the_feature_or_the_part() -> None:
    pivot = {"is": "50.24 mm", "precision": "caliper", "tolerance": "0.2 mm"}
    feature = {"hole": "8 mm", "at": ("pivot.x", "60.24 mm")}
    dimensions, _ = state(plate(features={"it": feature}), **{"pivot.x": pivot})
    assert line(dimensions["it/x"]) == "face x: 50.2 ±0.2"
    assert dimensions["it/x"].caliper
    assert line(dimensions["it/y"]) == "face y: 60"
    assert not dimensions["it/y"].caliper
    fine, _ = state(plate(features={"it": {**feature, "precision": "caliper"}}), **{"pivot.x": pivot})
    assert line(fine["it/y"]) == "face y: 60.2"
    whole, _ = state(plate(features={"it": feature}, precision="caliper"), **{"pivot.x": pivot})
    assert line(whole["it/y"]) == "face y: 60.2"
    assert whole["blank/length"].caliper


def test_a_caliper_measure_printed_as_woodwork_is_a_warning() -> None:
    feature = {"hole": "8 mm", "at": ("pivot.x", "60 mm"), "precision": "woodwork"}
    _, findings = state(plate(features={"it": feature}), **{"pivot.x": {"is": "50.2 mm", "precision": "caliper"}})
    assert [(finding.code, finding.severity) for finding in findings] == [("caliper-printed-coarsely", Severity.WARN)]
    assert "plate/it/x" in findings[0].message


def test_a_drill_that_is_not_sold_is_a_warning_with_the_nearest_ones() -> None:
    _, findings = state(plate(features={"it": {"hole": "7 mm", "at": ("50 mm", "60 mm")}}))
    assert [(finding.code, finding.severity) for finding in findings] == [("drill-not-sold", Severity.WARN)]
    assert "7 mm" in findings[0].message
    assert "6.5 mm, 0.2559 in or 8 mm, 0.315 in" in findings[0].remedy
    # Nothing can be said of a hole wider than the table goes: a saw or a router makes it.
    assert state(plate(features={"it": {"hole": "90 mm", "at": ("90 mm", "90 mm")}}))[1] == ()


@pytest.mark.parametrize(
    ("method", "words"),
    [
        ({"how": "drilled_with", "part": "jig"}, "drilled with part 9"),
        ({"how": "marked_from", "part": "jig"}, "marked from part 9"),
        ({"how": "oversize_then_trim"}, "cut oversize, then trim"),
        ({"how": "to_number"}, ""),
    ],
)
def test_a_method_is_said_once(method: dict[str, str], words: str) -> None:
    hole = {"hole": "8 mm", "at": ("50 mm", "60 mm"), "method": method}
    rabbet = {"rabbet": "9 mm", "edge": "rear", "depth": "6 mm", "method": method}
    dimensions, _ = state(plate(features={"hole": hole, "rabbet": rabbet}))
    assert {key: each.method for key, each in dimensions.items() if each.method} == (
        {"hole/diameter": words, "rabbet/width": words} if words else {}
    )


def test_provenance_is_the_authors_formula() -> None:
    dimensions, _ = state(plate(features={"it": {"hole": "8 mm", "at": ("margin * 2", "60 mm")}}), margin="25 mm")
    value = dimensions["it/x"].value
    assert value is not None
    assert (value.formula, value.inputs) == ("margin * 2", ("margin",))


def test_a_measure_that_disagrees_with_its_formula_stops() -> None:
    """No content can bring this about; a fault in shaping would, and must not be printed."""
    part = sound(plate())
    length = measures_of(part, {})[0][0]
    wrong = replace(length, nominal=length.nominal + 2000)
    _, findings = state_measure(part, wrong, Edition(Units.MILLIMETRE, ()))
    assert [(finding.code, finding.severity) for finding in findings] == [("dimension-disagrees", Severity.STOP)]
    assert "`400 mm` (400 mm, 15.748 in)" in findings[0].message
    _, findings = state_measure(part, replace(length, nominal=length.nominal + 1000), Edition(Units.MILLIMETRE, ()))
    assert findings == ()
