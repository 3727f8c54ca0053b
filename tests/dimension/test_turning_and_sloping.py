"""What turns and slopes is dimensioned, and the proof misses what is taken away and finds what is said twice."""

from __future__ import annotations

import json
import math
from dataclasses import asdict, replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planbook.dimension import DimensionKind, PartDimension, dimension_parts
from planbook.dimension.audit.rebuild import rebuild
from planbook.dimension.audit.record import read_numbers
from planbook.dimension.completeness import SheetRecord, Unfixed, check_sheet, read_sheet_record
from planbook.measure import Units
from planbook.shape import shape_parts
from planbook.source.findings import Severity
from planbook.statement.restating import Wording, state_dimension, state_part
from tests.shape.making import MM, content_of, design_of, plate

MIDDLE = ("200 mm", "100 mm")
FEATURES: dict[str, dict[str, Any]] = {
    "arc slot": {"arc_slot": "8 mm", "at": MIDDLE, "radius": "60 mm", "angles": ("30 deg", "120 deg"), "depth": "6 mm"},
    "arc slot over the axis": {
        "arc_slot": "8 mm", "at": MIDDLE, "radius": "60 mm", "angles": ("-30 deg", "40 deg"), "on": "back",
    },
    "arc slots in a row": {
        "arc_slot": "6 mm", "at": ("70 mm", "100 mm"), "radius": "50 mm", "angles": ("10 deg", "90 deg"),
        "repeat": {"count": 3, "pitch": "70 mm"},
    },
    "arc slots round a centre": {
        "arc_slot": "6 mm", "at": MIDDLE, "radius": "50 mm", "angles": ("15 deg", "65 deg"),
        "around": {"count": 4, "step": "80 deg"},
    },
    "ring sector": {"ring_sector": ("20 mm", "40 mm"), "at": MIDDLE, "angles": ("12 deg", "75 deg")},
    "ring sectors": {
        "ring_sector": ("20 mm", "40 mm"), "at": MIDDLE, "angles": ("0 deg", "75 deg"), "around": {"count": 3},
        "depth": "5 mm",
    },
    "arc ramp": {
        "arc_ramp": ("6 mm", "2 mm"), "radii": ("40 mm", "60 mm"), "at": MIDDLE, "angles": ("12 deg", "75 deg"),
    },
    "arc ramps to the back": {
        "arc_ramp": ("0 mm", "9 mm"), "radii": ("40 mm", "60 mm"), "at": MIDDLE, "angles": ("0 deg", "100 deg"),
        "around": {"count": 3}, "on": "back",
    },
    "holes round a centre": {"hole": "5 mm", "at": MIDDLE, "around": {"count": 6, "circle": "80 mm", "start": "7 deg"}},
    "holes by steps": {
        "hole": "5 mm", "at": MIDDLE, "depth": "9 mm", "around": {"count": 4, "circle": "80 mm", "step": "25 deg"},
    },
    "counterbored holes": {
        "hole": "5 mm", "at": MIDDLE, "counterbore": {"diameter": "10 mm", "depth": "4 mm"},
        "around": {"count": 3, "circle": "80 mm"},
    },
    "pocket": {
        "pocket": {
            "a": {"at": ("300 mm", "20 mm"), "round": "5 mm"}, "b": {"at": ("380 mm", "20 mm")},
            "c": {"at": ("340 mm", "90 mm"), "through": ("380 mm", "60 mm")},
        },
        "depth": "4 mm",
    },
    "taper": {"taper": ("190 mm", "150 mm"), "side": "rear", "start": "100 mm", "end": "300 mm"},
    "taper from the front": {"taper": ("200 mm", "150 mm"), "side": "front"},
    "taper in thickness": {"taper": ("18 mm", "12 mm"), "side": "back", "start": "100 mm"},
    "ramp": {
        "ramp": ("0 mm", "6 mm"), "along": "x", "start": "10 mm", "end": "110 mm", "at": "20 mm", "width": "15 mm",
    },
    "ramp across the back": {"ramp": ("3 mm", "6 mm"), "along": "y", "start": "10 mm", "end": "110 mm", "on": "back"},
    "ramp in an edge": {
        "ramp": ("9 mm", "2 mm"), "along": "x", "start": "10 mm", "end": "110 mm", "at": "4 mm", "width": "6 mm",
        "on": "rear_edge",
    },
    "chamfer": {"chamfer": "2 mm", "edge": "left", "on": "back"},
    "rounded edge": {"round_over": "3 mm", "edge": "rear"},
}  # fmt: skip


