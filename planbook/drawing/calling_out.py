"""Callouts put on paper: in the room that a page has left, or round their own view in its block, which grows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Final

from planbook.drawing.block import Block, Unnamed
from planbook.drawing.callouts import callout_groups, callout_of
from planbook.drawing.footprint import footprint, grown, together
from planbook.drawing.ink import CLEAR, Box, extent, union
from planbook.drawing.leaders import Callout, Paper, place_callout
from planbook.drawing.projecting import Placed
from planbook.drawing.recording import Primitive
from planbook.drawing.room import Room
from planbook.statement.model import DimensionStated, FeatureStated

_REACH: Final = 15.0
"""A block grows by no more than its largest callout and so many millimetres."""

Called = tuple[Callout, tuple[DimensionStated, ...]]


def callouts_on(
    placed: Sequence[Placed], dimensions: Sequence[DimensionStated], features: Mapping[str, FeatureStated]
) -> list[Called]:
    """The callouts that blocks do not hold yet, the largest first, each with its dimensions."""
    by_view = {each.block.name: each for each in placed}
    groups = callout_groups(dimensions)
    callouts = [(callout_of(group, by_view[group[0].view], features), group) for group in groups]
    held = {name for each in placed for name in each.block.called}
    free = (pair for pair in callouts if pair[0].key not in held)
    return sorted(free, key=lambda pair: (-len(pair[0].lines), pair[0].key))


def paper_with(placed: Sequence[Placed], field: Box, keep_out: Box | None = None) -> Paper:
    """A field on which blocks stand already; `keep_out` is a corner of it that is not free."""
    ink = together(each.ink for each in placed)
    room = Room(field)
    if keep_out:
        room.mark_box(keep_out)
    for each in placed:
        if each.block.view.section:
            room.mark_box(each.view_box.grown(CLEAR))
    room.mark_boxes(grown(ink.boxes, CLEAR))
    room.mark_strokes(ink.strokes, CLEAR)
    return Paper(room, ink.boxes, ink.strokes, [p.view_box for p in placed])


def called_out(view: Unnamed, dimensions: Sequence[DimensionStated], features: Mapping[str, FeatureStated]) -> Unnamed:
    """The view with its callouts round it, as near as they can. One for which there is no room is left to the page."""
    box = view.ink.extent
    here = Placed(Block(view.view, view.scale, view.view_box, box, view.primitives, view.ink, view.unplaced), 0.0, 0.0)
    callouts = [callout for callout, _ in callouts_on((here,), dimensions, features)]
    if not callouts:
        return view
    paper = paper_with((here,), _grown(box, callouts))
    paper.kept = box
    added, called = list[Primitive](), set[str]()
    for callout in callouts:
        drawn = place_callout(callout, paper)
        if drawn is not None:
            added += drawn
            called.add(callout.key)
            paper.kept = union([paper.kept, extent(drawn)])
    ink = together([view.ink, footprint(added)])
    return replace(view, primitives=(*view.primitives, *added), ink=ink, called=frozenset(called))


def _grown(box: Box, callouts: Sequence[Callout]) -> Box:
    """A block's box with room for any of the callouts on each side."""
    wide = _REACH + max(callout.size[0] for callout in callouts)
    high = _REACH + max(callout.size[1] for callout in callouts)
    return Box(box.left - wide, box.top - high, box.right + wide, box.bottom + high)
