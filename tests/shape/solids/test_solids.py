"""Meshes of parts: closed, of the right measures, on their true surfaces, and placed as components are."""

from __future__ import annotations

import math
from collections import Counter
from typing import Any

import numpy as np
import pytest
import trimesh
from hypothesis import given
from hypothesis import strategies as st

from planbook.shape.board import cut_volume
from planbook.shape.geometry import Frame, Line, Loop, Point, Vec
from planbook.shape.loops import area, circle, rectangle
from planbook.shape.model import Component, Placement
from planbook.shape.solids import Mesh, mesh_of, mesh_of_component
from planbook.shape.solids.bodies import prism, rod
from planbook.shape.solids.building import cuts_of, pieces_of
from planbook.shape.solids.facets import DEEPEST, facets_to_the_turn
from tests.shape.making import MM, plate, shaped, sound

X, Y, Z = Vec(1, 0, 0), Vec(0, 1, 0), Vec(0, 0, 1)
FRAME = Frame(Vec(0, 0, 18 * MM), X, Y, Z)
FLAT: dict[str, Any] = {
    "notch": {"notch": ("50 mm", "30 mm"), "corner": "rear_right"},
    "groove": {"groove": "12 mm", "along": "y", "at": "100 mm", "depth": "6 mm", "on": "back"},
    "rabbet": {"rabbet": "20 mm", "edge": "rear", "depth": "9 mm"},
    "mortise": {"mortise": ("40 mm", "12 mm"), "at": ("150 mm", "60 mm"), "depth": "11 mm"},
    "opening": {"opening": ("40 mm", "40 mm"), "at": ("250 mm", "60 mm")},
    "tenon": {"tenon": ("30 mm", "120 mm", "9 mm"), "end": "left"},
    "edge_mortise": {"mortise": ("60 mm", "8 mm"), "at": ("100 mm", "5 mm"), "depth": "40 mm", "on": "front_edge"},
}
ROUND: dict[str, Any] = {
    "hole": {"hole": "8 mm", "at": ("60 mm", "60 mm")},
    "blind": {"hole": "35 mm", "at": ("200 mm", "100 mm"), "depth": "13 mm", "on": "back"},
    "end_hole": {"hole": "8 mm", "at": ("100 mm", "9 mm"), "depth": "40 mm", "on": "right_end"},
    "slot": {"slot": "7 mm", "start": ("100 mm", "60 mm"), "end": ("160 mm", "90 mm")},
    "rounded": {"mortise": ("40 mm", "12 mm"), "at": ("150 mm", "60 mm"), "round": "6 mm"},
}


def is_closed(mesh: Mesh) -> bool:
    """Whether each edge has one triangle on either side."""
    edges = Counter((t[k], t[(k + 1) % 3]) for t in mesh.triangles.tolist() for k in range(3))
    return all(count == 1 and edges[b, a] == 1 for (a, b), count in edges.items())


def oracle(mesh: Mesh) -> trimesh.Trimesh:
    return trimesh.Trimesh(mesh.points, mesh.triangles, process=False)


def polygon_share(count: int) -> float:
    """The area of a regular polygon over that of its circle."""
    return math.sin(math.tau / count) / (math.tau / count)


@pytest.mark.parametrize("name", FLAT)
def test_flat_features_take_exactly_their_volume(name: str) -> None:
    part = sound(plate(features={name: FLAT[name]}))
    mesh = mesh_of(part)
    gone = sum(cut_volume(cut) for cut in part.features[name].cuts) / MM**3
    assert mesh.volume == pytest.approx(400 * 200 * 18 - gone, rel=1e-12)
    assert is_closed(mesh)


@pytest.mark.parametrize("name", ROUND)
def test_round_features_take_nearly_their_volume(name: str) -> None:
    """Facets lie inside the circle: what is cut is at most 1.2 % too little, the share of a 24-sided polygon.

    But for 1/1024 nm, to which points are snapped.
    """
    part = sound(plate(features={name: ROUND[name]}))
    mesh = mesh_of(part)
    gone = sum(cut_volume(cut) for cut in part.features[name].cuts) / MM**3
    assert polygon_share(24) * gone * (1 - 1e-9) <= 400 * 200 * 18 - mesh.volume <= gone * (1 + 1e-9)
    assert is_closed(mesh)