def told(features: dict[str, dict[str, Any]], units: Units) -> tuple[bytes, dict[str, PartDimension]]:
    """The file of the sheet of a plate with these features, and its dimensions."""
    return told_of(plate(features=features), units)


def told_of(part: dict[str, Any], units: Units) -> tuple[bytes, dict[str, PartDimension]]:
    """The file of the sheet of a plate, and its dimensions."""
    content = content_of({"plate": part})
    design = design_of(content)
    parts, findings = shape_parts(content, design)
    assert findings == ()
    dimensions, findings = dimension_parts(content, design, parts, units)
    assert not [finding for finding in findings if finding.severity is Severity.STOP]
    wording = Wording((), dict.fromkeys(parts["plate"].features, ""), frozenset())
    stated = state_part(parts["plate"], parts, design, units, wording)
    sheet = {"part": asdict(stated), "dimensions": [asdict(state_dimension(each)) for each in dimensions.values()]}
    return json.dumps(sheet).encode(), {key.removeprefix("plate/"): each for key, each in dimensions.items()}


def recorded(features: dict[str, dict[str, Any]], units: Units) -> SheetRecord:
    return read_sheet_record(told(features, units)[0])


EACH = pytest.mark.parametrize("feature", FEATURES.values(), ids=FEATURES)
BOTH = pytest.mark.parametrize("units", list(Units))


@EACH
@BOTH
def test_the_sheet_says_all_and_nothing_twice(feature: dict[str, Any], units: Units) -> None:
    assert check_sheet(recorded({"it": feature}, units)) == ()


@EACH
def test_each_dimension_taken_away_is_missed(feature: dict[str, Any]) -> None:
    record = recorded({"it": feature}, Units.MILLIMETRE)
    for each in record.dimensions:
        if not each.reference:
            rest = tuple(other for other in record.dimensions if other is not each)
            faults = check_sheet(replace(record, dimensions=rest))
            assert any(isinstance(fault, Unfixed) for fault in faults), each.id


@EACH
def test_each_dimension_printed_twice_is_found(feature: dict[str, Any]) -> None:
    record = recorded({"it": feature}, Units.MILLIMETRE)
    for each in record.dimensions:
        if not each.reference:
            twice = (*record.dimensions, replace(each, id=f"{each.id}_again"))
            assert check_sheet(replace(record, dimensions=twice)), each.id


@settings(max_examples=25)
@given(st.lists(st.sampled_from(sorted(FEATURES)), min_size=2, max_size=4, unique=True), st.sampled_from(list(Units)))
def test_together_they_are_complete_too(names: list[str], units: Units) -> None:
    """Overlapping shapes do not matter here: what counts is that no feature's dimensions speak for another's."""
    features = {name.replace(" ", "_"): FEATURES[name] for name in names if "taper" not in name}
    content = content_of({"plate": plate(features=features)})
    _, findings = shape_parts(content, design_of(content))
    if not findings:
        assert check_sheet(recorded(features, units)) == ()


def test_a_disc_with_arc_ramps_to_its_borders_says_its_radii_once() -> None:
    """The ramps end at the rim and at the bore, as drawn: their radii are told for reference, and so is the width."""
    middle, corners = ("100 mm", "100 mm"), {"a": (0, 0), "b": (200, 0), "c": (200, 200), "d": (0, 200)}
    whole = {"at": middle, "radii": ("60 mm", "100 mm"), "angles": ("15 deg", "105 deg"), "around": {"count": 3}}
    disc = plate(
        size=("200 mm", "200 mm", "18 mm"),
        outline={name: {"at": (f"{x} mm", f"{y} mm"), "round": "100 mm"} for name, (x, y) in corners.items()},
        features={
            "bore": {"hole": "120 mm", "at": middle},
            "climb": {"arc_ramp": ("12 mm", "0 mm"), **whole},
            "low": {
                "ring_sector": ("60 mm", "100 mm"), "at": middle, "angles": ("0 deg", "15 deg"), "depth": "12 mm",
                "around": {"count": 3},
            },
        },
    )  # fmt: skip
    sheet, said = told_of(disc, Units.MILLIMETRE)
    assert check_sheet(read_sheet_record(sheet)) == ()
    assert {key for key, each in said.items() if not each.reference} == {
        "blank/length", "blank/thickness", "bore/diameter", "climb/start_angle", "climb/end_angle", "climb/start_depth",
        "low/depth",
    }  # fmt: skip


