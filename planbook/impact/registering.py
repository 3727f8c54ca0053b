"""Where an old piece lies best in the new shape: as it was measured, or moved as a whole against its datum."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import product

from planbook.dimension.completeness.record import Made, Shape
from planbook.impact.lying import can_lie
from planbook.impact.model import Triple
from planbook.impact.sheets import Sheet
from planbook.impact.wood import Piece, outside

STAY: Triple = (0.0, 0.0, 0.0)
_MM = 1e-6


@dataclass(frozen=True, slots=True)
class Registration:
    """How far the old piece is shifted, and the wood that it then lacks."""

    shift: Triple
    lacks: tuple[Piece, ...]

    @property
    def volume(self) -> float:
        """Of what is lacking, in cubic millimetres."""
        return sum(piece.volume for piece in self.lacks)


def registrations(old: Sheet, new: Sheet, thicker: float) -> Iterator[Registration]:
    """As it was measured, and moved as a whole, where no pieces thicker than so are lacking."""
    yield from _whole(old, new, thicker, (STAY, *_shifts(old.printed, new.printed, thicker)))


def shifted(old: Sheet, new: Sheet, thicker: float) -> Registration | None:
    """Moved as a whole, no further than it must be, so that no pieces thicker than so are lacking."""
    whole = _whole(old, new, thicker, _shifts(old.printed, new.printed, thicker))
    return min(whole, key=lambda each: sum(map(abs, each.shift)), default=None)


def _whole(old: Sheet, new: Sheet, thicker: float, shifts: Iterable[Triple]) -> Iterator[Registration]:
    for shift in shifts:
        if can_lie(old.printed, new.printed, shift, thicker):
            found = registered(old, new, shift, thicker)
            if not found.lacks:
                yield found


def registered(old: Sheet, new: Sheet, shift: Triple, thicker: float) -> Registration:
    """The old piece moved so far."""
    x, y, z = shift
    return Registration(shift, outside(new.printed, old.printed, thicker, moved=(-x, -y, -z)))


def _shifts(old: Shape, new: Shape, least: float) -> list[Triple]:
    """Along each axis what half of the features or more moved by, what the blank is shorter by, and nothing.

    What moved by no more than `least`, the general tolerance in millimetres, may just be made so: it was not moved.
    """
    axes = [_along(old, new, axis, least) for axis in range(3)]
    found: dict[Triple, None] = dict.fromkeys((x, y, z) for x, y, z in product(*axes))
    return [shift for shift in found if shift != STAY]


def _along(old: Shape, new: Shape, axis: int, least: float) -> list[float]:
    moved: Counter[float] = Counter()
    for name, feature in new.features.items():
        if name in old.features and feature.cuts and old.features[name].cuts:
            moved[_rounded(_start(feature, axis) - _start(old.features[name], axis))] += 1
    shorter = min(0.0, _rounded(new.size[axis] - old.size[axis]))
    often = [shift for shift, count in moved.items() if 2 * count >= moved.total()]
    return list(dict.fromkeys(shift if abs(shift) > least else 0.0 for shift in (0.0, *often, shorter)))


def _rounded(nanometres: float) -> float:
    return round(nanometres * _MM, 3)


def _start(feature: Made, axis: int) -> float:
    cut = feature.cuts[0]
    return cut.frame.place(cut.loop[0].centre or cut.loop[0].start)[axis]
