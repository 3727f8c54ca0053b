"""The distances by which joined pages are proved: printed dimensions whose two ends lie on different pages."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from planbook.drawing.curves import XY
from planbook.drawing.flat import left_out
from planbook.drawing.fullsize.tiling import Tiling
from planbook.drawing.wording import dimension_text
from planbook.statement.model import DimensionStated, Statement

MM: Final = 1e-6
_WHOLE: Final = {"length": "whole length", "width": "whole width"}
_BORDERS: Final = {"x": "from the left end", "y": "from the front edge"}
_ALONG: Final = {"x": "along", "y": "across"}
_SAME: Final = 0.002
"""Millimetres within which two places are one; nothing that is printed is as fine."""


@dataclass(frozen=True, slots=True)
class Spacing:
    """What is measured, the measure as printed, and the pages that it runs between."""

    what: str
    text: str
    pages: str
    length: float
    """Millimetres."""


def key_spacings(statement: Statement, part: str, tiling: Tiling) -> tuple[Spacing, ...]:
    """The linear dimensions of the face view that cross a seam, longest first."""
    hidden = left_out(statement.parts[part])
    mine = (each for each in statement.dimensions.values() if each.part == part and each.feature not in hidden)
    found = (_spacing(each, tiling) for each in mine if _is_flat(each))
    return tuple(sorted(_crossing(found), key=lambda spacing: -spacing.length))


def _crossing(spacings: Iterator[Spacing | None]) -> Iterator[Spacing]:
    yield from (spacing for spacing in spacings if spacing is not None)


def _is_flat(dimension: DimensionStated) -> bool:
    return dimension.kind == "linear" and len(dimension.points) > 1 and dimension.axis in _ALONG


def _spacing(dimension: DimensionStated, tiling: Tiling) -> Spacing | None:
    first, second = (XY(p[0] * MM, p[1] * MM) for p in dimension.points[:2])
    here, there = tiling.tile_at(first), tiling.tile_at(second)
    if here == there:
        return None
    text = dimension_text(dimension, with_count=False)
    return Spacing(_words(dimension, first), text, f"{here.name} to {there.name}", dimension.nominal * MM)


def _words(dimension: DimensionStated, first: XY) -> str:
    """`left ramp foot, from the left end`."""
    if dimension.feature == "blank":
        return _WHOLE.get(dimension.characteristic, dimension.characteristic)
    feature = dimension.feature.removeprefix("outline.").replace("_", " ")
    characteristic = dimension.characteristic.replace("_", " ")
    if dimension.characteristic not in _BORDERS:
        return f"{feature}, {characteristic}"
    at_border = abs(first.x if dimension.axis == "x" else first.y) < _SAME
    return f"{feature}, {(_BORDERS if at_border else _ALONG)[dimension.axis]}"
