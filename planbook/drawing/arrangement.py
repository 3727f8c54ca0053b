"""Views on a page with all their dimensions: the largest standard scale at which nothing touches."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import chain
from operator import attrgetter
from typing import Final

from planbook.drawing.calling_out import callouts_on, paper_with
from planbook.drawing.detail_standing import show_detail
from planbook.drawing.footprint import footprint, together
from planbook.drawing.frame import Page
from planbook.drawing.hole_tables import HoleTable
from planbook.drawing.ink import Box
from planbook.drawing.leaders import leader_length, place_callout
from planbook.drawing.placings import could_fit, placings
from planbook.drawing.projecting import Placed
from planbook.drawing.recording import Primitive
from planbook.drawing.scales import Scale
from planbook.drawing.tags import place_tags
from planbook.drawing.views import View
from planbook.drawing.wanted import Wanted
from planbook.statement.model import DimensionStated

_HOPELESS: Final = 8
"""A scale at which more dimensions find no room is not tried in other arrangements."""
_LONG: Final = 45.0
"""A leader longer than this (mm) makes a reader look for its end: other arrangements are tried."""
_PATIENCE: Final = 6
"""So many of them at the same scale."""


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
        for placed, larger in placings(wanted, views, scale, page):
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
        found = show_detail(wanted, by_view[detail.view], detail, paper)
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
