"""What turns about a centre and what slopes: volumes against closed forms, and every way in which it can be wrong."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from planbook.shape.board import cut_volume
from planbook.shape.geometry import Arc
from planbook.shape.loops import area, polar, turned
from planbook.shape.solids import mesh_of
from tests.shape.making import MM, feature_on_plate, finding_on_plate, plate, shaped, sound

MIDDLE = ("200 mm", "100 mm")
SIZE = 400.0 * 200.0 * 18.0


def mm(number: float) -> str:
    return f"{number:.6f} mm"


def deg(number: float) -> str:
    return f"{number:.6f} deg"


def removed(feature: dict[str, Any]) -> float:
    """Cubic millimetres, from the cuts' own closed forms."""
    return sum(cut_volume(cut) for cut in feature_on_plate(feature).cuts) / MM**3


def meshed(feature: dict[str, Any]) -> float:
    """Cubic millimetres that the solid is less than the blank."""
    return SIZE - mesh_of(sound(plate(features={"it": feature}))).volume


starts = st.floats(-180, 180)
spans = st.floats(5, 250)
radii = st.floats(25, 85)


@given(starts, spans, radii, st.floats(2, 20), st.floats(1, 17))
def test_an_arc_slot_is_its_middle_line_by_its_width_and_a_circle(
    start: float, span: float, radius: float, width: float, depth: float
) -> None:
    """Pappus: a band is its width by the length of its middle line; two half circles make one."""
    slot = {
        "arc_slot": mm(width), "at": MIDDLE, "radius": mm(radius), "angles": (deg(start), deg(start + span)),
        "depth": mm(depth),
    }  # fmt: skip
    wanted = depth * (width * radius * math.radians(span) + math.pi * width**2 / 4)
    assert removed(slot) == pytest.approx(wanted, rel=1e-6)


@given(starts, spans, st.floats(10, 50), st.floats(2, 40))
def test_a_ring_sector_is_its_share_of_a_ring(start: float, span: float, inner: float, wide: float) -> None:
    sector = {
        "ring_sector": (mm(inner), mm(inner + wide)), "at": MIDDLE, "angles": (deg(start), deg(start + span)),
    }  # fmt: skip
    wanted = 18 * math.radians(span) / 2 * ((inner + wide) ** 2 - inner**2)
    assert removed(sector) == pytest.approx(wanted, rel=1e-6)


@given(starts, spans, st.floats(10, 50), st.floats(2, 40), st.integers(0, 17), st.integers(0, 17))
def test_an_arc_ramp_is_its_share_of_a_ring_half_as_deep_as_both_its_ends(
    start: float, span: float, inner: float, wide: float, first: int, last: int
) -> None:
    """The depth grows evenly with the angle, so its mean over the sector is that of both ends."""
    assume(first != last)
    ramp = {
        "arc_ramp": (mm(first), mm(last)), "radii": (mm(inner), mm(inner + wide)), "at": MIDDLE,
        "angles": (deg(start), deg(start + span)),
    }  # fmt: skip
    wanted = (first + last) / 2 * math.radians(span) / 2 * ((inner + wide) ** 2 - inner**2)
    assert removed(ramp) == pytest.approx(wanted, rel=1e-6)
    arcs = math.radians(span) * (2 * inner + wide)  # a chord is nowhere further than 0.05 mm from its arc
    assert meshed(ramp) == pytest.approx(wanted, abs=0.05 * arcs * max(first, last))


