"""Views on a page with all their dimensions: the largest standard scale at which nothing touches."""

from __future__ import annotations

from collections.abc import Callable, Container, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cache, partial
from itertools import chain
from operator import attrgetter
from typing import Final

import numpy as np

from planbook.drawing.angles import is_angle
from planbook.drawing.block import Block, Unnamed, bare_block, lay_out
from planbook.drawing.calling_out import called_out, callouts_on, paper_with
from planbook.drawing.callouts import is_linear
from planbook.drawing.detail import Detail
from planbook.drawing.facing import Gap
from planbook.drawing.footprint import footprint, together
from planbook.drawing.frame import Page
from planbook.drawing.hole_tables import HoleTable
from planbook.drawing.ink import CLEAR, Box
from planbook.drawing.layout import GAP, Stand, ways_to_stand
from planbook.drawing.leaders import Paper, leader_length, place_callout
from planbook.drawing.projecting import Placed
from planbook.drawing.recording import Primitive
from planbook.drawing.scales import Scale
from planbook.drawing.tags import place_tags
from planbook.drawing.tracing import Setting
from planbook.drawing.views import View, detail_of
from planbook.statement.model import DimensionStated, PartStated

Larger = Callable[[frozenset[str]], "tuple[Placed, ...] | None"]
"""The same arrangement with larger blocks for some views; None where they do not fit, or for no views."""
_HOPELESS: Final = 8
"""A scale at which more dimensions find no room is not tried in other arrangements."""
_LONG: Final = 45.0
"""A leader longer than this (mm) makes a reader look for its end: other arrangements are tried."""
_PATIENCE: Final = 6
"""So many of them at the same scale."""
_THIN: Final = 14.0
"""An end thinner than this on paper (mm) is shown larger, with its own scale under it."""
_END: Final = 42.0
"""No end is shown larger than this because of that."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is to be drawn of a part, whatever the page: its dimensions, the scales to choose from, the projection.

    Of the holes in `tables` only their tags are drawn. `gaps` are left out of views along the part: they go with one
    scale, which is then the only one in `tried`. So do `details`, to which their dimensions move.
    """

    part: PartStated
    dimensions: Sequence[DimensionStated]
    scales: Sequence[Scale]
    projection: str
    tables: Sequence[HoleTable] = ()
    gaps: tuple[Gap, ...] = ()
    tried: Sequence[Scale] = ()
    details: tuple[Detail, ...] = ()
    _laid_out: dict[tuple[str, Scale, bool, bool], Unnamed] = field(default_factory=dict, compare=False)
    """Laying out takes long, and the same view at the same scale is asked for on many pages."""

    def detailed(self, details: tuple[Detail, ...]) -> Wanted:
        """The same with details; views without any are laid out as before."""
        names = {detail.view for detail in details}
        same = {key: laid for key, laid in self._laid_out.items() if key[0] not in names}
        return replace(self, details=details, _laid_out=same)

    def laid_out(self, view: View, scale: Scale, narrow: bool, full: bool = False) -> Unnamed:
        """A view with its dimensions round it; with `full` its callouts too."""
        key = (view.name, scale, narrow, full)
        if key not in self._laid_out:
            self._laid_out[key] = self._lay_out(view, scale, narrow, full)
        return self._laid_out[key]

    def _lay_out(self, view: View, scale: Scale, narrow: bool, full: bool) -> Unnamed:
        if full:
            return called_out(self.laid_out(view, scale, narrow), self.of([view]), self.part.features)
        linear = [d for d in self._in(view) if is_linear(d) or is_angle(d)]
        return lay_out(view, scale, linear, narrow, self.part.dimensioning)

    def _in(self, view: View) -> list[DimensionStated]:
        """The dimensions that stand round a view itself: of a detail those that have moved to it."""
        if view.detail:
            return [each for each in self.dimensions if each.id in view.detail.ids]
        moved = frozenset(name for detail in view.details for name in detail.ids)
        return [each for each in self.of([view]) if each.id not in moved]

    def of(self, views: Sequence[View]) -> list[DimensionStated]:
        """The dimensions that stand in some views."""
        names = {view.name for view in views}
        return [dimension for dimension in self.dimensions if dimension.view in names]


