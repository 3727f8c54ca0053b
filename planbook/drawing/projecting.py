"""Where the projection method has each view, and whether views placed on a page stand so (ISO 5456-2).

A view that does not says "view moved" under its name, and no end stands where the other one belongs.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from planbook.drawing.block import Block
from planbook.drawing.footprint import Footprint
from planbook.drawing.ink import Box, shifted
from planbook.drawing.recording import Primitive, Pt, Shown

ENDS: Final = ("right_end", "left_end")
_ALIGNED: Final = 0.5
"""Zeros of two views no farther apart (mm) stand in one line."""

# Column and row of each view round the face view, for third angle; first angle is turned about.
_CELLS: Final = {
    "face": (0, 0),
    "right_end": (1, 0),
    "left_end": (-1, 0),
    "front_edge": (0, 1),
    "rear_edge": (0, -1),
    "back": (2, 0),
}


@dataclass(frozen=True, slots=True)
class Placed:
    """A block and where its zero stands on the sheet."""

    block: Block
    x: float
    y: float

    @property
    def box(self) -> Box:
        """On the sheet."""
        return self.block.box.moved(self.x, self.y)

    @property
    def ink(self) -> Footprint:
        """What it takes up on the sheet."""
        return self.block.ink.moved(self.x, self.y)

    @property
    def primitives(self) -> tuple[Primitive, ...]:
        """Drawn on the sheet."""
        return tuple(shifted(primitive, self.x, self.y) for primitive in self.block.primitives)

    @property
    def shown(self) -> Shown:
        """The record of it on the sheet."""
        view = self.block.view
        holds = view.detail.ids if view.detail else frozenset()
        return Shown(view.name, view.facing, self.block.scale.factor, Pt(self.x, self.y), holds)

    @property
    def view_box(self) -> Box:
        """The view itself on the sheet."""
        return self.block.view_box.moved(self.x, self.y)


def cells_by_method(projection: str) -> Mapping[str, tuple[int, int]]:
    """Column and row of each view, the face at (0, 0)."""
    if projection == "third_angle":
        return _CELLS
    return {name: (-c if name != "back" else c, -r) for name, (c, r) in _CELLS.items()}


def stands_freely(name: str) -> bool:
    """Whether the method has no place for a view."""
    return name not in _CELLS


def _about_back(projection: str) -> Mapping[str, tuple[int, int]]:
    """Where the ends stand about the back view."""
    side = -1 if projection == "third_angle" else 1
    return {"right_end": (side, 0), "left_end": (-side, 0)}


def moved_views(placed: Sequence[Placed], projection: str) -> frozenset[str]:
    """Views that do not stand where the method has them about the face; about the back on a page without face.

    Sections may stand anywhere: their letters say where they belong.
    """
    by_name = {each.block.name: each for each in placed if each.block.view.section is None}
    if "face" in by_name:
        anchor, cells = by_name.pop("face"), cells_by_method(projection)
    elif "back" in by_name:
        anchor, cells = by_name.pop("back"), _about_back(projection)
    else:
        return frozenset()
    return frozenset(name for name, each in by_name.items() if not _is_in_place(each, anchor, cells.get(name)))


def _is_in_place(each: Placed, anchor: Placed, cell: tuple[int, int] | None) -> bool:
    """Beside or over the anchor, on the side that the cell has, and in one line with it."""
    if cell is None:
        return False
    column, row = cell
    if row:
        aside = each.box.top - anchor.box.bottom if row > 0 else anchor.box.top - each.box.bottom
        return abs(each.x - anchor.x) < _ALIGNED and aside > 0
    aside = each.box.left - anchor.box.right if column > 0 else anchor.box.left - each.box.right
    return abs(each.y - anchor.y) < _ALIGNED and aside > 0


def misleads(placed: Sequence[Placed], projection: str) -> bool:
    """Whether an end stands in a row with the face or the back, the nearer of them, on the side of the other end."""
    by_name = {each.block.name: each for each in placed}
    cells = {"face": cells_by_method(projection), "back": _about_back(projection)}
    for end in (by_name[name] for name in ENDS if name in by_name):
        beside = [by_name[name] for name in cells if name in by_name and _in_one_row(by_name[name], end)]
        if beside:
            near = min(beside, key=lambda each: abs(each.x - end.x))
            if (end.x - near.x) * cells[near.block.name][end.block.name][0] < 0:
                return True
    return False


def _in_one_row(a: Placed, b: Placed) -> bool:
    return a.view_box.top < b.view_box.bottom and b.view_box.top < a.view_box.bottom
