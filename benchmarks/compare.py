"""What comparing two versions costs: changes and impact of sets of growing size, beside a general structural diff.

    python benchmarks/compare.py

The parts are those of the desk's first release, over and over under other names; in the second version one part in ten
prints one number otherwise. Prints CPU seconds on one core, and ratios to deepdiff on the same two statements, so that
runs on different machines can be compared. deepdiff says where two trees differ, and nothing of what that means.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from dataclasses import asdict, replace
from itertools import cycle, islice
from pathlib import Path

from deepdiff import DeepDiff

from planbook.impact import weigh
from planbook.shape.solids import building
from planbook.statement import compare, read_statement
from planbook.statement.model import DimensionStated, Statement

RELEASE = Path(__file__).parents[1] / "versions/sewing-desk/1.0/metric/statement.json"
SIZES = (125, 250, 500, 1000)
AIM = 2.0
"""CPU seconds for 500 parts."""
CHANGED = 10
"""One part in so many is told otherwise."""
OFF = 2e6
"""Nanometres by which its number is another."""


def main() -> None:
    print("parts  dimensions  compare  impact  together  deepdiff  ratio")
    for size in SIZES:
        old = enlarged(read_statement(RELEASE.read_bytes()), size)
        new = changed(old)
        comparison = compare(old, new)
        telling = seconds(lambda old=old, new=new: compare(old, new))
        weighing = seconds(lambda comparison=comparison: weigh(comparison))
        trees = asdict(old), asdict(new)
        general = seconds(lambda trees=trees: DeepDiff(*trees))
        both = telling + weighing
        aim = f"   (aim: at most {AIM:.0f} s)" if size == 500 else ""
        print(
            f"{size:5}  {len(old.dimensions):10}  {telling:7.2f}  {weighing:6.2f}  {both:8.2f}  {general:8.2f}  "
            f"{both / general:5.2f}{aim}"
        )


def enlarged(statement: Statement, size: int) -> Statement:
    """The same with so many parts."""
    names = list(islice(((key, n // len(statement.parts)) for n, key in enumerate(cycle(statement.parts))), size))
    parts = {
        f"{key}_{copy}": replace(statement.parts[key], key=f"{key}_{copy}", number=number)
        for number, (key, copy) in enumerate(names, start=1)
    }
    by_part: dict[str, list[DimensionStated]] = {}
    for each in statement.dimensions.values():
        by_part.setdefault(each.part, []).append(each)
    dimensions = {each.id: each for key, copy in names for each in copies(by_part.get(key, []), f"{key}_{copy}")}
    return replace(statement, parts=parts, dimensions=dimensions, sheets={})


def copies(dimensions: list[DimensionStated], part: str) -> Iterator[DimensionStated]:
    for each in dimensions:
        yield replace(each, id=f"{part}/{each.id.partition('/')[2]}", part=part)


def changed(statement: Statement) -> Statement:
    """The same with another number on one sheet in ten: of its part's last feature, a place or a size."""
    last = {each.part: each for each in statement.dimensions.values() if each.kind == "linear" and not each.reference}
    chosen = [last[key] for key in islice(statement.parts, 0, None, CHANGED) if key in last]
    others = {
        each.id: replace(each, printed=replace(each.printed, text="x", value=each.printed.value + OFF))
        for each in chosen
    }
    return replace(statement, dimensions=statement.dimensions | others)


def seconds(work: Callable[[], object]) -> float:
    """CPU time of one run, with no solid remembered."""
    for remembered in (building.pieces_of, building.mesh_of_cuts, building._carve):
        remembered.cache_clear()
    start = time.process_time()
    work()
    return time.process_time() - start


if __name__ == "__main__":
    main()