def test_the_measures_of_an_arc_ramp() -> None:
    _, said = told({"it": FEATURES["arc ramp"]}, Units.MILLIMETRE)
    texts = {key: f"{each.prefix} {each.printed.text} {each.suffix}".strip() for key, each in said.items()}
    assert {key.removeprefix("it/"): text for key, text in texts.items() if key.startswith("it/")} == {
        "x": "200",
        "y": "100",
        "start_angle": "12° or 64 over 300",
        "end_angle": "75°",
        "outer_radius": "R 60",
        "inner_radius": "R 40",
        "start_depth": "6 deep, rising counter-clockwise",
        "end_depth": "2 deep at its top",
        "inner_slope": "slope 5° at the inside",
        "outer_slope": "slope 3.5° at the outside",
    }


def test_which_way_round_it_rises_is_told_as_its_view_shows_it() -> None:
    """The view of the back looks at the part from behind, where what goes from x towards y goes clockwise."""
    _, said = told({"it": FEATURES["arc ramps to the back"]}, Units.MILLIMETRE)
    assert said["it/end_depth"].suffix == "deep, rising counter-clockwise to the face"


def test_the_measures_of_an_arc_slot() -> None:
    _, said = told({"it": FEATURES["arc slot"]}, Units.MILLIMETRE)
    texts = {
        key.removeprefix("it/"): f"{each.prefix}{each.printed.text} {each.suffix}".strip()
        for key, each in said.items()
        if key.startswith("it/")
    }
    assert texts == {
        "x": "200",
        "y": "100",
        "start_angle": "30°",
        "end_angle": "120°",
        "radius": "R60 to its middle line",
        "width": "arc slot8 wide",
        "depth": "6 deep",
    }


def test_the_measures_of_holes_round_a_centre() -> None:
    _, said = told({"it": FEATURES["holes round a centre"]}, Units.MILLIMETRE)
    assert said["it/diameter"].count == 6
    assert (said["it/pitch_circle"].prefix, said["it/pitch_circle"].suffix) == ("on Ø", "equally spaced")
    assert said["it/pitch_circle"].callout == said["it/diameter"].callout
    assert said["it/pitch_circle"].nominal == pytest.approx(80 * MM)
    _, said = told({"it": FEATURES["holes by steps"]}, Units.MILLIMETRE)
    assert (said["it/step_angle"].count, said["it/step_angle"].printed.text) == (3, "25°")
    assert "it/start_angle" not in said


@pytest.mark.parametrize(
    ("angle", "units", "text"),
    [
        # 300 tan 12 deg = 63.77; 12 tan 12 deg = 2.5507 in, the nearest 1/32 in is 2 9/16 (of 2.5625 and 2.53125).
        ("12 deg", Units.MILLIMETRE, "12° or 64 over 300"),
        ("12 deg", Units.INCH, "12° or 2 9/16 over 12"),
        ("13.52 deg", Units.MILLIMETRE, "13.5° or 72 over 300"),
        ("30 deg", Units.MILLIMETRE, "30°"),
        ("50 deg", Units.MILLIMETRE, "50°"),
        ("90 deg", Units.INCH, "90°"),
    ],
)
def test_an_angle_says_how_far_it_runs_off(angle: str, units: Units, text: str) -> None:
    _, said = told({"it": FEATURES["ring sector"] | {"angles": (angle, "100 deg")}}, units)
    start = said["it/start_angle"]
    assert f"{start.printed.text} {start.suffix}".strip() == text


@given(st.floats(-170, 170), st.floats(10, 150))
def test_an_angle_lies_between_its_legs(start: float, span: float) -> None:
    angles = (f"{start:.3f} deg", f"{start + span:.3f} deg")
    _, said = told({"it": FEATURES["ring sector"] | {"angles": angles}}, Units.MILLIMETRE)
    for each in said.values():
        if each.kind is DimensionKind.ANGLE:
            at, first, second = each.points
            turn = math.atan2(second.y - at.y, second.x - at.x) - math.atan2(first.y - at.y, first.x - at.x)
            assert math.degrees(turn) % 360 == pytest.approx(each.nominal, abs=1e-6)
            assert 0 < each.nominal < 360


def test_alike_slots_about_two_centres_are_counted_once() -> None:
    one = FEATURES["arc slot"] | {"at": ("110 mm", "100 mm")}
    two = FEATURES["arc slot"] | {"at": ("290 mm", "100 mm")}
    _, said = told({"one": one, "two": two}, Units.MILLIMETRE)
    for name in ("radius", "start_angle", "end_angle"):
        assert said[f"one/{name}"].count == 2
        assert f"two/{name}" not in said
    _, said = told({"one": one, "two": two | {"angles": (one["angles"][0], "100 deg")}}, Units.MILLIMETRE)
    assert said["one/start_angle"].count == 2
    assert (said["one/end_angle"].count, said["two/end_angle"].count) == (1, 1)


