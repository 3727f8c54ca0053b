"""Where rules and orders need a sheet more than the bound, room is made for its pieces on the others."""

from __future__ import annotations

from random import Random

import pytest

from planbook.cutting import Job, Piece, Stock, cut_sheets, faults_of
from planbook.cutting.bounds import bound_of
from planbook.cutting.filling import Fit, Parting, Rule, fill
from planbook.cutting.problem import pose
from planbook.cutting.ruin import make_room
from planbook.cutting.search import Search

RULES = [Rule(fit, parting) for fit in Fit for parting in Parting]


def parts(seed: int, group: str | None = None) -> Job:
    random = Random(seed)
    pieces = tuple(
        Piece(
            f"p{at}",
            200 + int(900 * random.random()),
            80 + int(520 * random.random()),
            1 + int(3 * random.random()),
            group=group if at < 2 else None,
        )
        for at in range(16)
    )
    return Job(pieces, (Stock("sheet", 2440, 1220),), 3)


@pytest.mark.parametrize(("seed", "group"), [(31, None), (24, "front")])
def test_a_sheet_fewer(seed: int, group: str | None) -> None:
    job = parts(seed, group)
    problem, _, _ = pose(job)
    bound = bound_of(problem)
    search = Search(problem, fill, RULES, bound, 10_000_000)
    search.run(100_000)
    assert len(search.best.sheets) == bound.count + 1
    make_room(search, 4_000_000, across_only=False)
    assert len(search.best.sheets) == bound.count
    plan = cut_sheets(job, 2_000_000)
    assert faults_of(job, plan) == ()
    assert plan.count - bound.count <= 1
