"""Dual feasible functions: rescaled sizes of which no more fits in a bin than before.

A function f from sizes in a bin of size C to values in one of size F is dual feasible when sizes that together fit in C
always have values that fit in F. Then, for any two of them, the products of a piece's two values add up to no more than
the bin's in any packing: S. P. Fekete and J. Schepers, "A general framework for bounds for higher-dimensional
orthogonal packing problems", Mathematical Methods of Operations Research 60 (2004) 311-329. The third family is the
stronger form by J. Carlier, F. Clautiaux and A. Moukrim, Computers & Operations Research 34 (2007) 2223-2250.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

_MOST = 48
"""Parameters tried in one family."""
_STAIRS = 12


@dataclass(frozen=True)
class Rescaled:
    """A function with its bin's size and value."""

    value: Callable[[int], int]
    of_bin: int


def rescalings(sizes: Sequence[int], whole: int) -> tuple[Rescaled, ...]:
    """Functions worth trying on these sizes in a bin of size `whole`."""
    half = whole // 2
    small = {size for size in sizes if size <= half}
    rests = {whole - size for size in sizes if half < size < whole}
    edges = _some({*small, *(size + 1 for size in small | rests)} | rests, half)
    return (
        Rescaled(lambda size: size, whole),
        *(_stairs(steps, whole) for steps in range(1, _STAIRS + 1)),
        *(_shelved(edge, whole) for edge in edges),
        *(_divided(edge, whole) for edge in edges),
    )


def _some(edges: set[int], most: int) -> tuple[int, ...]:
    fit = sorted(edge for edge in edges if 0 < edge <= most)
    if len(fit) <= _MOST:
        return tuple(fit)
    return tuple(fit[step * len(fit) // _MOST] for step in range(_MOST))


def _stairs(steps: int, whole: int) -> Rescaled:
    """Fekete and Schepers' u: sizes to the stair below in `steps`, but those that divide the bin evenly as they are."""

    def value(size: int) -> int:
        stairs, rest = divmod((steps + 1) * size, whole)
        return stairs * whole if rest else steps * size

    return Rescaled(value, steps * whole)


def _shelved(edge: int, whole: int) -> Rescaled:
    """Fekete and Schepers' U: below `edge` nothing, and what leaves less than `edge` the whole bin."""

    def value(size: int) -> int:
        if size < edge:
            return 0
        return whole if size > whole - edge else size

    return Rescaled(value, whole)


def _divided(edge: int, whole: int) -> Rescaled:
    """Carlier, Clautiaux and Moukrim's f2: counted in units of `edge`, large sizes by what they leave."""
    units = whole // edge

    def value(size: int) -> int:
        if 2 * size > whole:
            return 2 * (units - (whole - size) // edge)
        return units if 2 * size == whole else 2 * (size // edge)

    return Rescaled(value, 2 * units)
