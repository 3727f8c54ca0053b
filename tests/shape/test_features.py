"""What each feature removes, from which face, and every way in which it can be wrong."""

from __future__ import annotations

import math
import re
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.shape import bounds, frame_of
from planbook.shape.board import cut_volume
from planbook.shape.faces import extent, stock_depth
from planbook.shape.geometry import Arc, Point, Vec
from planbook.shape.model import Feature
from planbook.source.findings import Finding, Severity
from planbook.source.models.part import FaceName
from tests.shape.making import MM, feature_on_plate, finding_on_plate, plate, shaped, sound

BLANK = Vec(400 * MM, 200 * MM, 18 * MM)


def volume(feature: Feature) -> float:
    """Cubic millimetres."""
    return sum(cut_volume(cut) for cut in feature.cuts) / MM**3


def box(feature: Feature, index: int = 0) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Opposite corners of a cut's box in the part, in millimetres."""
    cut = feature.cuts[index]
    low, high = bounds(cut.loop)
    ends = [cut.frame.place(low), cut.frame.place(high, cut.depth)]
    sides = [sorted(pair) for pair in zip(*ends, strict=True)]
    return tuple(side[0] / MM for side in sides), tuple(side[1] / MM for side in sides)


@pytest.mark.parametrize(
    ("face", "surface", "size", "behind"),
    [
        ("face", (10, 20, 18), (400, 200), 18),
        ("back", (10, 20, 0), (400, 200), 18),
        ("left_end", (0, 10, 20), (200, 18), 400),
        ("right_end", (400, 10, 20), (200, 18), 400),
        ("front_edge", (10, 0, 20), (400, 18), 200),
        ("rear_edge", (10, 200, 20), (400, 18), 200),
    ],
)
def test_positions_on_each_face_follow_the_axes_of_the_part(
    face: str, surface: tuple[float, ...], size: tuple[float, ...], behind: float
) -> None:
    name = FaceName(face)
    frame = frame_of(name, BLANK)
    assert tuple(c / MM for c in frame.place(Point(10 * MM, 20 * MM))) == surface
    assert tuple(c / MM for c in extent(name, BLANK)) == size
    assert stock_depth(name, BLANK) / MM == behind
    deeper = frame.place(Point(10 * MM, 20 * MM), MM)
    assert sum(abs(a - b) for a, b in zip(deeper, (c * MM for c in surface), strict=True)) == pytest.approx(MM)
    assert all(0 <= c <= whole for c, whole in zip(frame.place(Point(0, 0), MM), BLANK, strict=True))


def test_a_hole_without_a_depth_goes_through() -> None:
    feature = feature_on_plate({"hole": "10 mm", "at": ("50 mm", "60 mm")})
    assert volume(feature) == pytest.approx(math.pi * 25 * 18)
    assert box(feature) == ((45, 55, 0), (55, 65, 18))


def test_a_blind_hole_goes_into_the_wood_from_its_face() -> None:
    feature = feature_on_plate({"hole": "8 mm", "at": ("100 mm", "9 mm"), "depth": "30 mm", "on": "rear_edge"})
    assert box(feature) == ((96, 170, 5), (104, 200, 13))


def test_a_counterbore_and_a_countersink() -> None:
    feature = feature_on_plate(
        {
            "hole": "6 mm",
            "at": ("50 mm", "60 mm"),
            "counterbore": {"diameter": "12 mm", "depth": "5 mm"},
        }
    )
    assert [cut.depth / MM for cut in feature.cuts] == [18, 5]
    sunk = feature_on_plate({"hole": "4 mm", "at": ("50 mm", "60 mm"), "countersink": {"diameter": "10 mm"}})
    cone = sunk.cuts[1]
    assert cone.depth == pytest.approx(3 * MM)
    assert cone.bottom == sunk.cuts[0].loop
    # A cone of 90 degrees from radius 5 down to radius 2: the difference of two cones as high as their radii.
    assert cut_volume(cone) / MM**3 == pytest.approx(math.pi / 3 * (5**3 - 2**3))


