"""Lines of small assemblies, counted: what is an outline, a joint or an inner edge, and what draws no line."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.drawing.curves import XY
from planbook.drawing.hidden import NATURAL, SIDES, Chain, Kind, Sight, isometric, lines_of, scene_of
from planbook.drawing.solid import XYZ
from planbook.shape.model import Component, Placement
from planbook.source.models.figures import Corner
from tests.drawing import samples
from tests.drawing.assemblies import X, Y, Z, at, shaped
from tests.drawing.hidden.heaps import box, meshes, rod, tilted
from tests.drawing.samples import Bench

FRONT_LEFT = isometric(Corner.FRONT_LEFT)


def lines(*components: Component, view: str = "front", foremost: tuple[str, ...] = ()) -> tuple[Chain, ...]:
    facing = SIDES[view] if view in SIDES else isometric(Corner(view))
    names = [component.name for component in components]
    return lines_of(scene_of(meshes(*components), facing), foremost, hidden=names)


def length(chains: tuple[Chain, ...], kind: Kind | None = None, sight: Sight = Sight.SEEN, of: str = "") -> float:
    return sum(
        math.dist(a, b)
        for chain in chains
        if chain.sight is sight and kind in (None, chain.kind) and of in ("", chain.component)
        for a, b in zip(chain.points, chain.points[1:], strict=False)
    )


def plate(*cuts: tuple[str, str, tuple[samples.SegmentStated, ...], float]) -> Component:
    bench = Bench("plate", "Plate", (100, 60, 20))
    for number, (kind, face, loop, depth) in enumerate(cuts):
        bench.cut(f"f{number}", kind, face, loop, depth)
    return Component("plate", Placement(at(0, 0, 0), X, Y, Z), shaped(bench))


@pytest.mark.parametrize("corner", list(Corner))
def test_a_cube_shows_six_outlines_and_three_inner_edges(corner: Corner) -> None:
    chains = lines(box("cube", (0, 0, 0), (100, 100, 100)), view=corner)
    side = 100 * math.sqrt(2 / 3)
    assert length(chains, Kind.OUTLINE) == pytest.approx(6 * side, abs=0.01)
    assert length(chains, Kind.INNER) == pytest.approx(3 * side, abs=0.01)
    assert length(chains, sight=Sight.BEHIND) == pytest.approx(3 * side, abs=0.01)
    (outline,) = (chain for chain in chains if chain.kind is Kind.OUTLINE)
    assert outline.points[0] == outline.points[-1]


@pytest.mark.parametrize("corner", list(Corner))
def test_isometric_axes_are_120_degrees_apart_and_equally_shortened(corner: Corner) -> None:
    """ISO 5456-3: z upright, x and y at 30 degrees to the level; enlarged by sqrt(3/2) they are true."""
    facing = isometric(corner)
    assert facing.right.dot(facing.up) == pytest.approx(0, abs=1e-15)
    for axis in (XYZ(1, 0, 0), XYZ(0, 1, 0), XYZ(0, 0, 1)):
        shown = facing.flat(axis)
        assert math.hypot(*shown) * NATURAL == pytest.approx(1)
    assert facing.flat(XYZ(0, 0, 1)).x == pytest.approx(0, abs=1e-15)
    slopes = {round(math.degrees(math.atan(p.y / p.x))) for p in (facing.flat(XYZ(1, 0, 0)), facing.flat(XYZ(0, 1, 0)))}
    assert slopes == {30, -30}
    assert (facing.eye.z < 0) == corner.endswith("below")


def test_a_covered_box_shows_nothing_but_is_told_covered() -> None:
    chains = lines(box("near", (0, 0, 0), (100, 10, 100)), box("far", (20, 50, 20), (30, 30, 30)))
    assert length(chains, of="far") == 0
    assert length(chains, Kind.OUTLINE, Sight.COVERED, "far") == pytest.approx(120)


def test_a_half_covered_box_is_cut_where_the_cover_ends() -> None:
    chains = lines(box("near", (0, 0, 0), (50, 10, 100)), box("far", (20, 50, 20), (60, 30, 30)))
    assert length(chains, of="far") == pytest.approx(30 + 30 + 30, abs=0.01)
    assert length(chains, sight=Sight.COVERED, of="far") == pytest.approx(30 + 30 + 30, abs=0.01)


def test_flush_boards_share_one_joint() -> None:
    chains = lines(box("a", (0, 0, 0), (50, 20, 100)), box("b", (50, 0, 0), (50, 20, 100)))
    assert length(chains, Kind.JOINT) == pytest.approx(100)
    assert length(chains, Kind.OUTLINE) == pytest.approx(400)
    assert length(chains, Kind.INNER) == 0


def test_a_post_on_a_board_meets_it_in_a_joint() -> None:
    chains = lines(box("board", (0, 0, 0), (100, 100, 20)), box("post", (40, 40, 20), (20, 20, 60)), view="front_left")
    assert length(chains, Kind.JOINT) == pytest.approx(2 * 20 * math.sqrt(2 / 3), abs=0.3)


def test_a_gap_makes_an_outline_and_no_joint() -> None:
    chains = lines(box("board", (0, 0, 0), (100, 100, 20)), box("post", (40, 40, 21), (20, 20, 60)), view="front_left")
    assert length(chains, Kind.JOINT) == 0


def test_a_blind_hole_is_inside_and_a_through_hole_is_an_outline() -> None:
    rim = length(lines(rod("rod", (0, 0, 0), 2, 10.0, 5.0), view="top"), Kind.OUTLINE)
    assert rim == pytest.approx(math.tau * 10, rel=3e-3)
    loop = samples.round_loop((50, 30), 20)
    blind, through = (lines(plate(("hole", "face", loop, depth)), view="top") for depth in (8, 20))
    assert length(blind, Kind.INNER) == pytest.approx(rim)
    assert length(through, Kind.OUTLINE) == pytest.approx(rim + 320)
    assert length(through, Kind.INNER) == 0


def test_a_pin_that_fills_its_hole_flush_shows_one_circle() -> None:
    hole = plate(("hole", "face", samples.round_loop((50, 30), 20), 20))
    chains = lines(hole, rod("pin", (50, 30, 0), 2, 10.0, 20.0), view="top")
    assert length(chains, Kind.JOINT) == pytest.approx(math.tau * 10, rel=3e-3)
    assert length(chains, Kind.OUTLINE) == pytest.approx(320)


def test_tangent_walls_leave_no_line() -> None:
    """A slot seen aslant: no line where its straight walls run into its round ends."""
    slot = ("slot", "face", samples.stadium((30, 30), (70, 30), 12), 20)
    chains = [c for c in lines(plate(slot), view="front_left") if c.sight is Sight.SEEN]
    upright = [
        (a, b)
        for chain in chains
        for a, b in zip(chain.points, chain.points[1:], strict=False)
        if abs(a.x - b.x) < 0.01 and abs(a.y - b.y) > 1
    ]
    assert len(upright) == 3


def test_a_rod_shows_two_silhouettes_and_its_near_end() -> None:
    chains = lines(rod("rod", (0, 0, 0), 0, 10.0, 100.0))
    assert length(chains) == pytest.approx(2 * 100 + 2 * 20, rel=1e-2)
    assert length(chains, Kind.INNER) == 0


def test_a_tilted_pin_fits_its_hole_without_stray_lines() -> None:
    """Facets of pin and hole then differ in phase; from the side only the pin's two ends stand out of the plate."""
    turn = (math.cos(0.4), math.sin(0.4))
    pin = tilted(rod("pin", (0, 0, 0), 0, 6.0, 80.0), turn)
    chains = lines(pin, box("plate", (-50, -60, -40), (150, 50, 100)))
    assert length(chains, of="pin") == 0


