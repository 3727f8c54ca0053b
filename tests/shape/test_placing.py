"""Where components stand: the placed box's least corner is `at`, whatever the axes, and a turn is about its pivot."""

from __future__ import annotations

import math
from itertools import product
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.shape import place_components, shape_parts
from planbook.shape.geometry import Vec
from planbook.shape.model import Component
from planbook.source.findings import Finding
from tests.shape.making import MM, content_of, design_of, plate

DIRECTIONS = ("x", "-x", "y", "-y", "z", "-z")
AXES = [(a, b) for a, b in product(DIRECTIONS, repeat=2) if a.strip("-") != b.strip("-")]


def place(component: dict[str, Any]) -> tuple[tuple[Component, ...], tuple[Finding, ...]]:
    content = content_of({"plate": plate()}, components={"it": component})
    design = design_of(content)
    parts, findings = shape_parts(content, design)
    assert findings == ()
    return place_components(content, design, parts)


def placed(component: dict[str, Any]) -> Component:
    (made,), findings = place(component)
    assert findings == ()
    return made


def world(component: Component, *corner: float) -> tuple[float, ...]:
    """A part's point (mm) in the world (mm)."""
    return tuple(c / MM for c in component.placement(Vec(*(c * MM for c in corner)), 200 * MM))


@pytest.mark.parametrize("axes", AXES)
@pytest.mark.parametrize("mirrored", [False, True])
def test_the_least_corner_of_the_placed_box_is_at(axes: tuple[str, str], mirrored: bool) -> None:
    component = placed({"part": "plate", "at": ("10 mm", "20 mm", "30 mm"), "axes": axes, "mirrored": mirrored})
    corners = [world(component, *corner) for corner in product((0, 400), (0, 200), (0, 18))]
    assert tuple(min(corner[i] for corner in corners) for i in range(3)) == pytest.approx((10, 20, 30))
    spans = [max(corner[i] for corner in corners) - min(corner[i] for corner in corners) for i in range(3)]
    along, across = ("xyz".index(axis.strip("-")) for axis in axes)
    assert spans[along] == pytest.approx(400)
    assert spans[across] == pytest.approx(200)
    assert spans[3 - along - across] == pytest.approx(18)


@pytest.mark.parametrize("axes", AXES)
def test_axes_are_right_handed_and_mirroring_is_in_the_parts_own_y(axes: tuple[str, str]) -> None:
    plain = placed({"part": "plate", "at": ("0 mm", "0 mm", "0 mm"), "axes": axes})
    mirrored = placed({"part": "plate", "at": ("0 mm", "0 mm", "0 mm"), "axes": axes, "mirrored": True})
    x, y, z = plain.placement.x, plain.placement.y, plain.placement.z
    assert x[0] * (y[1] * z[2] - y[2] * z[1]) + x[1] * (y[2] * z[0] - y[0] * z[2]) + x[2] * (
        y[0] * z[1] - y[1] * z[0]
    ) == pytest.approx(1)
    assert world(plain, 30, 50, 7) == pytest.approx(world(mirrored, 30, 150, 7))


@given(st.floats(-360, 360), st.floats(-500, 500), st.floats(-500, 500))
def test_a_swivel_turns_about_an_upright_axis_from_x_towards_y(angle: float, x: float, y: float) -> None:
    at = (f"{x:.6f} mm", f"{y:.6f} mm", "5 mm")
    swivelled = placed({"part": "plate", "at": at, "swivel": f"{angle:.6f} deg", "pivot": at})
    assert world(swivelled, 0, 0, 0) == pytest.approx((x, y, 5), abs=1e-5)
    cos, sin = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    assert world(swivelled, 100, 0, 18) == pytest.approx((x + 100 * cos, y + 100 * sin, 23), abs=1e-4)
    assert world(swivelled, 0, 100, 0) == pytest.approx((x - 100 * sin, y + 100 * cos, 5), abs=1e-4)


def test_a_swivel_comes_after_the_turn() -> None:
    """What was turned up from the floor is carried round: the plate's length points up, its width to the left."""
    nowhere = ("0 mm",) * 3
    made = placed({"part": "plate", "at": nowhere, "turn": "90 deg", "swivel": "90 deg", "pivot": nowhere})
    assert world(made, 100, 0, 0) == pytest.approx((0, 0, 100), abs=1e-6)
    assert world(made, 0, 100, 0) == pytest.approx((-100, 0, 0), abs=1e-6)


