"""What lies in one another and what hangs together, by random boxes against plain arithmetic, and by rods."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from planbook.motion.contact import LEAST_OVERLAP, TOUCH, Contacts, Solid
from planbook.motion.distance import distances
from planbook.shape import place_components, shape_parts
from planbook.shape.solids import mesh_of_component
from tests.shape.making import content_of, design_of, plate

Box = tuple[tuple[float, float, float], tuple[float, float, float]]


def solids_of(components: dict[str, Any], parts: dict[str, Any] | None = None) -> dict[str, Solid]:
    content = content_of(parts or {"plate": plate()}, components=components)
    design = design_of(content)
    shaped, findings = shape_parts(content, design)
    placed, more = place_components(content, design, shaped)
    assert (*findings, *more) == ()
    return {each.name: Solid(mesh_of_component(each)) for each in placed}


def at(*point: float) -> tuple[str, ...]:
    return tuple(f"{number:.6f} mm" for number in point)


def boxes(*several: Box) -> dict[str, Solid]:
    """Blocks by low corner and size, in millimetres, each a part of its own."""
    parts = {f"p{n}": plate(*at(*size)) for n, (_, size) in enumerate(several)}
    placed = {f"c{n}": {"part": f"p{n}", "at": at(*low)} for n, (low, _) in enumerate(several)}
    return solids_of(placed, parts)


def rod(x: float, y: float, z: float, diameter: float, length: float = 60, bore: float = 0) -> dict[str, Any]:
    """Upright, by the middle of its foot."""
    model = {"title": "rod", "diameter": f"{diameter} mm", "length": f"{length} mm", "along": "z"}
    if bore:
        model["bore"] = f"{bore} mm"
    return {"rod": model, "at": at(x - diameter / 2, y - diameter / 2, z)}


corner = st.tuples(*[st.integers(0, 40).map(float)] * 3)
size = st.tuples(*[st.integers(2, 30).map(float)] * 3)


@given(corner, size, corner, size)
@settings(max_examples=60)
def test_boxes_overlap_as_plain_arithmetic_says(low: Any, first: Any, other: Any, second: Any) -> None:
    shared = [(max(a, b), min(a + i, b + j)) for a, i, b, j in zip(low, first, other, second, strict=True)]
    found = list(Contacts().overlaps(boxes((low, first), (other, second))))
    if any(end <= start for start, end in shared):  # apart, or only faces, edges or corners touch
        assert found == []
        return
    (overlap,) = found
    assert overlap.low == pytest.approx([start for start, _ in shared])
    assert overlap.high == pytest.approx([end for _, end in shared])
    # No point of a box is deeper in it than half its least side.
    deepest = max(min(first) / 2, min(second) / 2, min(end - start for start, end in shared))
    assert LEAST_OVERLAP < overlap.depth <= deepest + 1e-6


@pytest.mark.parametrize("deep", [2.0, 0.5, 0.3])
def test_a_plate_that_sinks_into_another_is_as_deep_as_it_sinks(deep: float) -> None:
    (overlap,) = Contacts().overlaps(boxes(((0, 0, 0), (400, 200, 18)), ((50, 50, 18 - deep), (100, 50, 18))))
    assert (overlap.one, overlap.other) == ("c0", "c1")
    assert overlap.depth == pytest.approx(deep, abs=1e-6)


def test_what_rounding_leaves_is_no_overlap() -> None:
    below = LEAST_OVERLAP - 0.01
    assert list(Contacts().overlaps(boxes(((0, 0, 0), (400, 200, 18)), ((50, 50, 18 - below), (100, 50, 18))))) == []


@pytest.mark.parametrize(("diameter", "found"), [(8, 0), (8.05, 0), (9, 1)])
def test_a_pin_fits_its_hole_or_does_not(diameter: float, found: int) -> None:
    drilled = plate(features={"it": {"hole": "8 mm", "at": ("50 mm", "60 mm")}})
    pin = rod(50, 60, -20, diameter)
    got = list(
        Contacts().overlaps(solids_of({"plate": {"part": "plate", "at": at(0, 0, 0)}, "pin": pin}, {"plate": drilled}))
    )
    assert len(got) == found
    for each in got:
        assert each.depth == pytest.approx((diameter - 8) / 2, abs=0.06)


def test_a_roller_with_a_bore_runs_on_its_shaft() -> None:
    solid = {"shaft": rod(0, 0, 0, 12), "roller": rod(0, 0, 10, 32, 10)}
    assert len(list(Contacts().overlaps(solids_of(solid)))) == 1
    assert list(Contacts().overlaps(solids_of({**solid, "roller": rod(0, 0, 10, 32, 10, bore=12)}))) == []
    (overlap,) = Contacts().overlaps(solids_of({**solid, "roller": rod(0, 0, 10, 32, 10, bore=10)}))
    assert overlap.depth == pytest.approx(1, abs=0.06)
    ring = solids_of({"roller": rod(0, 0, 10, 32, 10, bore=12)})["roller"].mesh
    assert ring.volume == pytest.approx(np.pi * (16**2 - 6**2) * 10, rel=0.01)


def test_what_touches_or_nearly_touches_hangs_together() -> None:
    tower = [((0.0, 0.0, 20.0 * n), (10.0, 10.0, 20.0)) for n in range(3)]
    apart = ((0.0, 0.0, 60 + TOUCH + 0.1), (10.0, 10.0, 5.0))
    near = ((0.0, 0.0, 60 + TOUCH - 0.1), (10.0, 10.0, 5.0))
    assert Contacts().islands(boxes(*tower, near)) == (("c0", "c1", "c2", "c3"),)
    assert Contacts().islands(boxes(*tower, apart)) == (("c0", "c1", "c2"), ("c3",))
    # Two groups that a later one joins are one.
    assert Contacts().islands(boxes(tower[0], tower[2], tower[1])) == (("c0", "c1", "c2"),)
    # Boxes that meet are not enough: an upright rod in the corner of a frame's box.
    assert Contacts().islands(solids_of({"a": rod(0, 0, 0, 100, bore=90), "b": rod(0, 0, 0, 80)})) == (("a",), ("b",))


point = st.tuples(*[st.floats(-50, 50)] * 3)


@given(st.lists(st.tuples(point, point, point), min_size=1, max_size=4), point)
def test_distances_are_those_of_a_fine_grid_of_points(triangles: Any, here: Any) -> None:
    corners = np.array(triangles)
    (found,) = distances(np.array([here]), corners)
    shares = [(i / 40, j / 40) for i in range(41) for j in range(41 - i)]
    grid = np.array([a + s * (b - a) + t * (c - a) for a, b, c in corners for s, t in shares])
    nearest = float(np.linalg.norm(grid - np.array(here), axis=1).min())
    assert found <= nearest + 1e-6
    assert found >= nearest - 100 * np.sqrt(3) / 40


@given(st.lists(st.tuples(st.floats(-50, 50), st.floats(-50, 50)), min_size=3, max_size=3), point)
def test_a_level_triangle_is_as_far_as_shapely_says_or_its_plane(triangle: Any, here: Any) -> None:
    flat = shapely.Polygon(triangle)
    aside = shapely.distance(flat, shapely.Point(here[:2])) if flat.area > 1e-3 else None
    if aside is not None:
        corners = np.array([[(*corner, 0.0) for corner in triangle]])
        assert distances(np.array([here]), corners)[0] == pytest.approx(np.hypot(aside, here[2]), abs=1e-6)