def test_a_slot_has_round_ends_about_its_two_centres() -> None:
    feature = feature_on_plate({"slot": "10 mm", "start": ("50 mm", "60 mm"), "end": ("80 mm", "100 mm")})
    assert volume(feature) == pytest.approx((50 * 10 + math.pi * 25) * 18)
    assert [arc.centre for arc in feature.cuts[0].loop.segments if isinstance(arc, Arc)] == [
        (80 * MM, 100 * MM),
        (50 * MM, 60 * MM),
    ]


@pytest.mark.parametrize(
    ("groove", "low", "high"),
    [
        ({"along": "x", "at": "20 mm"}, (0, 20, 12), (400, 26, 18)),
        ({"along": "y", "at": "20 mm"}, (20, 0, 12), (26, 200, 18)),
        ({"along": "y", "at": "20 mm", "start": "30 mm", "end": "90 mm"}, (20, 30, 12), (26, 90, 18)),
        ({"along": "x", "at": "20 mm", "on": "back", "end": "90 mm"}, (0, 20, 0), (90, 26, 6)),
        ({"along": "x", "at": "6 mm", "on": "front_edge"}, (0, 0, 6), (400, 6, 12)),
        ({"along": "y", "at": "6 mm", "on": "right_end"}, (394, 0, 6), (400, 200, 12)),
    ],
)
def test_grooves(groove: dict[str, Any], low: tuple[float, ...], high: tuple[float, ...]) -> None:
    assert box(feature_on_plate({"groove": "6 mm", "depth": "6 mm", **groove})) == (low, high)


@pytest.mark.parametrize(
    ("edge", "low", "high"),
    [
        ("left", (0, 0, 11), (9, 200, 18)),
        ("right", (391, 0, 11), (400, 200, 18)),
        ("front", (0, 0, 11), (400, 9, 18)),
        ("rear", (0, 191, 11), (400, 200, 18)),
    ],
)
def test_rabbets(edge: str, low: tuple[float, ...], high: tuple[float, ...]) -> None:
    assert box(feature_on_plate({"rabbet": "9 mm", "depth": "7 mm", "edge": edge})) == (low, high)


@pytest.mark.parametrize(
    ("notch", "low", "high", "rounded"),
    [
        ({"corner": "front_left"}, (0, 0, 0), (30, 20, 18), 1),
        ({"corner": "rear_right"}, (370, 180, 0), (400, 200, 18), 1),
        ({"corner": "front_right"}, (370, 0, 0), (400, 20, 18), 1),
        ({"corner": "rear_left"}, (0, 180, 0), (30, 200, 18), 1),
        ({"edge": "front", "start": "50 mm"}, (50, 0, 0), (80, 20, 18), 2),
        ({"edge": "right", "start": "50 mm"}, (370, 50, 0), (400, 70, 18), 2),
    ],
)
def test_notches_are_rounded_in_their_inner_corners_only(
    notch: dict[str, Any], low: tuple[float, ...], high: tuple[float, ...], rounded: int
) -> None:
    feature = feature_on_plate({"notch": ("30 mm", "20 mm"), "round": "5 mm", **notch})
    assert box(feature) == (low, high)
    assert volume(feature) == pytest.approx((30 * 20 - rounded * (1 - math.pi / 4) * 25) * 18)


def test_a_mortise_and_an_opening() -> None:
    mortise = feature_on_plate(
        {"mortise": ("40 mm", "10 mm"), "at": ("50 mm", "4 mm"), "depth": "30 mm", "on": "front_edge"}
    )
    assert box(mortise) == ((50, 0, 4), (90, 30, 14))
    opening = feature_on_plate({"opening": ("40 mm", "30 mm"), "at": ("50 mm", "60 mm"), "round": "6 mm"})
    assert volume(opening) == pytest.approx((40 * 30 - (4 - math.pi) * 36) * 18)