@given(st.floats(-720, 720), st.floats(-500, 500), st.floats(-500, 500))
def test_a_turn_keeps_its_pivot_and_turns_from_x_towards_z(angle: float, x: float, z: float) -> None:
    at = (f"{x:.6f} mm", "5 mm", f"{z:.6f} mm")
    turned = placed({"part": "plate", "at": at, "turn": f"{angle:.6f} deg", "pivot": at})
    assert world(turned, 0, 0, 0) == pytest.approx((x, 5, z), abs=1e-5)
    heading = math.radians(angle)
    expected = (x + 100 * math.cos(heading), 5 + 60, z + 100 * math.sin(heading))
    assert world(turned, 100, 60, 0) == pytest.approx(expected, abs=1e-4)


@given(st.floats(-80, 80).map(lambda d: round(d, 3)), st.floats(-80, 80).map(lambda d: round(d, 3)))
def test_a_tilt_about_x_comes_before_the_turn_about_y(tilt: float, turn: float) -> None:
    """Tilted, what stood upright leans from z towards -y; turned, all of that leans from z towards -x."""
    pivot = ("10 mm", "20 mm", "30 mm")
    angles = {"tilt": f"{tilt} deg", "turn": f"{turn} deg"}
    made = placed({"part": "plate", "at": ("0 mm",) * 3, "axes": ("z", "y"), "pivot": pivot, **angles}).placement
    a, b = math.radians(tilt), math.radians(turn)
    assert made.x == pytest.approx((-math.cos(a) * math.sin(b), -math.sin(a), math.cos(a) * math.cos(b)), abs=1e-9)
    # Without the turn the part's y stays in the plane of y and z.
    assert made.y.y == pytest.approx(math.cos(a))


def test_quarter_turns_are_exact() -> None:
    turned = placed(
        {"part": "plate", "at": ("0 mm",) * 3, "turn": "90 deg", "pivot": ("0 mm", "0 mm", "0 mm")}
    ).placement
    assert (turned.x, turned.z) == ((0, 0, 1), (-1, 0, 0))


@pytest.mark.parametrize("along", DIRECTIONS)
def test_a_rod_is_a_cylinder_whose_box_stands_at(along: str) -> None:
    rod = {"title": "pin", "diameter": "12 mm", "length": "100 mm", "along": along}
    component = placed({"rod": rod, "at": ("10 mm", "20 mm", "30 mm")})
    assert component.part is None
    assert (component.rod_title, component.rod_radius, component.rod_length) == ("pin", 6 * MM, 100 * MM)
    near = world(component, 0, 0, 0)
    far = world(component, 100, 0, 0)
    axis = "xyz".index(along.strip("-"))
    for i, low in enumerate((10, 20, 30)):
        ends = sorted((near[i], far[i]))
        assert ends == pytest.approx([low, low + 100] if i == axis else [low + 6, low + 6])
    assert (far[axis] > near[axis]) == (not along.startswith("-"))


def test_a_rod_may_be_hollow_but_not_all_through() -> None:
    rod = {"title": "bush", "diameter": "16 mm", "length": "20 mm", "along": "z"}
    assert placed({"rod": {**rod, "bore": "12 mm"}, "at": ("0 mm",) * 3}).rod_bore == 6 * MM
    made, (finding,) = place({"rod": {**rod, "bore": "16 mm"}, "at": ("0 mm",) * 3})
    assert made == ()
    assert (finding.code, finding.remedy) == ("bore-too-large", "Make the bore less than 16 mm, or leave it out.")


def test_faults_are_reported_and_the_component_left_out() -> None:
    made, findings = place(
        {"rod": {"title": "pin", "diameter": "0 mm", "length": "9 mm", "along": "x"}, "at": ("0 mm",) * 3}
    )
    assert made == ()
    assert [finding.code for finding in findings] == ["size-not-positive"]
    made, findings = place({"part": "plate", "at": ("nowhere", "0 mm", "0 mm")})
    assert made == ()
    assert len(findings) == 1


def test_a_component_of_a_faulty_part_is_left_out_silently() -> None:
    content = content_of({"plate": plate(length="0 mm")}, components={"it": {"part": "plate", "at": ("0 mm",) * 3}})
    design = design_of(content)
    parts, shaping = shape_parts(content, design)
    assert len(shaping) == 1
    assert place_components(content, design, parts) == ((), ())
