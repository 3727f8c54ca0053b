"""The cuts of a layout as a builder makes them: numbered, in words, with the lines that each number stands for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from planbook.statement.model import Box, CutLineStated, LayoutStated

_EDGES = {"rip": ("a long edge", "both long edges"), "crosscut": ("an end", "both ends")}


@dataclass(frozen=True, slots=True)
class Numbered:
    """One entry of the order: trims that take as much off both sides are one."""

    number: int
    text: str
    lines: tuple[Box, ...]
    trim: bool


def cut_order(layout: LayoutStated) -> tuple[Numbered, ...]:
    """The order of the cuts; none where a router cuts along the outlines."""

    def alike(place: int) -> object:
        cut = layout.cuts[place]
        return (cut.way, cut.at) if cut.trim else place

    grouped = ([layout.cuts[place] for place in same] for _, same in groupby(range(len(layout.cuts)), alike))
    return tuple(
        Numbered(number, _words(same), tuple(cut.line for cut in same), same[0].trim)
        for number, same in enumerate(grouped, start=1)
    )


def _words(cuts: Sequence[CutLineStated]) -> str:
    """`trim 10 off both ends`, `rip at 302: 12 and offcut`."""
    first = cuts[0]
    if first.trim:
        return f"trim {first.at} off {_EDGES[first.way][len(cuts) > 1]}"
    gives = [name for name in first.gives if name]
    return f"{first.way} at {first.at}" + (f": {' and '.join(gives)}" if gives else "")