@pytest.mark.parametrize("face", ["face", "back"])
@pytest.mark.parametrize("depths", [(0.0, 9.0), (9.0, 0.0), (12.0, 3.0)], ids=str)
def test_the_floor_of_an_arc_ramp_lies_on_its_helicoid(face: str, depths: tuple[float, float]) -> None:
    """Each corner of the floor is as deep as its angle says, and its normal is square to both ways along the floor."""
    first, last = depths
    ramp = {
        "arc_ramp": (mm(first), mm(last)), "radii": ("40 mm", "80 mm"), "at": MIDDLE, "angles": ("10 deg", "100 deg"),
        "on": face,
    }  # fmt: skip
    mesh = mesh_of(sound(plate(features={"it": ramp})))
    floor = mesh.surfaces.lead[mesh.faces] != 0
    lead, out = (last - first) / math.radians(90), 1 if face == "face" else -1
    points = mesh.corners[floor].reshape(-1, 3)
    x, y = points[:, 0] - 200, points[:, 1] - 100
    turn = np.arctan2(y, x)
    depth = first + lead * (turn - math.radians(10))
    assert points[:, 2] == pytest.approx((18 if face == "face" else 0) - out * depth, abs=1e-5)
    normals = mesh.surfaces.normals(np.repeat(mesh.faces[floor], 3), points)
    along = np.stack([-y, x, np.full(len(x), -out * lead)], axis=1)
    level = np.stack([x, y, np.zeros(len(x))], axis=1)
    assert np.abs(np.sum(normals * along, axis=1)).max() < 1e-6 * 80
    assert np.abs(np.sum(normals * level, axis=1)).max() < 1e-6 * 80
    assert (normals[:, 2] * out > 0).all()


@pytest.mark.parametrize("count", [2, 3, 5])
def test_ramps_that_run_out_at_a_rim_and_a_bore_leave_nothing_standing(count: int) -> None:
    """No sliver of wood between the facets of the ramp and those of the border: its walls end at the floor."""
    middle, corners = ("84 mm", "84 mm"), {"a": (0, 0), "b": (168, 0), "c": (168, 168), "d": (0, 168)}
    disc = plate(
        size=("168 mm", "168 mm", "36 mm"),
        outline={name: {"at": (f"{x} mm", f"{y} mm"), "round": "84 mm"} for name, (x, y) in corners.items()},
        features={
            "bore": {"hole": "132 mm", "at": middle},
            "climb": {
                "arc_ramp": ("28 mm", "0 mm"), "radii": ("66 mm", "84 mm"), "at": middle, "around": {"count": count},
                "angles": ("0 deg", deg(300 / count)),
            },
        },
    )  # fmt: skip
    mesh = mesh_of(sound(disc))
    share, span = math.tau / count, math.tau / count * 300 / 360
    x, y, height = (mesh.corners[:, :, k].mean(axis=1) for k in range(3))
    turn = np.arctan2(y - 84, x - 84) % share
    inside = (turn > 0.01) & (turn < span - 0.01)
    assert (height[inside] < 8 + 28 * turn[inside] / span + 0.05).all()


@given(st.integers(2, 12), st.floats(0, 360), st.floats(30, 150))
def test_holes_round_a_centre_stand_on_their_circle_equally_spaced(count: int, start: float, circle: float) -> None:
    holes = {"hole": "5 mm", "at": MIDDLE, "around": {"count": count, "circle": mm(circle), "start": deg(start)}}
    feature = feature_on_plate(holes)
    centres = [arc.centre for cut in feature.cuts for arc in cut.loop.segments if isinstance(arc, Arc)]
    assert len(centres) == count == feature.count
    for k, centre in enumerate(centres):
        turn = math.radians(start + 360 * k / count)
        assert centre.x == pytest.approx(200 * MM + circle / 2 * math.cos(turn) * MM, abs=2)
        assert centre.y == pytest.approx(100 * MM + circle / 2 * math.sin(turn) * MM, abs=2)


@given(st.integers(2, 5), st.floats(0, 90))
def test_turning_keeps_areas_and_distances(count: int, start: float) -> None:
    angles = (deg(start), deg(start + 300 / count - 20))
    feature = feature_on_plate(
        {"ring_sector": ("30 mm", "50 mm"), "at": MIDDLE, "angles": angles, "around": {"count": count}}
    )
    areas = {round(area(cut.loop) / MM**2, 6) for cut in feature.cuts}
    assert len(areas) == 1
    assert len({cut.loop for cut in feature.cuts}) == count


def test_a_quarter_turn_is_exact() -> None:
    feature = feature_on_plate({"hole": "8 mm", "at": MIDDLE, "around": {"count": 4, "circle": "80 mm"}})
    centres = [cut.loop.segments[0].centre for cut in feature.cuts]  # type: ignore[union-attr]
    assert [(c.x / MM, c.y / MM) for c in centres] == [(240, 100), (200, 140), (160, 100), (200, 60)]