def test_a_tenon_is_what_stays_of_the_end() -> None:
    feature = feature_on_plate({"tenon": ("30 mm", "150 mm", "8 mm"), "end": "right"})
    assert volume(feature) == pytest.approx(30 * (200 * 18 - 150 * 8))
    assert box(feature) == ((370, 0, 0), (400, 200, 18))
    assert bounds(feature.cuts[0].islands[0]) == ((25 * MM, 5 * MM), (175 * MM, 13 * MM))
    aside = feature_on_plate({"tenon": ("30 mm", "150 mm", "8 mm"), "end": "left", "at": ("10 mm", "0 mm")})
    assert bounds(aside.cuts[0].islands[0]) == ((10 * MM, 0), (160 * MM, 8 * MM))


@given(st.integers(2, 12), st.floats(1, 30), st.sampled_from("xy"))
def test_a_row_repeats_all_cuts_a_pitch_apart(count: int, pitch: float, along: str) -> None:
    feature = sound(
        plate(
            width="400 mm",
            features={
                "it": {
                    "hole": "6 mm",
                    "at": ("20 mm", "20 mm"),
                    "counterbore": {"diameter": "10 mm", "depth": "5 mm"},
                    "repeat": {"count": count, "pitch": f"{pitch:.6f} mm", "along": along},
                }
            },
        )
    ).features["it"]
    assert len(feature.cuts) == 2 * count
    axis = "xy".index(along)
    for i in range(count):
        low, high = box(feature, 2 * i)
        assert low[axis] + 3 == pytest.approx(20 + i * round(pitch, 6))
        assert low[1 - axis] + 3 == pytest.approx(20)
        assert high[axis] - low[axis] == pytest.approx(6)


