"""The most valuable pieces from one sheet: each piece has a value, and no more than its quantity may be cut."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from planbook.cutting.choosing import table_of
from planbook.cutting.corners import best_corners
from planbook.cutting.filling import Node, Sheet
from planbook.cutting.free_filling import FreeSheet
from planbook.cutting.guillotine_search import best_blocks, node_of
from planbook.cutting.model import Job
from planbook.cutting.panels import layout_of
from planbook.cutting.plan import Layout
from planbook.cutting.problem import Problem, pose
from planbook.cutting.spots import free_layout_of

_RASTER = 1_000
"""Sizes of panel each way: a minute's work."""


@dataclass(frozen=True)
class Choice:
    """The layout of the one sheet, its value, a bound on any layout's value, and the work in looks."""

    layout: Layout
    value: int
    bound: int
    work: int

    @property
    def proved(self) -> bool:
        """No layout is worth more."""
        return self.value == self.bound


def choose_sawn(job: Job, values: Sequence[int], effort: int, limited: bool = True) -> Choice | None:
    """With cuts from edge to edge, from the largest stock of the job; unless `limited`, any number of each piece.

    None where nothing fits, or where sums of the pieces have too many values to work out exactly.
    """
    problem, worth = _posed(job, values)
    if not problem.kinds:
        return None
    whole = problem.bins[0]
    size = (whole.length, whole.width)
    table = table_of(size, problem.kinds, worth, _RASTER)
    if table is None:
        return None
    if not limited:
        value = int(table.value[table.at(*size)])
        return _told(problem, table.pattern(*size), value, value, table.work)
    found = best_blocks(table, size, effort)
    return _told(problem, node_of(found.block, size), found.block.value, found.bound, found.work)


def choose_free(job: Job, values: Sequence[int], effort: int) -> Choice | None:
    """Laid anywhere, on the largest stock of the job; None where nothing fits. Without proof the bound is by area."""
    problem, worth = _posed(job, values)
    if not problem.kinds:
        return None
    whole = problem.bins[0]
    found = best_corners((whole.length, whole.width), problem.kinds, worth, effort)
    sheet = FreeSheet(whole)
    for piece in found.lying:
        sheet.lay(piece)
    return Choice(free_layout_of(problem, sheet), found.value, found.bound, found.work)


def _posed(job: Job, values: Sequence[int]) -> tuple[Problem, list[int]]:
    problem, _, _ = pose(job)
    by_key = {piece.key: value for piece, value in zip(job.pieces, values, strict=True)}
    return problem, [by_key[kind.piece.key] for kind in problem.kinds]


def _told(problem: Problem, root: Node, value: int, bound: int, work: int) -> Choice:
    return Choice(layout_of(problem, Sheet(problem.bins[0], root)), value, bound, work)
