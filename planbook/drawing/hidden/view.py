"""From a scene to its lines."""

from __future__ import annotations

from collections.abc import Collection

from planbook.drawing.hidden.chaining import chained
from planbook.drawing.hidden.merging import merged
from planbook.drawing.hidden.model import Chain
from planbook.drawing.hidden.pieces import pieces_of
from planbook.drawing.hidden.scene import Scene


def lines_of(scene: Scene, foremost: Collection[str] = (), hidden: Collection[str] = ()) -> tuple[Chain, ...]:
    """The lines that are seen of a scene, and the hidden ones of components in `hidden`; each place is drawn once.

    Where lines of a component in `foremost` and of another run together, the former's is kept.
    """
    pieces = pieces_of(scene, _numbers(scene, hidden))
    return chained(merged(pieces, _numbers(scene, foremost)), scene.names)


def _numbers(scene: Scene, names: Collection[str]) -> frozenset[int]:
    return frozenset(number for number, name in enumerate(scene.names) if name in names)
