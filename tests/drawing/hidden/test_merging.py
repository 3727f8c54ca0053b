"""Lines that run together drawn once, and pieces joined end to end."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.drawing.hidden.chaining import chained
from planbook.drawing.hidden.merging import merged
from planbook.drawing.hidden.model import Kind, Sight
from planbook.drawing.hidden.pieces import Piece

OUTLINE, INNER, JOINT = Kind.OUTLINE, Kind.INNER, Kind.JOINT


def piece(
    low: float, high: float, kind: Kind = OUTLINE, sight: Sight = Sight.SEEN, owner: int = 0, turn: float = 0.3
) -> Piece:
    """A piece of a line through (5, 7) at an angle."""
    cos, sin = math.cos(turn), math.sin(turn)
    return Piece((5 + low * cos, 7 + low * sin), (5 + high * cos, 7 + high * sin), owner, kind, sight)


def spans(pieces: list[Piece], turn: float = 0.3) -> list[tuple[float, float, Kind, Sight, int]]:
    cos, sin = math.cos(turn), math.sin(turn)

    def along(p: tuple[float, float]) -> float:
        return round((p[0] - 5) * cos + (p[1] - 7) * sin, 6)

    found = [(*sorted((along(p.start), along(p.end))), p.kind, p.sight, p.owner) for p in pieces]
    return sorted(found)  # type: ignore[arg-type]


@given(st.lists(st.tuples(st.integers(0, 40), st.integers(1, 20)), min_size=1), st.floats(0, 2 * math.pi))
def test_the_union_of_equal_pieces_is_drawn_once(lengths: list[tuple[int, int]], turn: float) -> None:
    covered = {step for low, long in lengths for step in range(low, low + long)}
    found = merged([piece(low, low + long, turn=turn) for low, long in lengths])
    assert sum(math.dist(p.start, p.end) for p in found) == pytest.approx(len(covered), abs=1e-6)


def test_what_is_seen_comes_before_what_is_hidden() -> None:
    found = spans(merged([piece(0, 10, sight=Sight.COVERED), piece(4, 6)]))
    assert found == [
        (0, 4, OUTLINE, Sight.COVERED, 0),
        (4, 6, OUTLINE, Sight.SEEN, 0),
        (6, 10, OUTLINE, Sight.COVERED, 0),
    ]


def test_joints_come_before_outlines_and_these_before_inner_edges() -> None:
    pieces = [piece(0, 10, INNER, owner=0), piece(2, 8, OUTLINE, owner=1), piece(4, 6, JOINT, owner=2)]
    found = spans(merged(pieces))
    assert [(low, high, kind) for low, high, kind, _, _ in found] == [
        (0, 2, INNER), (2, 4, OUTLINE), (4, 6, JOINT), (6, 8, OUTLINE), (8, 10, INNER),
    ]  # fmt: skip


def test_the_foremost_come_first_whatever_their_kind() -> None:
    pieces = [piece(0, 10, OUTLINE, owner=0), piece(0, 10, INNER, owner=1)]
    assert spans(merged(pieces, frozenset({1}))) == [(0, 10, INNER, Sight.SEEN, 1)]
    assert spans(merged(pieces)) == [(0, 10, OUTLINE, Sight.SEEN, 0)]


@pytest.mark.parametrize("turn", [math.pi / 2, -math.pi / 2, 0.0, math.pi, 1e-9])
def test_upright_and_level_lines_are_one_from_either_end(turn: float) -> None:
    pieces = [piece(0, 10, turn=turn), piece(-10, -3, turn=turn + math.pi), piece(20, 30, turn=turn)]
    found = merged(pieces)
    assert sum(math.dist(p.start, p.end) for p in found) == pytest.approx(20)


def test_parallel_lines_a_hair_apart_stay_two() -> None:
    low, high = piece(0, 10, turn=0.0), Piece((5, 7.01), (15, 7.01), 0, OUTLINE, Sight.SEEN)
    assert len(merged([low, high])) == 2


def test_a_square_becomes_one_ring_and_points_on_the_way_are_left_out() -> None:
    corners = [(0.0, 0.0), (5.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]
    sides = zip(corners, corners[1:] + corners[:1], strict=True)
    (chain,) = chained([Piece(a, b, 0, OUTLINE, Sight.SEEN) for a, b in sides], ["square"])
    assert chain.component == "square"
    assert chain.points[0] == chain.points[-1]
    assert {tuple(p) for p in chain.points} >= {(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)}
    assert sum(math.dist(a, b) for a, b in zip(chain.points, chain.points[1:], strict=False)) == pytest.approx(40)


@given(st.permutations(range(5)))
def test_a_ring_on_a_tail_is_one_polyline_wherever_it_is_begun(order: list[int]) -> None:
    corners = [(-5.0, 0.0), (0.0, 0.0), (5.0, 3.0), (9.0, 0.0), (5.0, -3.0)]
    ways = [*itertools.pairwise(corners), (corners[4], corners[1])]
    sides = [Piece(a, b, 0, OUTLINE, Sight.SEEN) for a, b in ways]
    (chain,) = chained([sides[k] for k in order], ["it"])
    drawn = sum(math.dist(a, b) for a, b in zip(chain.points, chain.points[1:], strict=False))
    assert drawn == pytest.approx(sum(math.dist(a, b) for a, b in ways))


@given(st.permutations(range(4)))
def test_where_lines_cross_each_goes_straight_on(order: list[int]) -> None:
    ends = [(-5.0, -1.0), (5.0, 1.0), (-1.0, 5.0), (1.0, -5.0)]
    arms = [Piece((0.0, 0.0), end, 0, OUTLINE, Sight.SEEN) for end in ends]
    drawn = {frozenset(map(tuple, chain.points)) for chain in chained([arms[k] for k in order], ["it"])}
    assert drawn == {frozenset(ends[:2]), frozenset(ends[2:])}


def test_unlike_pieces_are_not_joined() -> None:
    pieces = [Piece((0, 0), (5, 0), 0, OUTLINE, Sight.SEEN), Piece((5, 0), (9, 3), 0, INNER, Sight.SEEN)]
    assert len(chained(pieces, ["it"])) == 2


@given(st.permutations(range(6)))
def test_the_order_of_pieces_does_not_matter(order: list[int]) -> None:
    star = [Piece((0, 0), (math.cos(k), math.sin(k)), 0, OUTLINE, Sight.SEEN) for k in range(6)]
    assert chained([star[k] for k in order], ["it"]) == chained(star, ["it"])
