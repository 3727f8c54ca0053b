"""What a view shows: exact curves, what is hidden, every stroke once."""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Iterable
from itertools import product

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import unary_union

from planbook.drawing.curves import XY, Arc, Curve, Line, arc_between, circle, holds, meetings, ring_of
from planbook.drawing.facing import FACINGS, Facing
from planbook.drawing.merge import Piece, merge
from planbook.drawing.sight import see
from planbook.drawing.solid import XYZ, Solid
from planbook.drawing.stated_solid import solid_of_stated
from planbook.statement.model import SegmentStated
from tests.drawing import samples
from tests.drawing.samples import Bench, box, lines, round_loop, rounded_box

Make = Callable[[], Bench]
EACH_PART = pytest.mark.parametrize("make", samples.ALL, ids=lambda make: make.__name__)

SQUARE = (samples.leg, samples.apron, samples.button, samples.top)
"""Parts on which every edge is a step in depth; on a ramp an edge may be a mere fold."""


def solid(bench: Bench) -> Solid:
    return solid_of_stated(bench.stated())


def chords(curve: Curve) -> list[XY]:
    """Points along a curve, arcs in steps of at most 4 degrees."""
    count = max(2, math.ceil(abs(curve.sweep) / math.radians(4))) if isinstance(curve, Arc) else 1
    return [curve.point(k / count) for k in range(count + 1)]


def shown(bench: Bench, view: str, rank: int) -> list[Curve]:
    return [piece.curve for piece in see(solid(bench), FACINGS[view], frozenset()) if piece.rank == rank]


def extents(curves: Iterable[Curve]) -> set[tuple[float, ...]]:
    return {tuple(round(v, 3) + 0.0 for v in curve.box) for curve in curves}


def test_a_plain_board_is_a_rectangle_in_each_view() -> None:
    bench = Bench("board", "Board", (300, 80, 20))
    for view, (across, up) in {"face": (300, 80), "front_edge": (300, 20), "right_end": (20, 80)}.items():
        pieces = see(solid(bench), FACINGS[view], frozenset())
        assert len(pieces) == 4
        assert all(piece.rank == 1 for piece in pieces)
        xs, ys = zip(*[(c.box[2] - c.box[0], c.box[3] - c.box[1]) for c in (p.curve for p in pieces)], strict=True)
        assert max(xs) == pytest.approx(across)
        assert max(ys) == pytest.approx(up)


def test_edge_views_turn_as_they_stand_round_the_face() -> None:
    """ISO 5456-2: the face's own side of an edge view lies towards the face view in third angle."""
    corner = XYZ(0, 0, 20)
    assert FACINGS["front_edge"].flat(corner).y == 20
    assert FACINGS["rear_edge"].flat(corner).y == -20
    assert FACINGS["right_end"].flat(corner).x == -20
    assert FACINGS["left_end"].flat(corner).x == 20
    assert FACINGS["back"].flat(XYZ(30, 5, 0)) == (-30, 5)


@pytest.mark.parametrize("name", sorted(FACINGS))
def test_views_are_right_handed(name: str) -> None:
    facing = FACINGS[name]
    r, u, e = facing.right, facing.up, facing.eye
    cross = (r.y * u.z - r.z * u.y, r.z * u.x - r.x * u.z, r.x * u.y - r.y * u.x)
    assert cross == pytest.approx(tuple(e))


def test_a_through_hole_is_one_circle_and_hidden_from_the_side() -> None:
    bench = Bench("board", "Board", (100, 60, 20))
    bench.cut("hole", "hole", "face", round_loop((40, 30), 12), 20)
    (hole,) = [c for c in shown(bench, "face", 1) if isinstance(c, Arc)]
    assert hole.full
    assert (hole.centre, hole.radius) == ((40, 30), pytest.approx(6))
    assert extents(shown(bench, "front_edge", 2)) == {(34, 0, 34, 20), (46, 0, 46, 20)}