def test_a_counterbore_is_repeated_with_its_hole() -> None:
    bore = {"diameter": "10 mm", "depth": "4 mm"}
    feature = feature_on_plate(
        {"hole": "5 mm", "at": MIDDLE, "counterbore": bore, "around": {"count": 3, "circle": "60 mm", "step": "30 deg"}}
    )
    assert len(feature.cuts) == 6
    assert len(feature.first) == 2


def test_the_mesh_of_a_band_agrees_with_its_closed_form() -> None:
    slot = {"arc_slot": "8 mm", "at": MIDDLE, "radius": "60 mm", "angles": ("30 deg", "120 deg"), "depth": "6 mm"}
    sector = {"ring_sector": ("20 mm", "40 mm"), "at": MIDDLE, "angles": ("0 deg", "75 deg"), "depth": "5 mm"}
    assert meshed(slot) == pytest.approx(removed(slot), rel=3e-3)
    assert meshed(sector) == pytest.approx(removed(sector), rel=3e-3)


@given(
    st.floats(20, 150), st.floats(20, 150), st.floats(0, 180), st.floats(200, 400), st.sampled_from(["front", "rear"])
)
def test_a_taper_takes_off_a_trapezium(first: float, last: float, start: float, end: float, side: str) -> None:
    taper = {"taper": (mm(first), mm(last)), "side": side, "start": mm(start), "end": mm(end)}
    wanted = 18 * (end - start) * (200 - first + 200 - last) / 2
    assert removed(taper) == pytest.approx(wanted, rel=1e-6)
    assert meshed(taper) == pytest.approx(wanted, rel=1e-5)


@pytest.mark.parametrize(("side", "wanted"), [("face", 400 * 200 * 6 / 2), ("back", 400 * 200 * 6 / 2)])
def test_a_taper_in_thickness_is_a_wedge(side: str, wanted: float) -> None:
    assert meshed({"taper": ("18 mm", "12 mm"), "side": side}) == pytest.approx(wanted)


RAMP_FACES = {"face": (400, 200, 18), "back": (400, 200, 18), "front_edge": (400, 18, 200), "rear_edge": (400, 18, 200)}


@pytest.mark.parametrize("face", RAMP_FACES)
@given(st.sampled_from([0.0, 1.0, 5.0]), st.floats(0.1, 12), st.floats(1, 8))
def test_a_ramp_is_its_length_by_its_width_by_its_mean_depth(
    face: str, first: float, more: float, width: float
) -> None:
    last = first + more
    ramp = {
        "ramp": (mm(first), mm(last)), "along": "x", "start": "30 mm", "end": "150 mm", "on": face, "at": "3 mm",
        "width": mm(width),
    }  # fmt: skip
    wanted = 120 * width * (first + last) / 2
    assert removed(ramp) == pytest.approx(wanted, rel=1e-5, abs=0.01)
    assert meshed(ramp) == pytest.approx(wanted, rel=1e-5, abs=0.01)


def test_a_ramp_without_width_goes_all_across() -> None:
    ramp = {"ramp": ("0 mm", "6 mm"), "along": "y", "start": "0 mm", "end": "200 mm", "on": "back"}
    assert meshed(ramp) == pytest.approx(400 * 200 * 6 / 2)


LENGTHS = {"front": 400, "rear": 400, "left": 200, "right": 200}


@pytest.mark.parametrize("on", ["face", "back"])
@pytest.mark.parametrize("edge", LENGTHS)
@given(st.floats(0.5, 15))
def test_edges_lose_half_a_square_or_what_a_quarter_round_leaves_of_one(edge: str, on: str, size: float) -> None:
    chamfer = {"chamfer": mm(size), "edge": edge, "on": on}
    assert meshed(chamfer) == pytest.approx(LENGTHS[edge] * size**2 / 2, rel=1e-5)
    rounded = {"round_over": mm(size), "edge": edge, "on": on}
    assert removed(rounded) == pytest.approx(LENGTHS[edge] * size**2 * (1 - math.pi / 4), rel=1e-5)


def test_a_rounded_edge_is_round_in_the_solid() -> None:
    """Chords under an outer round take off a little more: (1 - sinc) of the quarter circle (regular polygon's area)."""
    step = math.radians(360 / 24)
    polygon = math.pi * 9 / 4 * math.sin(step) / step
    assert meshed({"round_over": "3 mm", "edge": "front"}) == pytest.approx(400 * (9 - polygon), rel=1e-3)


