"""The figures of an edition, each drawn once, for whoever asks for it first: before any page is set, or on one."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property

from planbook.document.cover import draw_cover
from planbook.document.figures import Room, draw_figure, is_large, is_wide
from planbook.document.fill import placed_figures
from planbook.document.images import Image
from planbook.document.papers import COLUMN, COVER_HEIGHT, FIGURE_HEIGHT, LARGE_FIGURE_HEIGHT, PAPERS
from planbook.source import Door
from planbook.source.findings import Finding
from planbook.source.text import Text
from planbook.statement.stated import Stated

Shown = tuple[Image | None, tuple[Finding, ...]]
"""A picture, None where it cannot be shown, and what is to be told of that."""


class Gallery:
    """What the pages of an edition show by name, and the picture on its cover."""

    def __init__(self, stated: Stated, door: Door) -> None:
        self._stated, self._door = stated, door
        self._drawn: dict[str, Shown] = {}

    @cached_property
    def rooms(self) -> Mapping[str, Room]:
        """The figures that pages show: a column for one in a build step, the full width for a wide one on a page of
        prose and for a large one.
        """
        prose = self._stated.prose
        in_steps = placed_figures(each.html for each in prose if each.slot == "step")
        rooms = {}
        for name in placed_figures(each.html for each in prose):
            model = self._stated.content.figures[Text(name)]
            large = is_large(model)
            wide = large or (is_wide(model) and name not in in_steps)
            height = LARGE_FIGURE_HEIGHT if large else FIGURE_HEIGHT
            rooms[name] = Room(self._full_width if wide else COLUMN, height, wide)
        return rooms

    def figure(self, name: str) -> Shown:
        """One that a page shows. Raises KeyError for others."""
        if name not in self._drawn:
            self._drawn[name] = draw_figure(self._stated, self._door, name, self.rooms[name])
        return self._drawn[name]

    @cached_property
    def cover(self) -> Shown:
        """The picture on the cover."""
        return draw_cover(self._stated, self._door, Room(self._full_width, COVER_HEIGHT, wide=True))

    def picture(self, name: str) -> bytes | None:
        """A figure as a reader sees it, as SVG; None for a photograph, and for what no page shows."""
        if name in self.rooms:
            image, _ = self.figure(name)
        elif name == str(self._stated.content.plan_set.cover):
            image, _ = self.cover
        else:
            return None
        return image.data if image is not None and image.file.endswith(".svg") else None

    @property
    def _full_width(self) -> float:
        return PAPERS[self._stated.statement.edition.paper].text_width
