"""Bad jobs have answers, not exceptions; and what cannot be is told with its reason."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from random import Random

import pytest

from planbook.cutting import (
    Doubt,
    Doubtful,
    Job,
    Piece,
    Plan,
    Rectangle,
    Stock,
    Unplaced,
    Why,
    choose_free,
    choose_sawn,
    cut_boards,
    cut_sheets,
    faults_of,
    list_steps,
    nest_sheets,
    replay,
    whole_piece,
    whole_stock,
)

PLANNERS = tuple(partial(planner, effort=5_000) for planner in (cut_sheets, cut_boards, nest_sheets))
Planner = Callable[[Job], Plan]
SHEET = Stock("sheet", 2440, 1220, end_trim=5, edge_trim=5)
SHELF = Piece("shelf", 600, 300, 4)


@pytest.mark.parametrize("planner", PLANNERS)
class TestOutcomes:
    def test_nothing_to_cut(self, planner: Planner) -> None:
        plan = planner(Job((), (SHEET,), 3))
        assert (plan.count, plan.unplaced, plan.doubts) == (0, (), ())
        assert plan.proved
        assert plan.proved_area

    def test_no_stock(self, planner: Planner) -> None:
        assert planner(Job((SHELF,), (), 3)).unplaced == (Unplaced("shelf", 4, Why.NO_STOCK),)

    def test_trim_that_leaves_nothing(self, planner: Planner) -> None:
        stock = replace(SHEET, edge_trim=610)
        assert planner(Job((SHELF,), (stock,), 3)).unplaced == (Unplaced("shelf", 4, Why.NO_STOCK),)

    def test_a_piece_larger_than_any_stock(self, planner: Planner) -> None:
        job = Job((SHELF, Piece("long", 2440, 200)), (SHEET,), 3)
        plan = planner(job)
        assert plan.unplaced == (Unplaced("long", 1, Why.TOO_LARGE),)
        assert plan.count == 1
        assert faults_of(job, plan) == ()

    def test_a_piece_that_would_fit_only_across_the_grain(self, planner: Planner) -> None:
        plan = planner(Job((Piece("door", 1200, 2000),), (SHEET,), 3))
        assert plan.unplaced == (Unplaced("door", 1, Why.TOO_LARGE),)

    def test_stock_used_up(self, planner: Planner) -> None:
        job = Job((Piece("top", 2000, 1000, 3),), (replace(SHEET, available=2),), 3)
        plan = planner(job)
        assert plan.unplaced == (Unplaced("top", 1, Why.USED_UP),)
        assert (plan.count, plan.proved) == (2, True)
        assert faults_of(job, plan) == ()

    def test_a_group_too_large_for_one_sheet(self, planner: Planner) -> None:
        plan = planner(Job((replace(SHELF, length=2000, width=700, group="grain"),), (SHEET,), 3))
        assert plan.unplaced == (Unplaced("shelf", 4, Why.GROUP_TOO_LARGE),)

    def test_a_group_too_large_where_stock_is_short_too(self, planner: Planner) -> None:
        pieces = (replace(SHELF, length=2000, width=700, group="grain"), Piece("top", 2000, 1000, 2))
        plan = planner(Job(pieces, (replace(SHEET, available=1),), 3))
        assert plan.unplaced == (
            Unplaced("shelf", 4, Why.GROUP_TOO_LARGE),
            Unplaced("top", 1, Why.USED_UP),
        )

    def test_a_group_stays_on_one_sheet(self, planner: Planner) -> None:
        pieces = (Piece("side", 1200, 600, 5), Piece("front", 800, 200, 4, group="fronts"))
        job = Job(pieces, (SHEET,), 3)
        plan = planner(job)
        assert faults_of(job, plan) == ()
        assert sum(any(each.piece == "front" for each in layout.placed) for layout in plan.layouts) == 1

    def test_no_kerf(self, planner: Planner) -> None:
        assert planner(Job((SHELF,), (SHEET,), 0)).doubts == (Doubtful(Doubt.NO_KERF),)

    def test_kerf_wider_than_a_piece(self, planner: Planner) -> None:
        job = Job((SHELF, Piece("strip", 600, 2)), (SHEET,), 3)
        plan = planner(job)
        assert plan.doubts == (Doubtful(Doubt.KERF_OVER_PIECE, "strip"),)
        assert faults_of(job, plan) == ()

    def test_kerf_larger_than_the_sheet(self, planner: Planner) -> None:
        plan = planner(Job((SHELF,), (SHEET,), 5000))
        assert (plan.count, plan.unplaced) == (4, ())

    def test_a_piece_without_a_size(self, planner: Planner) -> None:
        assert planner(Job((Piece("thin", 600, 0),), (SHEET,), 3)).unplaced == (Unplaced("thin", 1, Why.NO_SIZE),)


def test_fewest_sheets_first_then_the_least_area() -> None:
    sizes = (Stock("full", 2440, 1220), Stock("half", 1220, 1220), Stock("quarter", 1220, 610))
    job = Job((Piece("top", 1200, 600, 3),), sizes, 3)
    plan = cut_sheets(job, 100_000)
    assert [layout.stock for layout in plan.layouts] == ["full"]
    plan = cut_sheets(replace(job, pieces=(Piece("top", 1200, 600, 5),)), 100_000)
    assert sorted(layout.stock for layout in plan.layouts) == ["full", "quarter"]


def test_of_sizes_with_the_same_area_that_with_the_larger_offcut_is_opened() -> None:
    """Four legs side by side on the wide board, and no plan can do with one."""
    legs, feet = Piece("leg", 28_875, 3_000, 4), Piece("foot", 22_750, 3_000, 2)
    boards = Stock("long", 96_000, 6_000, end_trim=1_500), Stock("wide", 72_000, 8_000, end_trim=1_500)
    plan = cut_boards(Job((legs, feet), boards, 125), 400_000)
    assert (plan.count, plan.bound.count, plan.bound.by) == (2, 2, "counted sizes")
    assert max(each.area for layout in plan.layouts for each in layout.offcuts) > 40_000 * 6_000


def test_pieces_are_crowded_no_nearer_to_the_offcut_than_they_reach() -> None:
    """Found by halving: the first cut is at the pieces all the same, and no sliver is left beside them."""
    pieces = Piece("a", 213, 46), Piece("b", 266, 36, 2), Piece("c", 150, 42)
    plan = cut_boards(Job(pieces, (Stock("board", 2400, 150, end_trim=40),), 3), 400_000)
    (layout,) = plan.layouts
    offcut = max(layout.offcuts, key=lambda each: each.area)
    assert offcut == Rectangle(40 + 266 + 3 + 150 + 3, 0, 2360 - 462, 150)


def test_pieces_that_fill_the_sheet_exactly() -> None:
    piece = Piece("quarter", 1205, 605, 4)
    plan = cut_sheets(Job((piece,), (Stock("sheet", 2413, 1213),), 3), 100_000)
    assert (plan.count, plan.layouts[0].offcuts) == (1, ())
    assert cut_sheets(Job((piece,), (Stock("sheet", 2412, 1213),), 3)).count == 2


def test_a_replayed_cut_outside_the_panel_is_refused() -> None:
    job = Job((SHELF,), (SHEET,), 3)
    steps = list_steps(cut_sheets(job, 100_000).layouts[0], SHEET)
    assert [step.trim for step in steps[:5]] == [True, True, True, True, False]
    with pytest.raises(ValueError, match="is not there"):
        replay(steps[1:], SHEET, 3)
    with pytest.raises(ValueError, match="cannot be cut"):
        replay((*steps[:4], replace(steps[4], at=5000)), SHEET, 3)


def test_faults_are_seen() -> None:
    job = Job((SHELF,), (SHEET,), 3)
    plan = cut_sheets(job, 100_000)
    layout = plan.layouts[0]
    moved = replace(layout.placed[0], place=layout.placed[1].place)
    for broken in (
        replace(layout, placed=layout.placed[1:]),
        replace(layout, placed=(moved, *layout.placed[1:])),
        replace(layout, times=2),
        replace(layout, offcuts=()),
    ):
        assert faults_of(job, replace(plan, layouts=(broken,)))


def test_too_much_for_an_exact_choice_is_answered_all_the_same() -> None:
    random = Random(1)
    many = tuple(Piece(f"p{at}", 200_000_000 + int(9e8 * random.random()), 90_000_000 + at) for at in range(60))
    job = Job((*many, Piece("chip", 3_000_000, 3_000_000, 2000)), (Stock("sheet", 2_440_000_000, 1_220_000_000),), 3)
    values = [piece.area for piece in job.pieces]
    choice = choose_free(job, values, 100_000)
    assert choice is not None
    assert 0 < choice.value < choice.bound
    assert choose_sawn(job, values, 100_000) is None


def test_the_grid_is_never_optimistic() -> None:
    assert (whole_piece(396_875.0), whole_stock(396_875.0)) == (396_875, 396_875)
    assert (whole_piece(198_437.5), whole_stock(198_437.5)) == (198_438, 198_437)
