"""Every plan keeps its promises: checked by its own means and by shapely."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from shapely import box, unary_union
from shapely.geometry.base import BaseGeometry

from planbook.cutting import (
    Cut,
    Job,
    Layout,
    Piece,
    Plan,
    Rectangle,
    Stock,
    Way,
    cut_boards,
    cut_sheets,
    faults_of,
    list_steps,
    nest_sheets,
    replay,
)

EFFORT = 3_000
PLANNERS = (cut_sheets, cut_boards, nest_sheets)
Planner = Callable[[Job, int], Plan]

sizes = st.integers(1, 60)


@st.composite
def jobs(draw: st.DrawFn) -> Job:
    count = draw(st.integers(1, 8))
    pieces = tuple(
        Piece(
            f"p{number}",
            draw(sizes),
            draw(sizes),
            draw(st.integers(1, 3)),
            draw(st.booleans()),
            draw(st.sampled_from([None, None, None, "a", "b"])),
        )
        for number in range(count)
    )
    stocks = tuple(
        Stock(
            f"s{number}",
            draw(st.integers(20, 100)),
            draw(st.integers(20, 100)),
            draw(st.sampled_from([None, None, 1, 3])),
            draw(st.integers(0, 4)),
            draw(st.integers(0, 4)),
        )
        for number in range(draw(st.integers(1, 3)))
    )
    return Job(pieces, stocks, draw(st.sampled_from([0, 1, 3, 7])))


@pytest.mark.parametrize("planner", PLANNERS)
@given(job=jobs())
@settings(max_examples=60)
@example(job=Job((Piece("exact", 30, 20, 6),), (Stock("s", 60, 60),), 0))
@example(job=Job((Piece("exact", 30, 20, 4),), (Stock("s", 63, 43),), 3))
@example(job=Job((Piece("sliver", 58, 20, 2),), (Stock("s", 60, 43, end_trim=0),), 3))
def test_a_plan_keeps_its_promises(planner: Planner, job: Job) -> None:
    plan = planner(job, EFFORT)
    assert faults_of(job, plan) == ()
    assert plan.bound.count <= plan.count
    assert plan.bound.area <= plan.area
    for layout in plan.layouts:
        _check_with_shapely(layout, job)


def _check_with_shapely(layout: Layout, job: Job) -> None:
    """No two pieces nearer than the kerf, all in the clear, and pieces, offcuts and dust make up the sheet."""
    stock = next(each for each in job.stocks if each.key == layout.stock)
    clear = box(stock.end_trim, stock.edge_trim, stock.length - stock.end_trim, stock.width - stock.edge_trim)
    shapes = [_shape(each.place) for each in layout.placed]
    left = [_shape(each) for each in layout.offcuts]
    assert all(clear.covers(shape) for shape in shapes + left)
    for at, one in enumerate(shapes):
        for other in shapes[at + 1 :]:
            # Square gaps: a saw's kerf is respected along an axis, a cutter's diameter at any rate.
            apart = max(_gap(one, other, 0), _gap(one, other, 1))
            assert apart >= job.kerf
    assert unary_union(shapes + left).area == sum(shape.area for shape in shapes + left)
    if not job.kerf and layout.cuts is not None:
        assert unary_union(shapes + left).area == clear.area


def _gap(one: BaseGeometry, other: BaseGeometry, axis: int) -> float:
    return max(one.bounds[axis] - other.bounds[axis + 2], other.bounds[axis] - one.bounds[axis + 2])


def _shape(place: Rectangle) -> BaseGeometry:
    return box(place.x, place.y, place.x + place.length, place.y + place.width)


@pytest.mark.parametrize("planner", PLANNERS)
@given(job=jobs())
@settings(max_examples=15)
def test_the_same_job_has_the_same_plan(planner: Planner, job: Job) -> None:
    assert planner(job, EFFORT) == planner(job, EFFORT)


@pytest.mark.parametrize("planner", PLANNERS)
@given(job=jobs(), scale=st.sampled_from([3, 396_875]))
@settings(max_examples=15)
def test_another_unit_gives_the_same_layouts(planner: Planner, job: Job, scale: int) -> None:
    scaled = Job(
        tuple(replace(each, length=each.length * scale, width=each.width * scale) for each in job.pieces),
        tuple(
            replace(
                each,
                length=each.length * scale,
                width=each.width * scale,
                end_trim=each.end_trim * scale,
                edge_trim=each.edge_trim * scale,
            )
            for each in job.stocks
        ),
        job.kerf * scale,
    )
    plan, other = planner(job, EFFORT), planner(scaled, EFFORT)
    assert (other.count, other.bound.count) == (plan.count, plan.bound.count)
    assert Fraction(other.area, plan.area or 1) == (scale**2 if plan.area else 0)


@given(job=jobs())
@settings(max_examples=30)
def test_a_board_is_crosscut_first_and_nothing_is_turned(job: Job) -> None:
    for layout in cut_boards(job, EFFORT).layouts:
        assert not any(each.turned for each in layout.placed)
        cuts = layout.cuts
        if cuts is not None and isinstance(cuts.use, Cut) and cuts.use.way is Way.RIP:
            assert any(each.place.length == cuts.place.length for each in layout.placed)


@given(job=jobs())
@settings(max_examples=30)
def test_the_steps_yield_exactly_the_pieces_and_offcuts(job: Job) -> None:
    plan = cut_sheets(job, EFFORT)
    stocks = {stock.key: stock for stock in job.stocks}
    for layout in plan.layouts:
        yielded = replay(list_steps(layout, stocks[layout.stock]), stocks[layout.stock], job.kerf)
        told = [*(each.place for each in layout.placed), *layout.offcuts]
        assert sorted(told, key=lambda place: (place.x, place.y, place.length, place.width)) == list(yielded)


@given(job=jobs())
@settings(max_examples=30)
def test_the_longest_pieces_come_from_the_clear_end_of_a_board(job: Job) -> None:
    for layout in cut_boards(job, EFFORT).layouts:
        lengths = []
        panel = layout.cuts
        while panel is not None and isinstance(panel.use, Cut) and panel.use.way is Way.CROSSCUT:
            lengths.append(panel.use.at)
            panel = panel.use.far
        assert lengths == sorted(lengths, reverse=True)


@pytest.mark.parametrize("planner", PLANNERS)
def test_a_plan_proved_on_smaller_stock_is_worked_at_no_longer_than_one_proved_at_once(planner: Planner) -> None:
    """Sheets are opened in the largest size; that a smaller one holds all is seen before the effort is spent."""
    pieces = (Piece("door", 40, 25, 2), Piece("shelf", 30, 10, 3), Piece("rail", 22, 6, 2))
    small, effort = Stock("small", 90, 60), 100_000
    alone = planner(Job(pieces, (small,), 1), effort)
    chosen = planner(Job(pieces, (Stock("large", 120, 80), small), 1), effort)
    assert alone.proved
    assert chosen.proved
    assert {layout.stock for layout in chosen.layouts} == {"small"}
    assert chosen.work < 2 * alone.work < effort