FAULTS: list[tuple[dict[str, Any], str, str, str]] = [
    (
        {"hole": "10 mm", "at": ("398 mm", "60 mm")},
        "feature-outside-part",
        "`it` is at x `398 mm` (398 mm, 15.6693 in) and reaches 3 mm, 0.1181 in past the far border of the face along "
        "x, which is `400 mm` (400 mm, 15.748 in)",
        "Make x at most 395 mm, or make the feature smaller.",
    ),
    (
        {"hole": "10 mm", "at": ("50 mm", "3 mm")},
        "feature-outside-part",
        "past the datum border of the face along y",
        "Make y at least 5 mm, or make the feature smaller.",
    ),
    (
        {"hole": "1/2 in", "at": ("2 in", "2 in"), "depth": "3/4 in"},
        "feature-too-deep",
        "The hole `it` is `3/4 in` (19.05 mm, 0.75 in) deep, and the thickness of plate is only `18 mm` "
        "(18 mm, 0.7087 in)",
        "Make it less than 0.7087 in deep, or leave `depth` out if it should go through.",
    ),
    (
        {"hole": "10 mm", "at": ("50 mm", "60 mm"), "counterbore": {"diameter": "9 mm", "depth": "5 mm"}},
        "counterbore-too-small",
        "The counterbore of `it` is `9 mm` (9 mm, 0.3543 in) in diameter, and its hole is `10 mm` (10 mm, 0.3937 in)",
        "Make the counterbore wider than 10 mm, or leave it out.",
    ),
    (
        {"hole": "10 mm", "at": ("50 mm", "60 mm"), "counterbore": {"diameter": "20 mm", "depth": "18 mm"}},
        "feature-too-deep",
        "The counterbore of `it` is `18 mm` (18 mm, 0.7087 in) deep",
        "Make the counterbore less than 18 mm deep.",
    ),
    (
        {"hole": "10 mm", "at": ("50 mm", "60 mm"), "countersink": {"diameter": "10 mm"}},
        "countersink-too-small",
        "it would remove nothing",
        "Make the countersink wider than 10 mm, or leave it out.",
    ),
    (
        {"hole": "10 mm", "at": ("50 mm", "60 mm"), "countersink": {"diameter": "60 mm"}},
        "feature-too-deep",
        "would be 25 mm, 0.9843 in deep",
        "Make the countersink smaller or its angle blunter.",
    ),
    (
        {"hole": "10 mm", "at": ("50 mm", "60 mm"), "countersink": {"diameter": "20 mm", "angle": "180 deg"}},
        "countersink-angle",
        "an angle of `180 deg`",
        "Give the angle of the whole cone, between 0 and 180 deg; screws take 90 deg or 82 deg.",
    ),
    (
        {"hole": "0 mm", "at": ("50 mm", "60 mm")},
        "size-not-positive",
        "The diameter of `it` is `0 mm` (0 mm, 0 in)",
        "Give a length greater than zero, or mend the parameters that it is worked out from.",
    ),
    (
        {"slot": "10 mm", "start": ("50 mm", "60 mm"), "end": ("50 mm", "60 mm")},
        "slot-without-length",
        "starts and ends at the same point",
        "Give `end` another place, or write a hole.",
    ),
    (
        {"tenon": ("30 mm", "210 mm", "8 mm"), "end": "left"},
        "tenon-too-large",
        "The width of the tenon `it` is `210 mm` (210 mm, 8.2677 in), and that of plate only `200 mm`",
        "Make it at most 200 mm.",
    ),
    (
        {"tenon": ("30 mm", "200 mm", "18 mm"), "end": "left"},
        "tenon-too-large",
        "as large as the section of plate",
        "Make its width or its thickness less.",
    ),
    (
        {"tenon": ("400 mm", "100 mm", "8 mm"), "end": "left"},
        "tenon-too-large",
        "The length of the tenon `it`",
        "Make it less than 400 mm.",
    ),
    (
        {"tenon": ("30 mm", "100 mm", "8 mm"), "end": "left", "at": ("110 mm", "5 mm")},
        "feature-outside-part",
        "The tenon `it` starts at `110 mm`",
        "Let it start between 0 and 100 mm, or leave `at` out for a centred tenon.",
    ),
    (
        {"notch": ("30 mm", "20 mm"), "corner": "rear_left", "on": "left_end"},
        "face-not-possible",
        "is on the left end",
        "Write `on: face` or `on: back`, or write a groove or a mortise.",
    ),
    (
        {"notch": ("400 mm", "200 mm"), "corner": "rear_left"},
        "part-removed",
        "`it` removes the whole of plate",
        "Make it smaller than the part.",
    ),
    (
        {"opening": ("30 mm", "20 mm"), "at": ("5 mm", "5 mm"), "round": "11 mm"},
        "rounding-too-large",
        "cannot be rounded by `11 mm` (11 mm, 0.4331 in)",
        "Make `round` at most 10 mm.",
    ),
    (
        {"groove": "5 mm", "along": "y", "at": "5 mm", "depth": "5 mm", "on": "front_edge"},
        "axis-not-on-face",
        "does not lie in the front edge",
        "Write `along: x`, or cut it on another face.",
    ),
    (
        {"groove": "5 mm", "along": "x", "at": "198 mm", "depth": "5 mm"},
        "feature-outside-part",
        "past the far border of the face along y",
        "Make y at most 195 mm, or make the feature smaller.",
    ),
    (
        {"groove": "5 mm", "along": "x", "at": "5 mm", "depth": "18 mm"},
        "feature-too-deep",
        "The groove `it` is `18 mm`",
        "Make it less than 18 mm deep.",
    ),
    (
        {"groove": "5 mm", "along": "x", "at": "5 mm", "depth": "5 mm", "start": "90 mm", "end": "80 mm"},
        "groove-without-length",
        "ends at `80 mm` (80 mm, 3.1496 in), not after its start at `90 mm`",
        "Let `start` be less than 80 mm, or leave the stop out.",
    ),
    (
        {"rabbet": "200 mm", "edge": "front", "depth": "5 mm"},
        "feature-outside-part",
        "The rabbet `it` is `200 mm`",
        "Make it narrower than 200 mm.",
    ),
    (
        {"rabbet": "20 mm", "edge": "front", "depth": "5 mm", "on": "left_end"},
        "face-not-possible",
        "`it` is on the left end",
        "Write `on: face` or `on: back`, or write a groove or a mortise.",
    ),
    (
        {"hole": "10 mm", "at": ("50 mm", "60 mm"), "repeat": {"count": 4, "pitch": "120 mm", "along": "x"}},
        "row-outside-part",
        "The 4th of 4 `it` reaches 15 mm, 0.5906 in past the far border",
        "Make the pitch at most 115 mm for 4, or the count 3.",
    ),
    (
        {"tenon": ("30 mm", "100 mm", "8 mm"), "end": "left", "repeat": {"count": 2, "pitch": "50 mm"}},
        "row-not-possible",
        "a part has only one such border",
        "Repeat it along another axis, or write each one as a feature of its own.",
    ),
    (
        {"groove": "5 mm", "along": "x", "at": "5 mm", "depth": "5 mm", "repeat": {"count": 2, "pitch": "50 mm"}},
        "row-not-possible",
        "it runs out in that direction",
        "Repeat it along another axis, or write each one as a feature of its own.",
    ),
]


