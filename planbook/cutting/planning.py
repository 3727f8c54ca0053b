"""The three ways of cutting: with a saw from sheets, from boards, and freely with a router."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace

from planbook.cutting.bounds import bound_of
from planbook.cutting.model import Job
from planbook.cutting.nesting import NestedSheet, nest, nested_layout_of
from planbook.cutting.outlines import in_pairs, outlined, placed_counts, shape_bound
from planbook.cutting.panels import layout_of
from planbook.cutting.plan import Bound, Layout, Plan, Unplaced, Why
from planbook.cutting.problem import Problem, pose
from planbook.cutting.search import SheetT
from planbook.cutting.solving import Solved, fits_alone, rout_sheets, saw_boards, saw_sheets
from planbook.cutting.spots import free_layout_of

EFFORT = 10_000_000
"""Looks at a place for a piece: a few seconds on one core."""


def cut_sheets(job: Job, effort: int = EFFORT) -> Plan:
    """For a saw: cuts from edge to edge; fewest sheets, then least area, then the largest offcut."""
    return _planned(job, saw_sheets, layout_of, effort)


def cut_boards(job: Job, effort: int = EFFORT) -> Plan:
    """Crosscut to length from clear wood, the longest first, then ripped; every piece lies along the grain."""
    along = replace(job, pieces=tuple(replace(piece, turnable=False) for piece in job.pieces))
    return _planned(along, saw_boards, layout_of, effort)


def nest_sheets(job: Job, effort: int = EFFORT) -> Plan:
    """For a router: pieces anywhere, the cutter's diameter between them.

    Where pieces have outlines, the best of three plans: of their rectangles, of these and pairs of alike pieces laid
    into one another, and of all true shapes.
    """
    plan = _planned(job, rout_sheets, free_layout_of, effort)
    if all(piece.outline is None for piece in job.pieces):
        return plan
    paired, pairs = in_pairs(job)
    plans = [outlined(job, plan, {})]
    if pairs:
        other = outlined(job, _planned(paired, rout_sheets, free_layout_of, effort), pairs)
        plans.append(replace(other, doubts=plan.doubts))
    plans.append(_nested(job, effort))
    return replace(min(plans, key=_rank), work=sum(each.work for each in plans))


def _nested(job: Job, effort: int) -> Plan:
    """By true shape."""
    bound = shape_bound(job, {piece.key: piece.quantity for piece in job.pieces})

    def solve(problem: Problem, _: Bound, effort: int) -> Solved[NestedSheet]:
        return nest(problem, bound, effort), bound

    plan = _planned(job, solve, nested_layout_of, effort)
    return replace(plan, bound=shape_bound(job, placed_counts(plan.layouts)))


def _rank(plan: Plan) -> tuple[int, int, int, int]:
    """The less the better: pieces left out, sheets, area, and the largest offcut counted against it."""
    left = sum(each.quantity for each in plan.unplaced)
    return left, plan.count, plan.area, -max((o.area for layout in plan.layouts for o in layout.offcuts), default=0)


def _planned(
    job: Job,
    solve: Callable[[Problem, Bound, int], Solved[SheetT]],
    tell: Callable[[Problem, SheetT], Layout],
    effort: int,
) -> Plan:
    problem, unplaced, doubts = pose(job)
    if not problem.units:
        return Plan((), unplaced, doubts, Bound(0, 0, "area"), 0, 0)
    filled, bound = solve(problem, bound_of(problem), effort)
    if filled.left:
        bound = bound_of(problem.without(filled.left))
    layouts = _gathered([tell(problem, sheet) for sheet in filled.sheets], problem)
    return Plan(layouts, (*unplaced, *_left(problem, filled.left)), doubts, bound, filled.area, filled.looks)


def _left(problem: Problem, units: Iterable[tuple[int, ...]]) -> tuple[Unplaced, ...]:
    """Pieces for which there was no room, with the reason."""
    counts: dict[tuple[str, Why], int] = {}
    for unit in units:
        why = Why.USED_UP if len(unit) == 1 or fits_alone(problem, unit) else Why.GROUP_TOO_LARGE
        for index in unit:
            key = problem.kinds[index].piece.key, why
            counts[key] = counts.get(key, 0) + 1
    return tuple(Unplaced(key, count, why) for (key, why), count in counts.items())


def _gathered(layouts: Sequence[Layout], problem: Problem) -> tuple[Layout, ...]:
    """Sheets cut alike told once; those that hold a group stand alone."""
    grouped = {kind.piece.key for kind in problem.kinds if kind.piece.group is not None}
    times: dict[Layout, int] = {}
    alone: list[Layout] = []
    for layout in layouts:
        if any(each.piece in grouped for each in layout.placed):
            alone.append(layout)
        else:
            times[layout] = times.get(layout, 0) + 1
    return (*alone, *(replace(layout, times=count) for layout, count in times.items()))
