"""The wood between two cuts, and between a cut and a border: against closed forms, on any face, in rows and rings."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from planbook.shape.strength import check_walls
from planbook.shape.walls import Wall, thin_walls
from planbook.source.findings import Finding, Severity
from planbook.source.text import Formula
from tests.shape.making import MM, content_of, design_of, plate, shaped, sound

EVERYTHING = 500 * MM


def walls(features: dict[str, Any], least: float = EVERYTHING, **more: Any) -> dict[tuple[str, str], float]:
    """Millimetres by feature and what it is next to, on a plate of 400 by 200 by 18 mm."""
    return told(thin_walls(sound(plate(features=features, **more)), least))


def told(found: tuple[Wall, ...]) -> dict[tuple[str, str], float]:
    return {(wall.feature, wall.other): wall.thickness / MM for wall in found}


def hole(x: float, y: float, diameter: float, **more: Any) -> dict[str, Any]:
    return {"hole": f"{diameter:.6f} mm", "at": (f"{x:.6f} mm", f"{y:.6f} mm"), **more}


@given(
    st.floats(20, 380), st.floats(20, 180), st.floats(20, 380), st.floats(20, 180), st.floats(2, 19), st.floats(2, 19)
)
def test_between_two_holes_it_is_the_distance_of_the_centres_less_the_radii(
    x: float, y: float, other_x: float, other_y: float, first: float, second: float
) -> None:
    apart = math.dist((x, y), (other_x, other_y)) - (first + second) / 2
    assume(apart > 0.01)
    found = walls({"a": hole(x, y, first), "b": hole(other_x, other_y, second)})
    assert found["a", "b"] == pytest.approx(apart, abs=0.005)


@given(st.floats(20, 380), st.floats(20, 180), st.floats(2, 19))
def test_to_the_borders_it_is_what_is_left_beside_the_hole(x: float, y: float, diameter: float) -> None:
    found = walls({"a": hole(x, y, diameter)})
    sides = {"the left end": x, "the right end": 400 - x, "the front edge": y, "the rear edge": 200 - y}
    assert {other: thick for (_, other), thick in found.items()} == {
        name: pytest.approx(room - diameter / 2, abs=0.005) for name, room in sides.items()
    }


def test_under_a_blind_feature_it_is_the_rest_of_the_stock() -> None:
    assert walls({"a": hole(50, 50, 8, depth="15 mm")})["a", "the back"] == pytest.approx(3)
    assert walls({"a": hole(50, 50, 8, depth="15 mm", on="back")})["a", "the face"] == pytest.approx(3)
    edge = {"hole": "8 mm", "at": ("50 mm", "9 mm"), "on": "front_edge", "depth": "190 mm"}
    found = walls({"a": edge})
    assert found["a", "the rear edge"] == pytest.approx(10)
    assert found["a", "the back"] == found["a", "the face"] == pytest.approx(5, abs=0.005)


def test_from_opposite_faces_it_is_what_stays_between_the_floors() -> None:
    front = {"mortise": ("40 mm", "20 mm"), "at": ("100 mm", "50 mm"), "depth": "8 mm"}
    behind = {**front, "on": "back", "depth": "9 mm"}
    assert walls({"a": front, "b": behind})["a", "b"] == pytest.approx(1)
    # Aside by 3 and apart by 4 in depth: 5 from corner to corner.
    aside = {**behind, "at": ("143 mm", "50 mm"), "depth": "6 mm"}
    assert walls({"a": front, "b": aside})["a", "b"] == pytest.approx(5)


def test_a_hole_in_the_edge_and_one_in_the_face_are_measured_as_solids() -> None:
    edge = {"hole": "6 mm", "at": ("100 mm", "9 mm"), "on": "front_edge", "depth": "50 mm"}
    assert walls({"a": edge, "b": hole(110, 30, 8)}, 30 * MM)["a", "b"] == pytest.approx(10 - 3 - 4, abs=0.1)
    assert walls({"a": edge, "b": hole(100, 59, 8)}, 30 * MM)["a", "b"] == pytest.approx(5, abs=0.1)
    assert ("a", "b") not in walls({"a": edge, "b": hole(105, 30, 8)}, 30 * MM)  # they meet


def test_what_meets_or_opens_on_a_border_has_no_wall_there() -> None:
    groove = {"groove": "6 mm", "along": "x", "at": "1 mm", "depth": "5 mm"}
    found = walls({"a": groove, "b": hole(50, 4, 3)}, 3 * MM)
    assert found == {("a", "the front edge"): pytest.approx(1), ("b", "the front edge"): pytest.approx(2.5, abs=0.005)}


def test_in_a_row_or_ring_it_is_that_to_the_next_one() -> None:
    row = hole(50, 50, 8, repeat={"count": 4, "pitch": "9.5 mm", "along": "x"})
    assert walls({"a": row}, 3 * MM) == {("a", "the next one"): pytest.approx(1.5, abs=0.005)}
    ring = {"hole": "8 mm", "at": ("200 mm", "100 mm"), "around": {"circle": "40 mm", "count": 13}}
    chord = 40 * math.sin(math.pi / 13)
    assert walls({"a": ring}, 3 * MM) == {("a", "the next one"): pytest.approx(chord - 8, abs=0.005)}


def test_to_a_slanting_side_of_the_outline_it_is_square_to_it() -> None:
    triangle = {"a": {"at": ("0 mm", "0 mm")}, "b": {"at": ("400 mm", "0 mm")}, "c": {"at": ("0 mm", "200 mm")}}
    found = walls({"it": hole(200, 90, 10)}, 10 * MM, outline=triangle)
    assert found == {("it", "the outline after `b`"): pytest.approx(20 / math.sqrt(5) - 5, abs=0.005)}


def test_across_a_cut_away_corner_there_is_no_wood() -> None:
    corners = [(0, 0), (400, 0), (400, 200), (201, 200), (201, 80), (199, 80), (199, 200), (0, 200)]
    slit = {f"p{n}": {"at": (f"{x} mm", f"{y} mm")} for n, (x, y) in enumerate(corners)}
    over = {"a": hole(190, 95, 4), "b": hole(210, 95, 4)}
    under = {"a": hole(190, 70, 4), "b": hole(210, 70, 4)}
    assert ("a", "b") not in walls(over, 20 * MM, outline=slit)
    assert walls(under, 20 * MM, outline=slit)["a", "b"] == pytest.approx(16, abs=0.005)


def test_a_thousand_holes_are_measured() -> None:
    panel = {"a": hole(10, 10, 5, repeat={"count": 38, "pitch": "10 mm", "along": "x"})}
    panel |= {f"h{n}": hole(10 + n % 38 * 10, 20 + n // 38 * 10, 5) for n in range(600)}
    found = walls(panel, 5.01 * MM)
    assert len(found) > 1000
    assert list(found.values()) == pytest.approx([5] * len(found), abs=0.005)


def findings(least: dict[str, str], features: dict[str, Any]) -> tuple[Finding, ...]:
    """About a plate, with what `set` and `part` state as least wall."""
    part = plate(features=features, **({"least_wall": least["part"]} if "part" in least else {}))
    content = content_of({"plate": part})
    if "set" in least:
        general = {"least_wall": Formula(least["set"])}
        content = content.__class__(**{**content.__dict__, "plan_set": content.plan_set.model_copy(update=general)})
    shape, faults = shaped(part)
    assert faults == ()
    assert shape is not None
    return check_walls(content, design_of(content), {"plate": shape})


NEAR = {"a": hole(50, 50, 8), "b": hole(59.5, 50, 8)}


@pytest.mark.parametrize(
    ("least", "severity"),
    [
        ({}, Severity.WARN),
        ({"set": "3 mm"}, Severity.STOP),
        ({"part": "3 mm"}, Severity.STOP),
        ({"set": "1 mm"}, None),
        ({"set": "3 mm", "part": "1 mm"}, None),
        ({"part": "1.5 mm"}, None),
    ],
)
def test_a_wall_is_held_against_what_is_stated_nearest(least: dict[str, str], severity: Severity | None) -> None:
    found = findings(least, NEAR)
    assert [(each.code, each.severity) for each in found] == ([("wall-thin", severity)] if severity else [])
    for each in found:
        assert "between `a` and `b`, plate has only 1.5 mm, 0.0591 in of wood" in each.message.lower()
        assert ("`least_wall`" if severity is Severity.WARN else "3 mm") in each.remedy
        assert each.place is not None
        assert each.place.line > 0


def test_a_sound_part_has_no_finding() -> None:
    assert findings({"set": "3 mm"}, {"a": hole(50, 50, 8), "b": hole(61, 50, 8), "c": hole(80, 7, 8)}) == ()