@pytest.mark.parametrize(("feature", "code", "said", "remedy"), FAULTS)
def test_faults(feature: dict[str, Any], code: str, said: str, remedy: str) -> None:
    finding = finding_on_plate(feature)
    assert finding.severity is Severity.STOP
    assert finding.code == code
    assert said in finding.message
    assert finding.remedy == remedy
    assert finding.place is not None
    assert finding.place.line > 0


def test_the_remedy_mends_the_fault() -> None:
    """Each remedy that proposes a measure is tried: what it says is accepted, a tenth more is not."""
    row = {"count": 4, "along": "x"}
    hole = {"hole": "10 mm", "at": ("50 mm", "60 mm")}
    feature_on_plate({**hole, "repeat": {**row, "pitch": "115 mm"}})
    finding_on_plate({**hole, "repeat": {**row, "pitch": "115.1 mm"}})
    feature_on_plate({"hole": "10 mm", "at": ("395 mm", "60 mm")})
    finding_on_plate({"hole": "10 mm", "at": ("395.1 mm", "60 mm")})
    feature_on_plate({"opening": ("30 mm", "20 mm"), "at": ("5 mm", "5 mm"), "round": "10 mm"})
    finding_on_plate({"opening": ("30 mm", "20 mm"), "at": ("5 mm", "5 mm"), "round": "10.1 mm"})


@given(st.floats(1, 400), st.integers(2, 40), st.floats(3, 400), st.floats(2, 190), st.sampled_from(("x", "y")))
def test_what_is_proposed_for_a_row_fits(start: float, count: int, pitch: float, size: float, along: str) -> None:
    """The place, the pitch and the count that a remedy names are put in, and the row lies in its part."""
    at = (f"{start:.3f} mm", "100 mm") if along == "x" else ("200 mm", f"{start:.3f} mm")
    repeat = {"count": count, "pitch": f"{pitch:.3f} mm", "along": along}
    hole = {"hole": f"{size:.3f} mm", "at": at, "depth": "5 mm"}
    for _ in range(4):  # what leaves a face on two sides is told of the worst first
        findings = shaped(plate(features={"it": {**hole, "repeat": repeat}}))[1]
        if not findings or "smaller: along" in findings[0].remedy:
            return
        (finding,) = findings
        for letter, measure in re.findall(r"(\b[xy]\b)(?: at most| at least)? (-?[\d.]+ mm)", finding.remedy):
            hole["at"] = tuple(measure if axis == letter else old for axis, old in zip("xy", hole["at"], strict=True))
        if "single one" in finding.remedy:
            assert not shaped(plate(features={"it": hole}))[1]
        elif fitting := re.search(r"the count (\d+)", finding.remedy):
            assert not shaped(plate(features={"it": {**hole, "repeat": {**repeat, "count": int(fitting[1])}}}))[1]
        if closer := re.search(r"pitch at most ([\d.]+ mm) for (\d+)", finding.remedy):
            assert int(closer[2]) == count
            assert not shaped(plate(features={"it": {**hole, "repeat": {**repeat, "pitch": closer[1]}}}))[1]
        if "pitch" in finding.remedy or "count" in finding.remedy or "single" in finding.remedy:
            return
    raise AssertionError(findings)