def test_a_blind_hole_at_the_back_is_dashed_on_the_face() -> None:
    bench = Bench("board", "Board", (100, 60, 20))
    bench.cut("hole", "hole", "back", round_loop((40, 30), 12), 10)
    assert [c.radius for c in shown(bench, "face", 2) if isinstance(c, Arc)] == [pytest.approx(6)]
    assert not [c for c in shown(bench, "face", 1) if isinstance(c, Arc)]
    assert [c.radius for c in shown(bench, "back", 1) if isinstance(c, Arc)] == [pytest.approx(6)]
    assert extents(shown(bench, "front_edge", 2)) == {(34, 0, 34, 10), (46, 0, 46, 10), (34, 10, 46, 10)}


def test_counterbore_and_countersink_are_concentric_circles() -> None:
    bench = Bench("board", "Board", (100, 60, 20))
    bench.cut("bored", "hole", "face", round_loop((30, 30), 7), 20)
    bench.cut("bored", "hole", "face", round_loop((30, 30), 18), 8)
    bench.cut("sunk", "hole", "face", round_loop((70, 30), 5), 20)
    bench.cut("sunk", "hole", "face", round_loop((70, 30), 10), 2.5, bottom=round_loop((70, 30), 5))
    rings = sorted((c.centre.x, round(c.radius, 3)) for c in shown(bench, "face", 1) if isinstance(c, Arc) and c.full)
    assert rings == [(30, 3.5), (30, 9), (70, 2.5), (70, 5)]
    slopes = [c for c in shown(bench, "front_edge", 2) if isinstance(c, Line) and abs(c.start.x - c.end.x) > 1e-6]
    leaning = [c for c in slopes if abs(c.start.y - c.end.y) > 1e-6]
    assert len(leaning) == 2
    assert all(abs(c.start.x - c.end.x) == pytest.approx(abs(c.start.y - c.end.y)) for c in leaning)


def test_a_groove_shows_its_profile_at_the_end_and_is_dashed_from_the_front() -> None:
    bench = Bench("board", "Board", (100, 60, 20))
    bench.cut("groove", "groove", "face", box((0, 20), (100, 26)), 8)
    profile = {(-20, 20, -12, 20), (-20, 26, -12, 26), (-12, 20, -12, 26)}
    assert profile <= extents(shown(bench, "right_end", 1))
    assert (-20, 0, -20, 60) not in extents(shown(bench, "right_end", 1))
    assert extents(shown(bench, "front_edge", 2)) == {(0, 12, 100, 12)}


def test_a_rabbet_is_open_to_its_side() -> None:
    bench = Bench("board", "Board", (100, 60, 20))
    bench.cut("rabbet", "rabbet", "face", box((0, 0), (100, 9)), 7)
    assert (0, 13, 100, 13) in extents(shown(bench, "front_edge", 1))
    assert extents(shown(bench, "rear_edge", 2)) == {(0, -13, 100, -13)}
    assert (0, 9, 100, 9) in extents(shown(bench, "face", 1))


ROUND, SLANTED = rounded_box((0, 0), (100, 60), 12), lines((0, 0), (88, 0), (100, 12), (100, 48), (88, 60), (0, 60))


@pytest.mark.parametrize("outline", [ROUND, SLANTED], ids=["round", "slanted"])
@pytest.mark.parametrize("side", ["face", "back"])
def test_the_floor_of_a_rabbet_runs_to_the_end_of_a_corner(outline: tuple[SegmentStated, ...], side: str) -> None:
    """Where the corner of the blank, and not the cut's own loop, ends the floor: outlines are whole from the side."""
    bench = Bench("leaf", "Leaf", (100, 60, 18))
    bench.outline = outline
    bench.cut("seat", "rabbet", side, box((87, 0), (100, 60)), 2)
    level = 16 if side == "face" else 2
    floor = [b for b in extents(shown(bench, "front_edge", 1)) if b[1] == b[3] == level]
    assert sum(x1 - x0 for x0, _, x1, _ in floor) == pytest.approx(13)
    assert (min(b[0] for b in floor), max(b[2] for b in floor)) == (87, 100)


