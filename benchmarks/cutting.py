"""Published cutting and packing instances, with their optima, and a general packing library in the same run.

    python benchmarks/cutting.py [NAME ...]

Each instance first as it is published: value or sheets, against optimum and bound. Then the library's problem: the area
laid on one sheet, or the sheets for all pieces; ours beside the best of all its algorithms and orders. Last, jobs as
a workshop has them, with kerf. Seconds are CPU seconds of one core; work, in looks, is the same on any machine.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import product
from random import Random

import rectpack
from rectpack import PackingMode

from planbook.cutting import (
    Choice,
    Job,
    Piece,
    Plan,
    Stock,
    choose_free,
    choose_sawn,
    cut_boards,
    cut_sheets,
    faults_of,
    nest_sheets,
)
from tests.cutting.instances import (
    DISCS,
    FREE,
    LENGTHS,
    PERFECT,
    SAWN,
    SAWN_LIMITED,
    SAWN_TURNED,
    disc_job,
    length_job,
    sheet_job,
)

EFFORT = 40_000_000
LIMIT = 20.0
"""Seconds that an instance may take."""
MILLIMETRE = 1_000_000
ORDERS = (rectpack.SORT_AREA, rectpack.SORT_LSIDE, rectpack.SORT_SSIDE)
FREE_WAYS = tuple(getattr(rectpack, name) for name in dir(rectpack) if name.startswith(("MaxRects", "Skyline")))
SAWN_WAYS = tuple(getattr(rectpack, name) for name in dir(rectpack) if name.startswith("Guillotine"))


@dataclass(frozen=True)
class Line:
    problem: str
    result: int
    optimum: int | None
    bound: int
    work: int


@dataclass(frozen=True)
class Beside:
    """The same measure, ours and the library's; whether more is better."""

    measure: str
    ours: int
    theirs: int

    @property
    def behind(self) -> bool:
        return self.ours < self.theirs if self.measure == "area" else self.ours > self.theirs


def main() -> None:
    print(f"{'':12}{'problem':32}{'result':>8}{'optimum':>9}{'bound':>8}{'seconds':>9}{'work':>11}   rectpack")
    faults = 0
    for name, run, other in instances():
        if sys.argv[1:] and not any(name.startswith(each) for each in sys.argv[1:]):
            continue
        start = time.process_time()
        line = run()
        seconds = time.process_time() - start
        beside = other() if other else None
        notes = [
            f"{beside.measure} {beside.ours} to {beside.theirs}" if beside else "",
            "BEHIND" if beside and beside.behind else "",
            "LATE" if seconds > LIMIT else "",
            "NOT THE OPTIMUM" if line.optimum not in (None, line.result) else "",
        ]
        faults += any(notes[1:])
        numbers = f"{line.result:8}{line.optimum or '':>9}{line.bound:8}{seconds:9.2f}{line.work:11}"
        print(f"{name:12}{line.problem:32}{numbers}   {'  '.join(note for note in notes if note)}", flush=True)
    print(f"{faults} behind, late or short of the optimum")


Instance = tuple[str, Callable[[], Line], Callable[[], Beside] | None]


def instances() -> Iterator[Instance]:
    for name, best in SAWN_LIMITED.items():
        yield name, partial(one_sheet, name, best, limited=True), partial(area_beside, name, SAWN_WAYS, 1)
    for name, best in SAWN.items():
        yield name, partial(one_sheet, name, best), partial(area_beside, name, SAWN_WAYS, 0)
    for name, best in SAWN_TURNED.items():
        yield (
            name,
            partial(one_sheet, name, best, turnable=True),
            partial(area_beside, name, SAWN_WAYS, 0, turnable=True),
        )
    for name, best in FREE.items():
        yield name, partial(one_sheet_freely, name, best), partial(area_beside, name, FREE_WAYS, 1)
    for name in PERFECT:
        job, _ = sheet_job(name, turnable=True)
        yield name, partial(all_pieces, job, nest_sheets, "all on one sheet", 1), partial(sheets_beside, job, FREE_WAYS)
    for name in LENGTHS:
        job, best = length_job(name)
        yield name, partial(all_pieces, job, cut_boards, "all from lengths", best), None
    for count in DISCS:
        yield f"discs{count}", partial(largest_discs, count), None
    for count, seed in product((12, 24, 48), (1, 2, 3)):
        job = workshop(count, seed)
        name = f"job{count}.{seed}"
        yield name, partial(all_pieces, job, cut_sheets, "sheets for a saw"), partial(sheets_beside, job, SAWN_WAYS)
        yield name, partial(all_pieces, job, nest_sheets, "sheets for a router"), partial(sheets_beside, job, FREE_WAYS)