def test_a_row_of_holes_with_counterbores_and_countersinks_is_exact_for_its_polygons() -> None:
    hole = {"hole": "3 mm", "at": ("30 mm", "30 mm"), "countersink": {"diameter": "6 mm", "angle": "90 deg"}}
    row = {**hole, "repeat": {"count": 4, "pitch": "60 mm", "along": "x"}}
    mesh = mesh_of(sound(plate(features={"row": row})))
    assert facets_to_the_turn(3 * MM) == 24
    share = polygon_share(24)
    shaft, cone = math.pi * 1.5**2 * (18 - 1.5), math.pi * 1.5 / 3 * (9 + 4.5 + 2.25)
    assert mesh.volume == pytest.approx(400 * 200 * 18 - 4 * share * (shaft + cone), rel=1e-12)


def test_all_features_together_agree_with_a_second_library() -> None:
    mesh = mesh_of(sound(plate(features={**FLAT, **ROUND})))
    other = oracle(mesh)
    assert is_closed(mesh)
    assert other.is_watertight
    assert mesh.volume == pytest.approx(other.volume, rel=1e-12)
    assert mesh.area == pytest.approx(other.area, rel=1e-12)
    assert mesh.centroid == pytest.approx(other.center_mass, rel=1e-12)


def test_a_rod_has_the_measures_of_its_polygon() -> None:
    body = rod(6 * MM, 100 * MM)
    mesh = Mesh(body.points, body.triangles, body.faces, body.surfaces)
    count = facets_to_the_turn(6 * MM)
    disc = polygon_share(count) * math.pi * 36
    assert mesh.volume == pytest.approx(100 * disc)
    assert mesh.area == pytest.approx(2 * disc + 100 * 2 * 6 * count * math.sin(math.pi / count))
    assert mesh.centroid == pytest.approx([50, 0, 0], abs=1e-9)


@given(st.floats(0.5, 3000))
def test_chords_stay_near_their_circle(radius: float) -> None:
    """And counts are 24 doubled, so that unlike circles are cut at the same angles."""
    count = facets_to_the_turn(radius * MM)
    assert radius * MM * (1 - math.cos(math.pi / count)) <= DEEPEST
    assert math.log2(count / 24).is_integer()


def test_every_triangle_lies_on_its_surface() -> None:
    """The true normal at each corner differs from the triangle's by no more than half a facet."""
    mesh = mesh_of(sound(plate(features={**FLAT, **ROUND})))
    own = mesh.crosses / np.linalg.norm(mesh.crosses, axis=1)[:, None]
    for corner in range(3):
        true = mesh.surfaces.normals(mesh.faces, mesh.corners[:, corner])
        assert np.sum(own * true, axis=1).min() > math.cos(math.pi / 24) - 1e-9


@pytest.mark.parametrize("sides", [3, 4, 5])
def test_a_tapering_body_has_the_volume_of_a_frustum_and_true_walls(sides: int) -> None:
    def polygon(radius: float) -> Loop:
        turns = [math.tau * k / sides for k in range(sides)]
        points = [Point(radius * math.cos(turn), radius * math.sin(turn)) for turn in turns]
        return Loop(tuple(Line(a, b) for a, b in zip(points, points[1:] + points[:1], strict=True)))

    top, bottom = polygon(20 * MM), polygon(10 * MM)
    body = prism(FRAME, top, 12 * MM, bottom)
    mesh = Mesh(body.points, body.triangles, body.faces, body.surfaces)
    a, b = area(top) / MM**2, area(bottom) / MM**2
    assert mesh.volume == pytest.approx(12 / 3 * (a + b + math.sqrt(a * b)))
    own = mesh.crosses / np.linalg.norm(mesh.crosses, axis=1)[:, None]
    assert np.allclose(own, mesh.surfaces.normals(mesh.faces, mesh.corners[:, 0]))


@given(st.floats(0, 360), st.floats(0, 360))
def test_a_tilted_frame_makes_the_same_body(turn: float, lean: float) -> None:
    a, b = math.radians(turn), math.radians(lean)
    u = Vec(math.cos(a), math.sin(a), 0)
    v = Vec(-math.sin(a) * math.cos(b), math.cos(a) * math.cos(b), math.sin(b))
    normal = Vec(*np.cross(u, v).tolist())
    for frame in (Frame(Vec(MM, MM, MM), u, v, normal), Frame(Vec(MM, MM, MM), v, u, normal)):
        body = prism(frame, rectangle(Point(0, 0), Point(30 * MM, 20 * MM)), 10 * MM)
        mesh = Mesh(body.points, body.triangles, body.faces, body.surfaces)
        assert mesh.volume == pytest.approx(6000, rel=1e-6)