def test_a_tenon_is_cut_out_of_the_outline() -> None:
    bench = Bench("rail", "Rail", (200, 60, 20))
    bench.cut("tenon", "tenon", "right_end", box((0, 0), (60, 20)), 30, islands=(box((10, 6), (50, 14)),))
    face = extents(shown(bench, "face", 1))
    assert {(170, 10, 200, 10), (170, 50, 200, 50), (200, 10, 200, 50)} <= face
    assert (0, 0, 170, 0) in face
    assert not list(shown(bench, "face", 2))
    assert {(-14, 10, -14, 50), (-6, 10, -6, 50)} <= extents(shown(bench, "right_end", 1))


def test_a_through_mortise_is_open_and_a_notch_leaves_the_outline() -> None:
    bench = Bench("board", "Board", (100, 60, 20))
    bench.cut("mortise", "mortise", "face", box((20, 20), (40, 30)), 20)
    bench.cut("notch", "notch", "face", box((80, 50), (100, 60)), 20)
    outline = extents(shown(bench, "face", 1))
    assert {(80, 50, 80, 60), (80, 50, 100, 50), (0, 60, 80, 60), (100, 0, 100, 50)} <= outline


def test_round_corners_stay_arcs_and_tangent_edges_are_not_drawn() -> None:
    bench = Bench("board", "Board", (100, 60, 20))
    bench.outline = rounded_box((0, 0), (100, 60), 12)
    arcs = [c for c in shown(bench, "face", 1) if isinstance(c, Arc)]
    assert [round(arc.radius, 6) for arc in arcs] == [12] * 4
    assert all(abs(arc.sweep) == pytest.approx(math.pi / 2) for arc in arcs)
    assert extents(shown(bench, "front_edge", 1)) == {
        (0, 0, 0, 20),
        (100, 0, 100, 20),
        (0, 0, 100, 0),
        (0, 20, 100, 20),
    }
    assert not shown(bench, "front_edge", 2)


def test_corners_of_an_outline_show_from_the_side_that_sees_them() -> None:
    bench = Bench("wedge", "Wedge", (100, 60, 20))
    bench.outline = lines((0, 0), (100, 0), (100, 30), (60, 60), (0, 60))
    assert (60, 0, 60, 20) not in extents(shown(bench, "rear_edge", 1))
    assert (60, -20, 60, 0) in extents(shown(bench, "rear_edge", 1))
    assert extents(shown(bench, "front_edge", 2)) == {(60, 0, 60, 20)}


@EACH_PART
@pytest.mark.parametrize("view", sorted(FACINGS))
def test_strokes_are_drawn_once(make: Make, view: str) -> None:
    """No two strokes of a view run together: their union is as long as their sum."""
    pieces = see(solid(make()), FACINGS[view], frozenset())
    strings = [LineString(chords(piece.curve)) for piece in pieces]
    assert unary_union(strings).length == pytest.approx(sum(s.length for s in strings), rel=1e-6)


@pytest.mark.parametrize("make", SQUARE, ids=lambda make: make.__name__)
@pytest.mark.parametrize("view", sorted(FACINGS))
def test_visible_lines_part_what_is_seen(make: Make, view: str) -> None:
    """Brute force: round a visible stroke the wood that the eye meets first lies at unlike depths.

    Marched in small steps from the eye, with no intersections solved.
    """
    part, facing, rng = solid(make()), FACINGS[view], random.Random(view)
    pieces = [piece for piece in see(part, facing, frozenset()) if piece.rank == 1]
    for piece in rng.sample(pieces, k=min(5, len(pieces))):
        spot = piece.curve.point(rng.uniform(0.2, 0.8))
        depths = {_depth(part, facing, spot, turn) for turn in range(8)}
        assert len(depths) > 1, f"{piece} bounds nothing that is seen"