@given(st.floats(10, 60), st.floats(10, 60), st.floats(1, 4), st.floats(1, 17))
def test_a_pocket_is_its_outline_by_its_depth(wide: float, high: float, radius: float, depth: float) -> None:
    corner = {"at": (mm(30 + wide), "30 mm"), "round": mm(radius)}
    pocket = {
        "pocket": {"a": {"at": ("30 mm", "30 mm")}, "b": corner, "c": {"at": (mm(30 + wide), mm(30 + high))},
                   "d": {"at": ("30 mm", mm(30 + high))}},
        "depth": mm(depth),
    }  # fmt: skip
    wanted = depth * (wide * high - radius**2 * (1 - math.pi / 4))
    assert removed(pocket) == pytest.approx(wanted, rel=1e-6)


@given(st.floats(-720, 720), st.floats(1, 1e9))
def test_polar_and_turned_agree(degrees: float, radius: float) -> None:
    slot = feature_on_plate({"arc_slot": "8 mm", "at": MIDDLE, "radius": "60 mm", "angles": ("0 deg", "90 deg")})
    loop = slot.cuts[0].loop
    arc = loop.segments[0]
    assert isinstance(arc, Arc)
    moved = turned(loop, arc.centre, degrees).segments[0]
    wanted = polar(arc.centre, arc.radius, degrees)
    assert math.dist(moved.start, wanted) < 1.0
    assert math.dist(polar(arc.centre, radius, degrees), arc.centre) == pytest.approx(radius)


BAND = {"arc_slot": "8 mm", "at": MIDDLE, "radius": "60 mm", "angles": ("30 deg", "120 deg")}
RING = {"ring_sector": ("20 mm", "40 mm"), "at": MIDDLE, "angles": ("0 deg", "75 deg")}
HOLES = {"hole": "5 mm", "at": MIDDLE, "around": {"count": 6, "circle": "60 mm"}}
ARC_RAMP = {"arc_ramp": ("0 mm", "6 mm"), "radii": ("20 mm", "40 mm"), "at": MIDDLE, "angles": ("0 deg", "75 deg")}
RAMP = {"ramp": ("0 mm", "6 mm"), "along": "x", "start": "10 mm", "end": "110 mm"}
TAPER = {"taper": ("200 mm", "150 mm"), "side": "rear"}
CORNERS = {"a": {"at": ("10 mm", "10 mm")}, "b": {"at": ("40 mm", "10 mm")}, "c": {"at": ("10 mm", "40 mm")}}
POCKET = {"pocket": CORNERS, "depth": "4 mm"}
CLOCKWISE = {name: CORNERS[name] for name in "acb"}
WRONG: dict[str, tuple[str, dict[str, Any]]] = {
    "wider than its circle": ("arc-slot-too-wide", BAND | {"arc_slot": "130 mm"}),
    "backwards": ("arc-without-length", BAND | {"angles": ("120 deg", "30 deg")}),
    "into its own start": ("arc-without-length", BAND | {"angles": ("0 deg", "355 deg")}),
    "a whole ring": ("arc-without-length", RING | {"angles": ("0 deg", "360 deg")}),
    "radii exchanged": ("ring-sector-without-width", RING | {"ring_sector": ("40 mm", "20 mm")}),
    "past its own first": ("around-too-far", HOLES | {"around": {"count": 6, "circle": "60 mm", "step": "70 deg"}}),
    "the wrong way": ("around-too-far", HOLES | {"around": {"count": 6, "circle": "60 mm", "step": "-10 deg"}}),
    "a circle past the border": ("feature-outside-part", HOLES | {"around": {"count": 6, "circle": "240 mm"}}),
    "deeper than the plate": ("feature-too-deep", BAND | {"depth": "20 mm"}),
    "a pocket through": ("feature-too-deep", POCKET | {"depth": "18 mm"}),
    "a pocket past the border": (
        "feature-outside-part",
        POCKET | {"pocket": CORNERS | {"a": {"at": ("-5 mm", "10 mm")}}},
    ),
    "a pocket clockwise": ("outline-clockwise", POCKET | {"pocket": CLOCKWISE}),
    "an arc ramp's radii exchanged": ("ring-sector-without-width", ARC_RAMP | {"radii": ("40 mm", "20 mm")}),
    "an arc ramp that is level": ("ramp-level", ARC_RAMP | {"arc_ramp": ("6 mm", "6 mm")}),
    "an arc ramp deeper than its wood": ("feature-too-deep", ARC_RAMP | {"arc_ramp": ("0 mm", "18 mm")}),
    "an arc ramp that ends where it starts": ("arc-without-length", ARC_RAMP | {"angles": ("9 deg", "9 deg")}),
    "arc ramps that run into one another": (
        "around-too-far",
        ARC_RAMP | {"around": {"count": 3, "step": "130 deg"}},
    ),
    "a ramp that is level": ("ramp-level", RAMP | {"ramp": ("6 mm", "6 mm")}),
    "a ramp deeper than its wood": ("feature-too-deep", RAMP | {"ramp": ("0 mm", "18 mm")}),
    "a ramp in the air": ("feature-too-deep", RAMP | {"ramp": ("-1 mm", "6 mm")}),
    "a ramp that ends first": ("slope-without-length", RAMP | {"end": "5 mm"}),
    "a ramp past the end": ("slope-without-length", RAMP | {"end": "500 mm"}),
    "a ramp past the edge": ("feature-outside-part", RAMP | {"at": "190 mm", "width": "20 mm"}),
    "a ramp along y on an edge": ("axis-not-on-face", RAMP | {"along": "y", "on": "front_edge"}),
    "a taper that takes nothing": ("taper-too-large", TAPER | {"taper": ("200 mm", "200 mm")}),
    "a taper that adds": ("taper-too-large", TAPER | {"taper": ("150 mm", "210 mm")}),
    "a taper that ends first": ("slope-without-length", TAPER | {"start": "300 mm", "end": "200 mm"}),
    "a chamfer as thick as the plate": ("edge-without-room", {"chamfer": "18 mm", "edge": "front"}),
    "a rounding on an end": ("face-not-possible", {"round_over": "3 mm", "edge": "front", "on": "left_end"}),
}


