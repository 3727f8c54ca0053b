"""The small pieces of placing: rows, running dimensions, spreading, leaders, balloons, words."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.drawing.balloons import balloons
from planbook.drawing.callouts import callout_groups
from planbook.drawing.footprint import NOTHING
from planbook.drawing.ink import Box, Segment, extent
from planbook.drawing.leaders import Callout, Paper, place_callout
from planbook.drawing.ledger import Ledger
from planbook.drawing.linear import place_spans
from planbook.drawing.pages import views_needed
from planbook.drawing.pointing import Spot
from planbook.drawing.recording import Circle, Pt, Stroke
from planbook.drawing.room import Room
from planbook.drawing.running import LEAST, running_groups, spread_apart
from planbook.drawing.scales import Scale, scales_for
from planbook.drawing.wanted import Wanted
from planbook.drawing.ways import Span
from planbook.drawing.wording import Line, callout_lines, dimension_text, linear_lines
from tests.drawing import samples

VIEW = Box(0, 0, 120, 40)


def level(start: float, end: float, text: str = "100") -> Span:
    return Span(Pt(start, 40), Pt(end, 40), True, (Line(text),), f"{start}-{end}")


def rows_below(ledger: Ledger) -> dict[float, list[tuple[float, float]]]:
    return {out: reaches for (side, out), reaches in ledger.rows.items() if side == "below"}


def test_smaller_measures_stand_nearer_the_view() -> None:
    ledger, left = place_spans([level(0, 60), level(0, 30)], VIEW, Ledger())
    assert not left
    outs = {reach[1]: out for out, reaches in rows_below(ledger).items() for reach in reaches}
    assert outs[30] < outs[60]


def test_a_chain_stands_in_one_row() -> None:
    ledger, _ = place_spans([level(0, 40), level(40, 80), level(80, 120)], VIEW, Ledger())
    assert len(rows_below(ledger)) == 1


@given(st.lists(st.tuples(st.integers(0, 120), st.integers(0, 120)), min_size=1, max_size=9, unique=True))
def test_lettering_of_rows_never_touches(ends: list[tuple[int, int]]) -> None:
    spans = [level(a, b, f"{abs(b - a)} [{abs(b - a)}]") for a, b in ends if abs(a - b) > 1]
    ledger, _ = place_spans(spans, VIEW, Ledger())
    strokes = [*ledger.strokes, *(extension.segment for extension in ledger.extensions.values())]
    for i, box in enumerate(ledger.boxes):
        assert not any(box.meets(other) for other in ledger.boxes[i + 1 :])
        assert not any(segment.meets(box) for segment in strokes)


def test_measures_from_one_datum_run_along_one_line() -> None:
    spans = [level(0, 10 * k) for k in range(1, LEAST + 1)]
    assert [len(group) for group in running_groups(spans)] == [LEAST]
    assert running_groups(spans[:-1]) == ()
    assert running_groups([replace(span, overall=True) for span in spans]) == ()


@given(st.lists(st.floats(0, 200), min_size=1, max_size=12), st.floats(0.5, 10))
def test_spreading_keeps_order_and_distance(places: list[float], least: float) -> None:
    ordered = sorted(places)
    spread = spread_apart(ordered, least)
    assert all(b - a >= least - 1e-6 for a, b in pairwise(spread))
    assert sum(spread) == pytest.approx(sum(ordered), abs=1e-6)
    if all(b - a >= least for a, b in pairwise(ordered)):
        assert spread == pytest.approx(ordered)


@given(st.lists(st.tuples(st.floats(1, 99), st.floats(1, 59)), min_size=1, max_size=14, unique=True))
def test_leaders_of_balloons_never_cross(spots: list[tuple[float, float]]) -> None:
    targets = {str(k): Spot(Pt(*spot), 1.0) for k, spot in enumerate(spots)}
    drawn = balloons(targets, Box(0, 0, 100, 60), NOTHING.strokes)
    leaders = [Segment(p.start, p.steps[0].end) for p in drawn if isinstance(p, Stroke)]
    assert len(leaders) == len(targets)
    assert not [(a, b) for i, a in enumerate(leaders) for b in leaders[i + 1 :] if a.crosses(b)]


def test_balloons_do_not_touch_each_other() -> None:
    targets = {str(k): Spot(Pt(50 + k, 30), 1.0) for k in range(10)}
    drawn = balloons(targets, Box(0, 0, 100, 60), NOTHING.strokes)
    rings = [p for p in drawn if isinstance(p, Circle) and p.fill == "white"]
    for i, a in enumerate(rings):
        for b in rings[i + 1 :]:
            assert (a.centre.x - b.centre.x) ** 2 + (a.centre.y - b.centre.y) ** 2 > (a.radius + b.radius) ** 2


def test_a_leader_goes_where_it_crosses_least() -> None:
    lines = np.array([[40.0, y, 60.0, y] for y in range(1, 9)])
    ring = balloons({"1": Spot(Pt(50, 30), 1.0)}, Box(0, 0, 100, 60), lines)[2]
    assert isinstance(ring, Circle)
    assert ring.centre.y > 60


def test_what_is_narrower_than_a_dot_is_pointed_at_with_an_arrow() -> None:
    for clear, pointed in ((0.3, Stroke), (0.9, Circle)):
        _, end, *_ = balloons({"1": Spot(Pt(50, 20), clear)}, Box(0, 0, 100, 60), NOTHING.strokes)
        assert isinstance(end, pointed)


HOME = Box(10, 10, 110, 20)


def called(field: Box, taken: Box, other: Box) -> tuple[Segment, ...]:
    """The leader of a callout at a hole in HOME, on a field of which some is taken; nothing if it has no place."""
    room = Room(field)
    for box in (HOME, taken):
        room.mark_box(box)
    callout = Callout(Pt(60, 15), 2.0, (Line("Ø4 through"), Line("for the bolt")), "bolt", HOME)
    paper = Paper(room, NOTHING.boxes, NOTHING.strokes, [HOME, other])
    return tuple(paper.leaders) if place_callout(callout, paper) else ()


@pytest.mark.parametrize("other", [Box(58, 22, 108, 24), Box(12, 22, 63, 24)])
def test_a_leader_goes_round_another_view(other: Box) -> None:
    """There is room under the other view only; the straight way there would run over it."""
    leader = called(Box(0, 0, 150, 60), Box(0, 0, 150, 30), other)
    assert leader
    assert not any(segment.meets(other) for segment in leader)


@pytest.mark.parametrize("other", [Box(0, 40, 145, 47), Box(41, 45, 145, 60)])
def test_a_callout_with_room_only_by_another_view_has_none(other: Box) -> None:
    """Under the other view, and beside it, where one would take the hole for its own."""
    field, taken = Box(8, 8, 145, 60), Box(0, 0, 200, 45)
    assert called(field, taken, other) == ()
    assert called(field, taken, Box(300, 300, 310, 310))


def test_a_leader_leaves_its_view_where_it_crosses_fewest_lines() -> None:
    """Over the hole run three lines of its own view; under it none, though it is farther that way."""
    room = Room(Box(0, 0, 150, 90))
    home = Box(10, 30, 140, 60)
    room.mark_box(home)
    lines = [Segment(Pt(12, y), Pt(138, y)) for y in (34.0, 36.0, 38.0)]
    callout = Callout(Pt(75, 42), 2.0, (Line("Ø4 through"),), "bolt", home)
    paper = Paper(room, NOTHING.boxes, np.array([(*a, *b) for a, b in lines]), [home])
    assert place_callout(callout, paper)
    assert paper.leaders
    assert not any(leader.crosses(line) for leader in paper.leaders for line in lines)


def test_a_leader_points_at_the_end_of_a_row_that_is_nearer_to_its_lettering() -> None:
    """There is room beside the far end only; at an equal distance it points at the first."""
    home = Box(10, 10, 140, 20)
    first, last = Pt(20, 15), Pt(130, 15)
    for taken, tip in ((Box(0, 0, 110, 60), last), (Box(0, 0, 0, 0), first)):
        room = Room(Box(0, 0, 180, 60))
        for box in (home, taken):
            room.mark_box(box)
        callout = Callout(first, 2.0, (Line("2x Ø4 through"),), "row", home, last)
        paper = Paper(room, NOTHING.boxes, NOTHING.strokes, [home])
        assert place_callout(callout, paper)
        at = paper.leaders[0].a
        assert abs(math.dist(at, tip) - 2.0) < 1e-9


def test_a_block_grows_by_its_callouts_and_no_more() -> None:
    """The apron's holes: everything that the larger view draws lies in its block, and each callout by its view."""
    bench = samples.apron(False)
    statement = samples.statement(bench)
    part = next(iter(statement.parts.values()))
    dimensions = tuple(statement.dimensions.values())
    wanted = Wanted(part, dimensions, scales_for(statement.edition.units), statement.edition.projection)
    view = views_needed(wanted)[0]
    plain, full = (wanted.laid_out(view, Scale(1, 5), False, full).named(moved=False) for full in (False, True))
    assert len(full.called) == len(callout_groups(wanted.of([view])))
    assert full.called
    assert extent(full.primitives) == full.box
    assert full.box.right - full.box.left <= plain.box.right - plain.box.left + 90
    assert full.box.bottom - full.box.top <= plain.box.bottom - plain.box.top + 40


