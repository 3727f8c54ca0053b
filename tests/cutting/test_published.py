"""Published instances: the optimum found, and proved. The slow ones are in benchmarks/cutting.py."""

from __future__ import annotations

import pytest

from planbook.cutting import Choice, Job, Plan, choose_free, choose_sawn, cut_boards, faults_of, nest_sheets
from planbook.cutting.plan import Bound
from tests.cutting.instances import FREE, LENGTHS, SAWN, SAWN_LIMITED, SAWN_TURNED, disc_job, length_job, sheet_job

EFFORT = 10_000_000


@pytest.mark.parametrize(("name", "best"), SAWN.items())
def test_sawn_with_any_number_of_each(name: str, best: int) -> None:
    job, values = sheet_job(name)
    _check(choose_sawn(job, values, EFFORT, limited=False), job, values, best)


@pytest.mark.parametrize(("count", "percent"), [(5, 90), (10, 93), (13, 93), (20, 98), (30, 98)])
def test_discs_nearly_as_large_as_the_best_known_are_nested_and_larger_ones_are_not(count: int, percent: int) -> None:
    job = disc_job(count, percent)
    plan = nest_sheets(job, 1_000_000)
    assert (plan.unplaced, plan.count, faults_of(job, plan)) == ((), 1, ())
    assert nest_sheets(disc_job(count, 101), 100_000).unplaced


@pytest.mark.parametrize(("name", "best"), SAWN_TURNED.items())
def test_sawn_and_turned(name: str, best: int) -> None:
    job, values = sheet_job(name, turnable=True)
    _check(choose_sawn(job, values, EFFORT, limited=False), job, values, best)


@pytest.mark.parametrize(("name", "best"), SAWN_LIMITED.items())
def test_sawn_with_so_many_of_each(name: str, best: int) -> None:
    job, values = sheet_job(name)
    choice = choose_sawn(job, values, EFFORT)
    _check(choice, job, values, best)
    assert choice is not None
    for piece in job.pieces:
        assert sum(each.piece == piece.key for each in choice.layout.placed) <= piece.quantity


@pytest.mark.parametrize(("name", "best"), FREE.items())
def test_laid_freely(name: str, best: int) -> None:
    job, values = sheet_job(name)
    _check(choose_free(job, values, EFFORT), job, values, best)


def _check(choice: Choice | None, job: Job, values: tuple[int, ...], best: int) -> None:
    """The optimum, told as proved, and a layout of that value that keeps every other promise."""
    assert choice is not None
    assert (choice.value, choice.bound, choice.proved) == (best, best, True)
    worth = dict(zip((piece.key for piece in job.pieces), values, strict=True))
    assert sum(worth[each.piece] for each in choice.layout.placed) == best
    plan = Plan((choice.layout,), (), (), Bound(1, 0, "area"), job.stocks[0].area, choice.work)
    assert [fault for fault in faults_of(job, plan) if "instead of" not in fault] == []


@pytest.mark.parametrize("name", LENGTHS)
def test_all_pieces_from_the_fewest_lengths(name: str) -> None:
    job, best = length_job(name)
    plan = cut_boards(job, 2_000_000)
    assert (plan.count, plan.bound.count, plan.unplaced) == (best, best, ())
    assert faults_of(job, plan) == ()


@pytest.mark.parametrize("name", ["C1_1", "C1_3", "C3_1"])
def test_a_sheet_filled_to_the_last(name: str) -> None:
    job, _ = sheet_job(name, turnable=True)
    plan = nest_sheets(job, 4_000_000)
    assert (plan.count, plan.unplaced, plan.layouts[0].offcuts) == (1, (), ())
    assert faults_of(job, plan) == ()
