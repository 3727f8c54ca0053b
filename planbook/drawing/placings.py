"""Ways in which views may stand on a page at a scale, their dimensions round them."""

from __future__ import annotations

from collections.abc import Callable, Container, Iterator, Mapping, Sequence
from functools import cache, partial
from typing import Final

from planbook.drawing.block import Block, bare_block
from planbook.drawing.frame import Page
from planbook.drawing.ink import Box
from planbook.drawing.layout import Stand, ways_to_stand
from planbook.drawing.projecting import Placed
from planbook.drawing.scales import Scale
from planbook.drawing.views import View
from planbook.drawing.wanted import Wanted

Larger = Callable[[frozenset[str]], "tuple[Placed, ...] | None"]
"""The same arrangement with larger blocks for some views; None where they do not fit, or for no views."""
_THIN: Final = 14.0
"""An end thinner than this on paper (mm) is shown larger, with its own scale under it."""
_END: Final = 42.0
"""No end is shown larger than this because of that."""


def placings(
    wanted: Wanted, views: Sequence[View], scale: Scale, page: Page
) -> Iterator[tuple[tuple[Placed, ...], Larger]]:
    """Arrangements at a scale, ends enlarged if they are small; with little width for wide views; ends to scale.

    Each with a way to have the same where the blocks of some views are larger by their callouts.
    """
    room = 0.5 * (page.field.right - page.field.left)
    wide = frozenset(view.name for view in views if (view.box[2] - view.box[0]) * scale.factor > room)
    enlarged = {view.name: _enlarged(view, scale, wanted.scales) for view in views}
    plain = dict.fromkeys(enlarged, scale)

    by_name = {view.name: view for view in views}

    @cache
    def build(name: str, scale: Scale, narrow: bool, full: bool, moved: bool) -> Block:
        return wanted.laid_out(by_name[name], scale, narrow, full).named(moved)

    def blocks(
        by_view: Mapping[str, Scale], narrow: Container[str], full: Container[str], moved: Container[str]
    ) -> list[Block]:
        return [build(name, by_view[name], name in narrow, name in full, name in moved) for name in by_name]

    tried: list[tuple[dict[str, Scale], frozenset[str]]] = []
    free, every = frozenset[str](), frozenset(enlarged)
    for chosen in ((enlarged, free), (enlarged, wide), (enlarged, every), (plain, free), (plain, wide), (plain, every)):
        if chosen in tried:
            continue
        tried.append(chosen)
        by_view, narrow = chosen
        if not _finds_room([bare_block(view, by_view[view.name]) for view in views], page, wanted.projection):
            continue

        for stand in ways_to_stand(page.field, wanted.projection, page.keep_out):
            placed = stand(partial(blocks, by_view, narrow, ()))
            if placed:
                yield placed, partial(_stand_larger, stand, partial(blocks, by_view, narrow))


def _stand_larger(
    stand: Stand, blocks: Callable[[Container[str], Container[str]], list[Block]], full: frozenset[str]
) -> tuple[Placed, ...] | None:
    return stand(partial(blocks, full)) if full else None


def _finds_room(blocks: Sequence[Block], page: Page, projection: str) -> bool:
    """Whether blocks, which no dimension makes smaller, find room at all: that is soon known, dimensions take long."""
    return any(stand(lambda _: blocks) for stand in ways_to_stand(page.field, projection, page.keep_out))


def _enlarged(view: View, scale: Scale, scales: Sequence[Scale]) -> Scale:
    """For an end view the largest scale, full size at most, at which it stays small; for other views the sheet's."""
    x0, y0, x1, y1 = view.box
    if not view.is_end or min(x1 - x0, y1 - y0) * scale.factor >= _THIN:
        return scale
    fits = (s for s in scales if scale.factor < s.factor <= 1 and max(x1 - x0, y1 - y0) * s.factor <= _END)
    return next(fits, scale)


def could_fit(views: Sequence[View], scale: Scale, field: Box) -> bool:
    """Whether each view by itself would find room, its name under it."""
    boxes = [view.box for view in views]
    width = max(b[2] - b[0] for b in boxes) * scale.factor
    height = max(b[3] - b[1] for b in boxes) * scale.factor
    return width <= field.right - field.left and height <= field.bottom - field.top - 12.0