def test_a_length_that_differs_by_less_than_fine_leaves_no_skin() -> None:
    """A groove half a micrometre short of the far border still runs out at it."""
    mortise = {"mortise": ("40 mm", "40 mm"), "at": ("100 mm", "60 mm"), "depth": "17.9985 mm"}
    skin = mesh_of(sound(plate(features={"it": mortise})))
    assert skin.points[:, 2].min() == 0
    assert len(np.unique(skin.points[:, 2].round(6))) == 3
    notch = {"notch": ("40 mm", "199.9995 mm"), "edge": "front", "start": "0 mm"}
    part, findings = shaped(plate(features={"it": notch}))
    assert findings == ()
    assert part is not None
    assert mesh_of(part).volume == pytest.approx(360 * 200 * 18, rel=1e-12)


@pytest.mark.parametrize("mirrored", [False, True])
def test_a_placed_part_lies_where_its_placement_says(mirrored: bool) -> None:
    part = sound(plate(features={"hole": {"hole": "20 mm", "at": ("50 mm", "40 mm")}, "notch": FLAT["notch"]}))
    cos, sin = math.cos(0.5), math.sin(0.5)
    placement = Placement(Vec(7 * MM, 8 * MM, 9 * MM), Vec(cos, 0, sin), Y, Vec(-sin, 0, cos), mirrored)
    mesh = mesh_of_component(Component("it", placement, part))
    still = mesh_of(part)
    assert mesh.volume == pytest.approx(still.volume)
    assert is_closed(mesh)
    expected = placement(Vec(*(c * MM for c in still.centroid)), part.blank.y)
    assert mesh.centroid == pytest.approx([c / MM for c in expected])
    own = mesh.crosses / np.linalg.norm(mesh.crosses, axis=1)[:, None]
    true = mesh.surfaces.normals(mesh.faces, mesh.corners.mean(axis=1))
    assert np.sum(own * true, axis=1).min() > 0.99


def test_a_left_handed_placement_is_turned_outside_out() -> None:
    part = sound(plate())
    mesh = mesh_of_component(Component("it", Placement(Vec(0, 0, 0), Y, X, Z), part))
    assert mesh.volume == pytest.approx(400 * 200 * 18)


CURVED: dict[str, dict[str, Any]] = {
    "a hole": {"hole": "30 mm", "at": ("100 mm", "100 mm")},
    "a countersink": {"hole": "6 mm", "at": ("100 mm", "100 mm"), "countersink": {"diameter": "24 mm"}},
    "one from the back": {"hole": "6 mm", "at": ("90 mm", "90 mm"), "on": "back", "countersink": {"diameter": "24 mm"}},
    "a leaning hole": {"hole": "20 mm", "at": ("100 mm", "100 mm"), "lean": {"x": "20 deg", "y": "-10 deg"}},
    "an arc slot": {"arc_slot": "9 mm", "at": ("200 mm", "40 mm"), "radius": "90 mm", "angles": ("40 deg", "100 deg")},
    "a round-over": {"round_over": "6 mm", "edge": "rear"},
    "a pin": {"round_tenon": ("12 mm", "30 mm"), "end": "left"},
}


@pytest.mark.parametrize("name", CURVED)
def test_true_normals_point_out_of_the_wood_as_the_facets_do(name: str) -> None:
    """A facet of 24 to the turn leans by at most 7.5 degrees from the surface that it stands for."""
    mesh = mesh_of(sound(plate(features={"it": CURVED[name]})))
    area = np.linalg.norm(mesh.crosses, axis=1)
    whole = area > 1e-3
    facets = mesh.crosses[whole] / area[whole, None]
    true = mesh.surfaces.normals(mesh.faces, mesh.corners.mean(axis=1))[whole]
    assert mesh.surfaces.curved[mesh.faces[whole]].any()
    assert np.sum(facets * true, axis=1).min() > math.cos(math.radians(7.6))


def test_openings_that_touch_at_a_corner_leave_a_closed_mesh() -> None:
    """The wood is nothing thick at the edge where they meet; each edge still has one triangle on either side."""
    first = {"opening": ("10 mm", "10 mm"), "at": ("10 mm", "10 mm")}
    second = {"opening": ("10 mm", "10 mm"), "at": ("20 mm", "20 mm")}
    mesh = mesh_of(sound(plate(features={"first": first, "second": second})))
    assert is_closed(mesh)
    assert mesh.volume == pytest.approx((400 * 200 - 200) * 18)


