"""From a scene to its lines."""

from __future__ import annotations

from collections.abc import Collection

from planbook.drawing.hidden.chaining import chained
from planbook.drawing.hidden.merging import merged
from planbook.drawing.hidden.model import Chain
from planbook.drawing.hidden.pieces import pieces_of
from planbook.drawing.hidden.scene import Scene


def lines_of(scene: Scene, foremost: Collection[str] = ()) -> tuple[Chain, ...]:
    """All lines of a scene as polylines, seen and hidden, each place drawn once.

    Where lines of a component in `foremost` and of another run together, the former's is kept.
    """
    numbers = frozenset(number for number, name in enumerate(scene.names) if name in foremost)
    return chained(merged(pieces_of(scene), numbers), scene.names)