@pytest.mark.parametrize(("code", "feature"), WRONG.values(), ids=WRONG)
def test_what_cannot_be_is_a_finding(code: str, feature: dict[str, Any]) -> None:
    found = finding_on_plate(feature)
    assert found.code == code
    assert found.remedy


def test_an_edge_that_the_outline_leaves_is_a_finding() -> None:
    corners = {
        "a": {"at": ("0 mm", "0 mm")}, "b": {"at": ("400 mm", "0 mm")},
        "c": {"at": ("400 mm", "200 mm"), "round": "20 mm"}, "d": {"at": ("0 mm", "200 mm")},
    }  # fmt: skip
    edges = {name: {"chamfer": "2 mm", "edge": name} for name in LENGTHS}
    part, findings = shaped(plate(outline=corners, features=edges))
    assert part is not None
    assert sorted(part.features) == ["front", "left"]
    assert {finding.code for finding in findings} == {"edge-not-whole"}


def test_the_remedy_for_going_backwards_works() -> None:
    found = finding_on_plate(BAND | {"angles": ("350 deg", "20 deg")})
    assert "20 deg + 360 deg" in found.remedy
    assert removed(BAND | {"angles": ("350 deg", "20 deg + 360 deg")}) > 0


@pytest.mark.parametrize("feature", [RAMP, TAPER, {"chamfer": "2 mm", "edge": "front"}])
def test_slopes_and_edges_are_not_repeated(feature: dict[str, Any]) -> None:
    assert finding_on_plate(feature | {"repeat": {"count": 2, "pitch": "20 mm"}}).code == "row-not-possible"


def test_a_band_is_measured_from_a_hole() -> None:
    part = sound(
        plate(
            features={"pivot": {"hole": "8 mm", "at": MIDDLE}, "it": BAND | {"from": "pivot", "at": ("5 mm", "0 mm")}}
        )
    )
    outer = part.features["it"].cuts[0].loop.segments[0]
    assert isinstance(outer, Arc)
    assert outer.centre == (205 * MM, 100 * MM)
