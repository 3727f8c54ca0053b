"""Dual feasible functions: rescaled sizes of which no more fits in a bin than before.

A function f from sizes in a bin of size C to values in one of size F is dual feasible when sizes that together fit in C
always have values that fit in F. Then, for any two of them, the products of a piece's two values add up to no more than
the bin's in any packing: S. P. Fekete and J. Schepers, "A general framework for bounds for higher-dimensional
orthogonal packing problems", Mathematical Methods of Operations Research 60 (2004) 311-329. The third family is the
stronger form by J. Carlier, F. Clautiaux and A. Moukrim, Computers & Operations Research 34 (2007) 2223-2250.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

_MOST = 48
"""Parameters tried in one family."""
_STAIRS = 12


Function = Callable[[int], int]
"""From a size to a value; the bin's own value is that of its size."""


def counts(sizes: Sequence[int]) -> tuple[Function, ...]:
    """The size as it is, and how many whole units of each of these sizes go into it.

    Their values for sizes that together fit in a bin add up to no more than the bin's, whatever its size.
    """
    units = _some(set(sizes), max(sizes))
    return (_itself, *(_units(unit) for unit in units))


def rescalings(sizes: Sequence[int], whole: int) -> tuple[Function, ...]:
    """Functions worth trying on these sizes in a bin of size `whole`."""
    half = whole // 2
    small = {size for size in sizes if size <= half}
    rests = {whole - size for size in sizes if half < size < whole}
    edges = _some({*small, *(size + 1 for size in small | rests)} | rests, half)
    return (
        _itself,
        *(_stairs(steps, whole) for steps in range(1, _STAIRS + 1)),
        *(_shelved(edge, whole) for edge in edges),
        *(_divided(edge, whole) for edge in edges),
    )


def _some(edges: set[int], most: int) -> tuple[int, ...]:
    fit = sorted(edge for edge in edges if 0 < edge <= most)
    if len(fit) <= _MOST:
        return tuple(fit)
    return tuple(fit[step * len(fit) // _MOST] for step in range(_MOST))


def _itself(size: int) -> int:
    return size


def _units(unit: int) -> Function:
    return lambda size: size // unit


def _stairs(steps: int, whole: int) -> Function:
    """Fekete and Schepers' u: sizes to the stair below in `steps`, but those that divide the bin evenly as they are."""

    def value(size: int) -> int:
        stairs, rest = divmod((steps + 1) * size, whole)
        return stairs * whole if rest else steps * size

    return value


def _shelved(edge: int, whole: int) -> Function:
    """Fekete and Schepers' U: below `edge` nothing, and what leaves less than `edge` the whole bin."""

    def value(size: int) -> int:
        if size < edge:
            return 0
        return whole if size > whole - edge else size

    return value


def _divided(edge: int, whole: int) -> Function:
    """Carlier, Clautiaux and Moukrim's f2: counted in units of `edge`, large sizes by what they leave."""
    units = whole // edge

    def value(size: int) -> int:
        if 2 * size > whole:
            return 2 * (units - (whole - size) // edge)
        return units if 2 * size == whole else 2 * (size // edge)

    return value