def one_sheet(name: str, best: int, limited: bool = False, turnable: bool = False) -> Line:
    job, values = sheet_job(name, turnable)
    choice = choose_sawn(job, values, EFFORT, limited)
    assert choice is not None
    words = f"sawn, {'so many' if limited else 'any number'}{', turned' if turnable else ''}"
    return Line(words, choice.value, best, choice.bound, choice.work)


def one_sheet_freely(name: str, best: int) -> Line:
    job, values = sheet_job(name)
    choice = choose_free(job, values, EFFORT)
    assert choice is not None
    return Line("free, so many", choice.value, best, choice.bound, choice.work)


def largest_discs(count: int) -> Line:
    """In percent of the greatest radius known, the largest discs of which all are nested on the square."""
    work = 0
    for percent in range(100, 0, -1):
        job = disc_job(count, percent)
        plan = nest_sheets(job, EFFORT // 40)
        assert faults_of(job, plan) == ()
        work += plan.work
        if not plan.unplaced:
            return Line("discs by true shape, percent", percent, None, 100, work)
    raise AssertionError


Planner = Callable[[Job, int], Plan]


def all_pieces(job: Job, planner: Planner, words: str, best: int | None = None) -> Line:
    plan = planner(job, EFFORT)
    assert faults_of(job, plan) == ()
    return Line(words, plan.count, best, plan.bound.count, plan.work)


def area_beside(name: str, ways: Sequence[type], most: int, turnable: bool = False) -> Beside:
    """The area laid on one sheet; of each piece as many as fit, or its quantity."""
    job, _ = sheet_job(name, turnable)
    stock = job.stocks[0]
    areas = [piece.area for piece in job.pieces]
    choice: Choice | None
    if ways is FREE_WAYS:
        choice = choose_free(job, areas, EFFORT)
    else:
        choice = choose_sawn(job, areas, EFFORT, limited=bool(most))
    assert choice is not None
    if not most:
        job = replace(job, pieces=tuple(replace(each, quantity=stock.area // each.area) for each in job.pieces))
    return Beside("area", choice.value, max(laid for _, laid in packed(job, ways, turnable, sheets=1)))


def sheets_beside(job: Job, ways: Sequence[type]) -> Beside:
    """Sheets for all pieces. The library turns all pieces or none, so none unless all may be turned."""
    turnable = all(piece.turnable or piece.length == piece.width for piece in job.pieces)
    total = sum(piece.quantity for piece in job.pieces)
    planner = cut_sheets if ways is SAWN_WAYS else nest_sheets
    theirs = min(len(counts) for counts, _ in packed(job, ways, turnable, sheets=total) if sum(counts) == total)
    return Beside("sheets", planner(job, EFFORT).count, theirs)


def packed(job: Job, ways: Sequence[type], turnable: bool, sheets: int) -> Iterator[tuple[list[int], int]]:
    """By every algorithm and order: pieces on each sheet, and the area laid."""
    stock = job.stocks[0]
    for way, order in product(ways, ORDERS):
        packer = rectpack.newPacker(mode=PackingMode.Offline, pack_algo=way, sort_algo=order, rotation=turnable)
        for piece in job.pieces:
            for _ in range(piece.quantity):
                packer.add_rect(piece.length + job.kerf, piece.width + job.kerf)
        packer.add_bin(stock.clear_length + job.kerf, stock.clear_width + job.kerf, count=sheets)
        packer.pack()
        yield [len(sheet) for sheet in packer], sum(each.width * each.height for sheet in packer for each in sheet)


def workshop(count: int, seed: int) -> Job:
    """Parts of cabinets from sheets of 2440 by 1220 mm with a kerf of 3.2 mm; sizes to the half millimetre."""
    random = Random(seed)

    def size(least: int, most: int) -> int:
        return int(2 * least + random.random() * 2 * (most - least)) * MILLIMETRE // 2

    turnable = seed == 3
    pieces = tuple(
        Piece(f"part {at}", size(200, 1100), size(80, 600), 1 + int(random.random() * 4), turnable)
        for at in range(1, count + 1)
    )
    return Job(pieces, (Stock("sheet", 2440 * MILLIMETRE, 1220 * MILLIMETRE),), 3_200_000)


if __name__ == "__main__":
    main()
