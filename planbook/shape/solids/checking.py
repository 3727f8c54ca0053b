"""Whether a part is still one piece of wood after all its features."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate
from operator import add
from typing import Final

from planbook.shape.bench import Bench
from planbook.shape.geometry import Loop, Vec
from planbook.shape.model import Cut, Part
from planbook.shape.solids.building import cuts_of, pieces_of
from planbook.shape.solids.mesh import Mesh
from planbook.source.text import Text

_THIN: Final = 0.02
"""Millimetres of mean thickness, twice the volume over the area, under which a piece is dust of rounding."""


def check_solid(bench: Bench, part: Part) -> None:
    """Report the feature with which a part comes to nothing, or falls in pieces; nothing for a sound part."""
    if _pieces(part, cuts_of(part)) == 1:
        return
    for name, cuts in _step_by_step(part):
        pieces = _pieces(part, cuts)
        if pieces != 1:
            _report(bench, part, name, pieces)
            return


def _step_by_step(part: Part) -> Sequence[tuple[Text, tuple[Cut, ...]]]:
    """Each feature with all cuts up to it."""
    names = [name for name in part.model.features if name in part.features]
    return list(zip(names, accumulate((part.features[name].cuts for name in names), add), strict=True))


def pieces_left(blank: Vec, outline: Loop, cuts: tuple[Cut, ...]) -> int:
    """In how many pieces the cuts leave a blank with an outline; dust of rounding is none."""
    return sum(_is_wood(piece) for piece in pieces_of(blank, outline, cuts))


def _pieces(part: Part, cuts: tuple[Cut, ...]) -> int:
    return pieces_left(part.blank, part.outline, cuts)


def _is_wood(piece: Mesh) -> bool:
    return 2 * piece.volume > _THIN * piece.area


def _report(bench: Bench, part: Part, name: Text, pieces: int) -> None:
    title = part.title.lower()
    if pieces == 0:
        bench.stop(
            "part-removed",
            name.place,
            f"With `{name}`, the features of {title} leave nothing of it.",
            f"Make `{name}` or the features before it smaller.",
        )
        return
    bench.stop(
        "part-in-pieces",
        name.place,
        f"`{name}` parts {title} in {pieces} pieces.",
        f"Make `{name}` smaller so that wood joins the pieces, or write each piece as a part of its own.",
    )
