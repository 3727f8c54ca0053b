"""Where an enlarged detail stands: in the free room nearest to its circle."""

from __future__ import annotations

import numpy as np

from planbook.drawing.block import Block
from planbook.drawing.detail import Detail
from planbook.drawing.ink import CLEAR
from planbook.drawing.layout import GAP
from planbook.drawing.leaders import Paper
from planbook.drawing.projecting import Placed
from planbook.drawing.tracing import Setting
from planbook.drawing.views import detail_of
from planbook.drawing.wanted import Wanted


def show_detail(wanted: Wanted, parent: Placed, detail: Detail, paper: Paper) -> Placed | None:
    """A detail where it finds room, at the largest of its scales that does."""
    view = detail_of(parent.block.view, detail)
    blocks = (wanted.laid_out(view, scale, narrow=True).named(moved=False) for scale in detail.scales)
    places = (_place_detail(block, parent, detail, paper) for block in blocks)
    return next((found for found in places if found), None)


def _place_detail(block: Block, parent: Placed, detail: Detail, paper: Paper) -> Placed | None:
    """A detail's block in the free room nearest to its circle, noted on the paper."""
    width, height = block.box.right - block.box.left + 2 * GAP, block.box.bottom - block.box.top + 2 * GAP
    lefts, tops = paper.room.places(width, height, paper.room.rows * paper.room.columns)
    if not len(lefts):
        return None
    at = Setting(parent.block.scale.factor, parent.x, parent.y)(detail.centre)
    best = int(np.argmin(np.hypot(lefts + width / 2 - at.x, tops + height / 2 - at.y)))
    placed = Placed(block, float(lefts[best]) + GAP - block.box.left, float(tops[best]) + GAP - block.box.top)
    paper.room.mark_box(placed.box.grown(CLEAR))
    paper.views = (*paper.views, placed.view_box)
    paper.note(placed.ink)
    return placed