@pytest.mark.parametrize(
    ("box", "segment", "meets"),
    [
        (Box(0, 0, 10, 10), Segment(Pt(-5, 5), Pt(15, 5)), True),
        (Box(0, 0, 10, 10), Segment(Pt(-5, 12), Pt(15, 12)), False),
        (Box(0, 0, 10, 10), Segment(Pt(4, 4), Pt(5, 5)), True),
        (Box(0, 0, 10, 10), Segment(Pt(-5, 4), Pt(4, -5)), False),
        (Box(0, 0, 10, 10), Segment(Pt(5, -9), Pt(5, -1)), False),
    ],
)
def test_a_segment_meets_a_box(box: Box, segment: Segment, meets: bool) -> None:
    assert segment.meets(box) == meets


def test_words_of_a_dimension() -> None:
    plain = samples.apron(True).dimensions[0]
    assert dimension_text(plain) == f"{plain.printed.text} [{plain.printed.other}]"
    assert dimension_text(replace(plain, count=4, prefix="Ø", suffix="through")).startswith("4x Ø")
    assert dimension_text(replace(plain, count=4, prefix="Ø", suffix="through")).endswith("] through")
    assert dimension_text(replace(plain, prefix="slot")).startswith("slot ")
    assert dimension_text(replace(plain, reference=True)).startswith("(")
    assert dimension_text(replace(plain, tolerance="±1/32")).endswith("] ±1/32")


def test_a_method_stands_under_the_dimension_line() -> None:
    plain = samples.leg().dimensions[0]
    assert [line.text for line in linear_lines(replace(plain, method="marked from part 3"))][1] == "marked from part 3"


def test_a_callout_counts_once_and_says_each_method_once() -> None:
    hole = samples.leg().dimensions[0]
    pair = tuple(replace(hole, id=f"leg/x/{k}", count=2, method="drilled with part 9") for k in range(2))
    lines = callout_lines(pair, "for the bolts")
    assert [line.text.startswith("2x ") for line in lines] == [True, False, False, False]
    assert [line.text for line in lines][2:] == ["drilled with part 9", "for the bolts"]
    assert [line.mark for line in lines][:2] == ["dimension:leg/x/0", "dimension:leg/x/1"]
