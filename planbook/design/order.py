"""The order in which definitions can be evaluated, and the circles that have none."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from graphlib import CycleError, TopologicalSorter


def order(needs: Mapping[str, Sequence[str]]) -> tuple[tuple[str, ...], tuple[tuple[str, ...], ...]]:
    """Names so that each stands after what it needs, and the circles: each name needs the next, the last the first.

    The names of a circle stand in the order too, as if they needed nothing. No recursion, whatever the depth.
    """
    open_needs = dict(needs)
    rank = {name: position for position, name in enumerate(needs)}
    circles: list[tuple[str, ...]] = []
    while True:
        try:
            return tuple(TopologicalSorter(open_needs).static_order()), tuple(circles)
        except CycleError as error:
            ring: list[str] = error.args[1]
            circle = _from_first(ring[:0:-1], rank)
            circles.append(circle)
            open_needs |= dict.fromkeys(circle, ())


def _from_first(ring: list[str], rank: Mapping[str, int]) -> tuple[str, ...]:
    """The same circle, begun with the name that was defined first."""
    start = min(range(len(ring)), key=lambda position: rank[ring[position]])
    return tuple(ring[start:] + ring[:start])