@dataclass(frozen=True, slots=True)
class Arrangement:
    """Views and dimensions on a page; `missing` names dimensions for which there was no room.

    `untagged` are tables whose holes lie too close together for their tags; all their dimensions are missing.
    """

    scale: Scale
    drawn: tuple[Placed | Primitive, ...]
    """Blocks, and what stands between them, in the order in which they are drawn."""
    missing: tuple[str, ...]
    untagged: tuple[HoleTable, ...] = ()
    strained: frozenset[str] = frozenset()
    """Views with a callout at a leader that is too long."""

    @property
    def faults(self) -> tuple[int, int]:
        """What it lacks, then what is not well in it: the less the better."""
        return self.lacks, len(self.strained)

    @property
    def views(self) -> tuple[Placed, ...]:
        """The blocks."""
        return tuple(each for each in self.drawn if isinstance(each, Placed))

    @property
    def primitives(self) -> tuple[Primitive, ...]:
        """All that is drawn, on the sheet."""
        pieces = (each.primitives if isinstance(each, Placed) else (each,) for each in self.drawn)
        return tuple(chain.from_iterable(pieces))

    @property
    def extent(self) -> Box:
        """The box round all that is drawn, on the sheet."""
        others = [each for each in self.drawn if not isinstance(each, Placed)]
        return together([*(each.ink for each in self.views), footprint(others)]).extent

    @property
    def lacks(self) -> int:
        """How much found no room: dimensions, and holes without their tags."""
        return len(self.missing) + sum(len(table.rows) for table in self.untagged)


def arrange_views(wanted: Wanted, views: Sequence[View], page: Page) -> Arrangement | None:
    """Try scales from the largest; the first at which all is placed wins, else the one that misses least. At a scale
    the first arrangement wins in which no leader is too long; a few are tried for that.
    """
    best: Arrangement | None = None
    dimensions = wanted.of(views)
    for scale in wanted.tried or wanted.scales:
        if not could_fit(views, scale, page.field):
            continue
        left = _PATIENCE
        for placed, larger in _placings(wanted, views, scale, page):
            most = len(best.missing) if best else len(dimensions)
            found = _with_callouts(placed, wanted, dimensions, page, scale, most)
            again = larger(_cramped(found, dimensions) if found.lacks else found.strained)
            if again:
                found = min(
                    found, _with_callouts(again, wanted, dimensions, page, scale, most), key=attrgetter("faults")
                )
            if found.faults == (0, 0):
                return found
            if best is None or found.faults < best.faults:
                best = found
            left -= not best.lacks
            if not left:
                return best
            if found.untagged:  # at a smaller scale the holes lie closer still
                return best
            if len(found.missing) > _HOPELESS:
                break
        if best and not best.lacks:
            return best
    return best


def _cramped(found: Arrangement, dimensions: Sequence[DimensionStated]) -> frozenset[str]:
    """Views whose callouts, and nothing else, would find room if their blocks were larger."""
    if len(found.missing) > _HOPELESS or found.untagged or any(each.block.unplaced for each in found.views):
        return frozenset()
    return frozenset(each.view for each in dimensions if each.id in found.missing)


def _placings(
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


def _with_callouts(
    placed: Sequence[Placed],
    wanted: Wanted,
    dimensions: Sequence[DimensionStated],
    page: Page,
    scale: Scale,
    most: int,
) -> Arrangement:
    """Blocks where they stand, and callouts in the room between; given up once it misses more than `most`."""
    drawn: list[Placed | Primitive] = list(placed)
    paper = paper_with(placed, page.field, page.keep_out)
    missing = [key for p in placed for key in p.block.unplaced]
    untagged: list[HoleTable] = []
    by_view: Mapping[str, Placed] = {p.block.name: p for p in placed}
    for table in (table for table in wanted.tables if table.view in by_view):
        tags = place_tags(table, by_view[table.view], paper)
        if tags is None:
            untagged.append(table)
            missing += sorted(table.ids)
            paper = paper_with(placed, page.field, page.keep_out)  # without the tags that were tried
        else:
            drawn += tags[0]
            missing += tags[1]
    for detail in (each for each in wanted.details if each.view in by_view and not each.apart):
        found = _show_detail(wanted, by_view[detail.view], detail, paper)
        missing += found.block.unplaced if found else detail.ids
        if found:
            drawn.append(found)
    strained: set[str] = set()
    for callout, group in callouts_on(tuple(by_view.values()), dimensions, wanted.part.features):
        lettered = place_callout(callout, paper) if len(missing) <= most else None
        if lettered is None:
            missing += [dimension.id for dimension in group]
        else:
            drawn += lettered
            strained |= {group[0].view} if leader_length(lettered) > _LONG else set()
    return Arrangement(scale, tuple(drawn), tuple(missing), tuple(untagged), frozenset(strained))


def _show_detail(wanted: Wanted, parent: Placed, detail: Detail, paper: Paper) -> Placed | None:
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