def test_features_that_leave_nothing_are_a_finding() -> None:
    half = {"notch": ("400 mm", "120 mm"), "edge": "front", "start": "0 mm"}
    rest = {"notch": ("400 mm", "100 mm"), "edge": "rear", "start": "0 mm"}
    part, findings = shaped(plate(features={"first": half, "second": rest}))
    assert [finding.code for finding in findings] == ["part-removed"]
    assert "`second`" in findings[0].message
    assert part is not None
    assert len(mesh_of(part).triangles) == 0


def test_a_feature_that_parts_the_wood_is_a_finding_at_its_name() -> None:
    hole = {"hole": "8 mm", "at": ("60 mm", "60 mm")}
    gap = {"notch": ("10 mm", "200 mm"), "edge": "front", "start": "100 mm"}
    part, findings = shaped(plate(features={"hole": hole, "gap": gap}))
    assert part is not None
    (finding,) = findings
    assert finding.code == "part-in-pieces"
    assert finding.message == "`gap` parts plate in 2 pieces."
    (name,) = (name for name in part.model.features if name == "gap")
    assert finding.place == name.place


@pytest.mark.parametrize(("wall", "pieces"), [(0.005, 1), (0.05, 2)])
def test_dust_is_no_piece_of_wood_but_a_thin_strip_is(wall: float, pieces: int) -> None:
    """A notch that leaves a strip of this many millimetres at the far end."""
    notch = {"notch": (f"{100 - wall:.3f} mm", "200 mm"), "edge": "front", "start": "300 mm"}
    _, findings = shaped(plate(features={"it": notch}))
    assert [finding.code for finding in findings] == (["part-in-pieces"] if pieces > 1 else [])


TOUCHING: dict[str, tuple[dict[str, Any], dict[str, Any]]] = {
    "side by side": (
        {"groove": "10 mm", "along": "x", "at": "50 mm", "depth": "6 mm"},
        {"groove": "10 mm", "along": "x", "at": "60 mm", "depth": "6 mm"},
    ),
    "one over the other": (
        {"mortise": ("40 mm", "20 mm"), "at": ("50 mm", "60 mm"), "depth": "8 mm"},
        {"mortise": ("40 mm", "20 mm"), "at": ("50 mm", "60 mm"), "depth": "10 mm", "on": "back"},
    ),
    "the same twice": (
        {"mortise": ("40 mm", "20 mm"), "at": ("50 mm", "60 mm"), "depth": "8 mm"},
        {"mortise": ("40 mm", "20 mm"), "at": ("50 mm", "60 mm"), "depth": "8 mm"},
    ),
    "flush with a border": (
        {"notch": ("40 mm", "20 mm"), "corner": "rear_right"},
        {"rabbet": "20 mm", "edge": "rear", "depth": "9 mm"},
    ),
    "a pocket's wall on a hole's axis": (
        {"hole": "20 mm", "at": ("90 mm", "70 mm")},
        {"mortise": ("40 mm", "20 mm"), "at": ("50 mm", "60 mm"), "depth": "8 mm"},
    ),
}


@pytest.mark.parametrize("name", TOUCHING)
def test_features_with_coincident_faces_leave_no_dust(name: str) -> None:
    """One piece, as a second library has it: what stays of both parts that have one feature each."""
    both = dict(zip(("a", "b"), TOUCHING[name], strict=True))
    part = sound(plate(features=both))
    assert is_closed(mesh_of(part))
    (piece,) = pieces_of(part.blank, part.outline, cuts_of(part))
    removed = [oracle(mesh_of(sound(plate(features={key: each})))) for key, each in both.items()]
    left = trimesh.boolean.intersection(removed, engine="manifold")
    assert piece.volume == pytest.approx(left.volume, rel=1e-9)
    assert piece.area <= left.area * (1 + 1e-9)


def test_two_grooves_side_by_side_are_one_wide_one() -> None:
    two = mesh_of(sound(plate(features=dict(zip(("a", "b"), TOUCHING["side by side"], strict=True)))))
    one = mesh_of(sound(plate(features={"it": {**TOUCHING["side by side"][0], "groove": "20 mm"}})))
    assert (two.volume, two.area) == (pytest.approx(one.volume, rel=1e-12), pytest.approx(one.area, rel=1e-12))


def test_a_circle_of_a_hole_is_cut_at_the_same_angles_as_its_pin() -> None:
    pin, hole = rod(8 * MM, 20 * MM), prism(FRAME, circle(Point(0, 0), 8 * MM), 18 * MM)
    around = {(round(y, 9), round(z, 9)) for _, y, z in pin.points.tolist()}
    assert around == {(round(x, 9), round(y, 9)) for x, y, _ in hole.points.tolist()}