def _depth(part: Solid, facing: Facing, spot: XY, turn: int) -> int:
    """Steps from the eye to wood beside a place, in one of eight directions; -1 where the eye looks past."""
    angle, step = math.pi / 8 + turn * math.pi / 4, 0.4
    x, y = spot.x + 0.05 * math.cos(angle), spot.y + 0.05 * math.sin(angle)
    nearest = max(XYZ(*corner).dot(facing.eye) for corner in product(*((0, measure) for measure in part.size)))
    start = XYZ(0, 0, 0).along(facing.right, x).along(facing.up, y).along(facing.eye, nearest + 0.137)
    deepest = sum(abs(e) * m for e, m in zip(facing.eye, part.size, strict=True))
    marched = (k for k in range(int(deepest / step) + 2) if part.is_wood(start.along(facing.eye, -k * step)))
    return next(marched, -1)


def test_merging_lets_visible_win() -> None:
    whole, middle = Line(XY(0, 0), XY(10, 0)), Line(XY(7, 0), XY(3, 0))
    pieces = merge([Piece(whole, 2), Piece(middle, 1)])
    assert sorted((p.rank, round(p.curve.box[0], 6), round(p.curve.box[2], 6)) for p in pieces) == [
        (1, 3, 7),
        (2, 0, 3),
        (2, 7, 10),
    ]


def test_merging_joins_arcs_over_the_turn() -> None:
    arcs = [arc_between(XY(1, -0.001), XY(0, 1), XY(0, 0), True), arc_between(XY(0, -1), XY(1, 0.001), XY(0, 0), True)]
    (piece,) = merge(Piece(Arc(XY(0, 0), 1.0, a.begin, a.sweep), 1) for a in arcs)
    assert isinstance(piece.curve, Arc)
    assert piece.curve.sweep == pytest.approx(math.pi, abs=1e-2)


def test_curves_meet_where_shapely_says() -> None:
    rng = random.Random(5)
    for _ in range(200):
        line = Line(*(XY(rng.uniform(0, 9), rng.uniform(0, 9)) for _ in range(2)))
        ring = circle(XY(rng.uniform(2, 7), rng.uniform(2, 7)), rng.uniform(0.5, 3))
        straight = LineString([line.start, line.end])
        if abs(straight.distance(Point(ring.centre)) - ring.radius) < 0.01:
            continue  # nearly tangent: chords cannot tell
        crossed = straight.intersection(LineString([ring.point(k / 2000) for k in range(2001)]))
        assert (
            len(meetings(line, ring))
            == len(meetings(ring, line))
            == shapely.get_num_geometries(crossed) - crossed.is_empty
        )


def test_points_are_inside_as_shapely_says() -> None:
    curves = solid(samples.button()).blank.loop
    polygon = Polygon([p for curve in curves for p in chords(curve)[:-1]])
    rng = random.Random(1)
    for _ in range(300):
        spot = Point(rng.uniform(-2, 56), rng.uniform(-2, 28))
        if polygon.exterior.distance(spot) > 0.05:
            assert holds(ring_of(curves), spot.x, spot.y) == polygon.contains(spot)


@given(st.floats(1.0, 400.0), st.lists(st.integers(-3, 3), min_size=8, max_size=8))
def test_a_point_level_with_the_quarters_of_a_disc_is_inside(radius: float, off: list[int]) -> None:
    """Quarter arcs meet there as well as their centres were reckoned; bores in the middle of a disc begin there."""
    hair = 3e-14
    ring = ring_of(
        [
            Arc(XY(radius + hair * off[k], radius + hair * off[k + 4]), radius, math.pi / 2 * k, math.pi / 2)
            for k in range(4)
        ]
    )
    for level in range(-6, 7):
        assert holds(ring, radius / 2, radius + hair * level)
        assert holds(ring, radius * 1.5, radius + hair * level)
        assert not holds(ring, -radius, radius + hair * level)