@pytest.mark.parametrize("many", [{"around": {"count": 3}}, {"repeat": {"count": 2, "pitch": "90 mm", "along": "x"}}])
def test_the_angles_of_many_slots_belong_to_the_first(many: dict[str, object]) -> None:
    slot = FEATURES["arc slot"] | {"at": ("110 mm", "100 mm")}
    _, said = told({"one": slot, "two": slot | {"at": ("240 mm", "100 mm")} | many}, Units.MILLIMETRE)
    assert (said["one/start_angle"].count, said["two/start_angle"].count) == (1, 1)


def test_a_printed_angle_puts_an_end_off_by_its_arc() -> None:
    """12.3 deg are printed as 12.5: on a radius of 40 mm that is 0.2 deg of arc, 0.1396 mm."""
    content, _ = told({"it": FEATURES["ring sector"] | {"angles": ("12.3 deg", "75 deg")}}, Units.MILLIMETRE)
    numbers = {number.id: number for number in read_numbers(content)}
    off = {
        round(each.drawn): each.deviation
        for each in rebuild(read_sheet_record(content), numbers)
        if each.direction == "angle"
    }
    start = round(math.radians(12.3) * 40 * MM)
    assert off[min(off, key=lambda drawn: abs(drawn - start))] == pytest.approx(math.radians(0.2) * 40 * MM, rel=1e-3)


def test_the_slope_of_a_ramp_follows_and_is_for_reference() -> None:
    _, said = told({"it": FEATURES["ramp"]}, Units.MILLIMETRE)
    assert said["it/slope_angle"].reference
    assert said["it/slope_angle"].nominal == pytest.approx(math.degrees(math.atan2(6, 100)))


def test_edges_are_noted_once_and_counted() -> None:
    edges = {edge: {"round_over": "3 mm", "edge": edge} for edge in ("front", "rear")}
    _, said = told(edges, Units.MILLIMETRE)
    assert [(key, each.count) for key, each in said.items() if not key.startswith("blank")] == [("front/radius", 2)]
    assert said["front/radius"].suffix == "round-over, front edge and rear edge of the face"


def test_an_edge_says_what_is_done_to_it_and_where_it_is() -> None:
    edges = {
        "soft": {"round_over": "3 mm", "edge": "front"},
        "low": {"chamfer": "2 mm", "edge": "left", "on": "back"},
        "other": {"round_over": "3 mm", "edge": "front", "on": "back"},
    }
    _, said = told(edges, Units.MILLIMETRE)
    words = {key: each.suffix for key, each in said.items() if not key.startswith("blank")}
    assert words == {
        "soft/radius": "round-over, front edge of the face",
        "low/chamfer": "x 45° chamfer, left end of the back",
        "other/radius": "round-over, front edge of the back",
    }


def test_four_edges_worked_alike_are_all_round() -> None:
    edges = {edge: {"chamfer": "2 mm", "edge": edge} for edge in ("front", "rear", "left", "right")}
    _, said = told(edges, Units.MILLIMETRE)
    (one,) = (each for key, each in said.items() if not key.startswith("blank"))
    assert (one.count, one.suffix) == (4, "x 45° chamfer, all round the face")


TWO_RADII = {
    "inner": FEATURES["arc slot"] | {"radius": "40 mm"},
    "outer": FEATURES["arc slot"] | {"radius": "70 mm"},
}


@BOTH
def test_two_slots_at_two_radii_say_their_common_angles_once(units: Units) -> None:
    content, said = told(TWO_RADII, units)
    assert [key for key in said if key.endswith("angle")] == ["inner/start_angle", "inner/end_angle"]
    record = read_sheet_record(content)
    assert check_sheet(record) == ()
    for each in record.dimensions:
        rest = tuple(other for other in record.dimensions if other is not each)
        assert any(isinstance(fault, Unfixed) for fault in check_sheet(replace(record, dimensions=rest))), each.id


def test_the_same_angle_about_another_centre_is_another_one() -> None:
    elsewhere = TWO_RADII["inner"] | {"at": ("80 mm", "90 mm")}
    _, said = told({"inner": TWO_RADII["inner"], "outer": elsewhere}, Units.INCH)
    assert {key: each.count for key, each in said.items() if key.endswith("angle")} == {
        "inner/start_angle": 2,
        "inner/end_angle": 2,
    }
