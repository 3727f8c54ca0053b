"""The upper border of what is already laid: stretches of one height, from left to right, as (length, height)."""

from __future__ import annotations

from collections.abc import Sequence

Skyline = tuple[tuple[int, int], ...]


def lowest(sky: Sequence[tuple[int, int]]) -> int:
    """The lowest stretch, of several the first."""
    best = 0
    for at, (_, height) in enumerate(sky):
        if height < sky[best][1]:
            best = at
    return best


def beside(sky: Sequence[tuple[int, int]], at: int, top: int) -> tuple[int, int]:
    """Heights to the left and right of a stretch; the border of the sheet is as high as its `top`."""
    return (sky[at - 1][1] if at else top, sky[at + 1][1] if at + 1 < len(sky) else top)


def replaced(sky: Skyline, at: int, stretches: Sequence[tuple[int, int]]) -> Skyline:
    """With others in the place of one stretch; neighbours of one height become one."""
    new = list(sky[:at])
    for stretch in (*stretches, *sky[at + 1 : at + 2]):
        if not stretch[0]:
            continue
        if new and new[-1][1] == stretch[1]:
            new[-1] = (new[-1][0] + stretch[0], stretch[1])
        else:
            new.append(stretch)
    return (*new, *sky[at + 2 :])


def start_of(sky: Sequence[tuple[int, int]], at: int) -> int:
    """Where a stretch begins."""
    return sum(length for length, _ in sky[:at])