@pytest.mark.parametrize(("sunk", "seen"), [(0.0, True), (0.05, True), (0.1, False), (1.0, False)])
def test_what_lies_a_facet_behind_the_face_of_another_is_seen_and_no_deeper(sunk: float, seen: bool) -> None:
    """A round pin's facets stand out of those of its hole, so that the one is a little behind the other's face."""
    chains = lines(box("block", (0, 0, 0), (100, 50, 100)), box("let_in", (30, sunk, 30), (20, 10, 20)))
    assert bool(length(chains, of="let_in")) is seen


def test_an_empty_scene_has_a_box_and_no_lines() -> None:
    nothing = scene_of({}, FRONT_LEFT)
    assert nothing.box == (0, 0, 0, 0)
    assert lines_of(nothing, ()) == ()


def test_lines_of_the_foremost_are_kept_where_two_run_together() -> None:
    boards = box("a", (0, 0, 0), (50, 20, 100)), box("b", (50, 0, 0), (50, 20, 100))
    for name in ("a", "b"):
        chains = lines(*boards, foremost=(name,))
        assert length(chains, Kind.JOINT, of=name) == pytest.approx(100)
        assert length(chains, Kind.JOINT) == pytest.approx(100)


def test_what_reaches_into_another_is_hidden_by_it() -> None:
    mortise = plate(("mortise", "front_edge", samples.box((40, 5), (60, 15)), 30))
    tenon = box("tenon", (40, -20, 5), (20, 50, 10))
    alone, fitted = lines(tenon, view="top"), lines(mortise, tenon, view="top")
    assert length(alone) == pytest.approx(2 * (20 + 50))
    assert length(fitted, of="tenon") == pytest.approx(20 + 20 + 20, abs=0.05)
    assert length(fitted, Kind.OUTLINE, Sight.COVERED, "tenon") == pytest.approx(30 + 20 + 30, abs=0.05)


@given(st.floats(-1e4, 1e4), st.floats(-1e4, 1e4), st.floats(-1e4, 1e4))
def test_the_picture_does_not_depend_on_where_the_assembly_stands(x: float, y: float, z: float) -> None:
    def heap(dx: float, dy: float, dz: float) -> tuple[Chain, ...]:
        return lines(
            box("a", (dx, dy, dz), (50, 20, 100)),
            box("b", (dx + 50, dy, dz), (50, 40, 30)),
            rod("c", (dx + 70, dy + 20, dz + 30), 2, 8.0, 40.0),
            view="front_left",
        )

    here, there = heap(0, 0, 0), heap(x, y, z)
    for kind in Kind:
        assert length(there, kind) == pytest.approx(length(here, kind), abs=0.2)


def test_the_same_scene_gives_the_same_lines_and_nothing_gives_none() -> None:
    boards = box("a", (0, 0, 0), (50, 20, 100)), box("b", (30, 5, 0), (50, 20, 100))
    assert lines(*boards, view="front_left") == lines(*boards, view="front_left")
    assert lines_of(scene_of({}, FRONT_LEFT)) == ()


def test_points_are_planar_values() -> None:
    (first, *_) = lines(box("a", (0, 0, 0), (50, 20, 100)))
    assert all(isinstance(point, XY) for point in first.points)