def test_a_row_that_starts_outside_is_told_where_all_of_it_fits() -> None:
    row = {"hole": "10 mm", "at": ("3 mm", "60 mm"), "repeat": {"count": 4, "pitch": "120 mm", "along": "x"}}
    assert finding_on_plate(row).remedy == "Make x at least 5 mm, or make the feature smaller."
    assert finding_on_plate({**row, "repeat": {**row["repeat"], "pitch": "140 mm"}}).remedy == (
        "Make x 5 mm, and the pitch at most 130 mm for 4, or the count 3."
    )
    late = {**row, "at": ("398 mm", "60 mm")}
    assert finding_on_plate(late).remedy == "Make x at most 35 mm, or make the feature smaller."
    wide = {**row, "hole": "130 mm", "at": ("65 mm", "100 mm"), "depth": "5 mm"}
    assert finding_on_plate(wide).remedy == "Make the count 3."


def test_a_row_that_leaves_the_outline_is_told_how_many_fit() -> None:
    row = {"hole": "10 mm", "at": ("40 mm", "40 mm"), "repeat": {"count": 4, "pitch": "110 mm", "along": "x"}}
    (finding,) = on_triangle(row)
    assert (finding.code, finding.remedy) == (
        "row-outside-part",
        "Make the count 3, or change the pitch or the outline.",
    )
    assert on_triangle({**row, "repeat": {**row["repeat"], "count": 3}}) == ()


def test_findings_stand_at_the_measure_that_is_wrong() -> None:
    part, findings = shaped(plate(features={"it": {"hole": "10 mm", "at": ("50 mm", "190 mm"), "depth": "20 mm"}}))
    assert part is not None
    hole = next(iter(part.model.features.values()))
    assert [finding.place for finding in findings] == [hole.depth.place]  # type: ignore[union-attr]


TRIANGLE = {"a": {"at": ("0 mm", "0 mm")}, "b": {"at": ("400 mm", "0 mm")}, "c": {"at": ("0 mm", "200 mm")}}


def on_triangle(feature: dict[str, Any]) -> tuple[Finding, ...]:
    return shaped(plate(outline=TRIANGLE, features={"it": feature}))[1]


def test_a_hole_in_the_rectangle_may_still_be_outside_the_outline() -> None:
    (finding,) = on_triangle({"hole": "20 mm", "at": ("300 mm", "50 mm")})
    assert finding.code == "feature-outside-part"
    # The side runs through the hole's centre, so half of the hole is outside.
    assert "`it` reaches 9.99" in finding.message
    assert "past the outline of plate" in finding.message
    assert on_triangle({"hole": "20 mm", "at": ("280 mm", "40 mm")}) == ()


def test_a_groove_may_run_out_of_the_outline_but_must_meet_wood() -> None:
    assert on_triangle({"groove": "6 mm", "along": "x", "at": "50 mm", "depth": "5 mm"}) == ()
    (finding,) = on_triangle({"notch": ("30 mm", "20 mm"), "corner": "rear_right"})
    assert finding.code == "feature-outside-part"
    assert "`it` meets no wood" in finding.message
    (edge,) = on_triangle({"hole": "6 mm", "at": ("150 mm", "9 mm"), "on": "right_end", "depth": "30 mm"})
    assert "`it` meets no wood" in edge.message


def test_all_findings_of_a_part_are_collected() -> None:
    features = {
        "good": {"hole": "10 mm", "at": ("50 mm", "60 mm")},
        "deep": {"hole": "10 mm", "at": ("50 mm", "60 mm"), "depth": "19 mm"},
        "out": {"hole": "10 mm", "at": ("500 mm", "60 mm")},
        "unknown": {"hole": "nothing.here", "at": ("500 mm", "60 mm")},
    }
    part, findings = shaped(plate(features=features))
    assert part is not None
    assert list(part.features) == ["good"]
    assert len(findings) == 3
    assert [finding.code for finding in findings[:2]] == ["feature-too-deep", "feature-outside-part"]
