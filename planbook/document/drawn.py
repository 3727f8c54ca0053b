"""What an edition shows besides words: its sheets, figures and check bars, drawn before any page is written."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from itertools import chain

from planbook.document.check_bars import check_bars
from planbook.document.gallery import Gallery
from planbook.document.images import Image, drawing_image
from planbook.document.papers import LAYOUT_HEIGHT, PAPERS
from planbook.document.small_hardware import SmallThing, small_things
from planbook.drawing import draw_cutting_plan, draw_sheet, mark_sheet
from planbook.drawing.recording import Drawing, Stroke
from planbook.measure import Units
from planbook.source import Door
from planbook.source.findings import Finding
from planbook.source.text import Text
from planbook.statement.cut_order import cut_order
from planbook.statement.marks import SheetMark
from planbook.statement.stated import Stated


@dataclass(frozen=True)
class Drawn:
    """What is drawn before any page is written."""

    sheets: Mapping[str, tuple[Drawing, ...]]
    """The pages of each sheet by its number."""
    pages: Mapping[str, tuple[Image, ...]]
    """The same as images."""
    figures: Mapping[str, Image]
    """By name."""
    cover: Image | None
    """None when it could not be shown."""
    check_bars: Image
    wide: frozenset[str]
    """Figures that reach from margin to margin."""
    layouts: Mapping[str, Image] = field(default_factory=dict)
    """Plans of cutting, by the layout's id."""
    things: tuple[SmallThing, ...] = ()
    """Small hardware at full size."""
    unmarked: Mapping[str, tuple[Drawing, ...]] = field(default_factory=dict)
    """The pages of each sheet without revision marks."""
    untold: Mapping[str, tuple[SheetMark, ...]] = field(default_factory=dict)
    """By sheet, the marks whose former value it had no room to tell."""

    @property
    def signs(self) -> frozenset[str]:
        """The signs that stand on sheets, in words."""
        primitives = (each for pages in self.sheets.values() for page in pages for each in page.primitives)
        return frozenset(each.words for each in primitives if isinstance(each, Stroke) and each.words)

    @property
    def served(self) -> Mapping[str, bytes]:
        """All images by file name."""
        return {image.file: image.data for image in self._images}

    @property
    def drawings(self) -> Mapping[str, Drawing]:
        """Those that were drawn here."""
        return {image.file: image.drawing for image in self._images if image.drawing is not None}

    @property
    def _images(self) -> tuple[Image, ...]:
        cover = (self.cover,) if self.cover else ()
        return (
            *chain.from_iterable(self.pages.values()),
            *self.figures.values(),
            *self.layouts.values(),
            *(thing.image for thing in self.things),
            self.check_bars,
            *cover,
        )


def draw_all(stated: Stated, door: Door, gallery: Gallery | None = None) -> tuple[Drawn, tuple[Finding, ...]]:
    """Sheets, figures that pages show, the cover's picture and the check bars; findings tell of those that fail.

    What the `gallery` has drawn already is not drawn again.
    """
    gallery = gallery or Gallery(stated, door)
    findings: list[Finding] = []
    sheets: dict[str, tuple[Drawing, ...]] = {}
    unmarked: dict[str, tuple[Drawing, ...]] = {}
    untold: dict[str, tuple[SheetMark, ...]] = {}
    marks, paper = stated.marks, stated.statement.edition.paper
    for number, sheet in stated.statement.sheets.items():
        unmarked[number], faults = draw_sheet(stated.statement, number)
        sheets[number] = unmarked[number]
        if number in marks.sheets:
            sheets[number], left = mark_sheet(sheets[number], marks.sheets[number], marks.since, paper)
            untold |= {number: left} if left else {}
        findings += (replace(each, place=stated.content.parts[Text(sheet.part)].title.place) for each in faults)
    figures: dict[str, Image] = {}
    for name in gallery.rooms:
        figure, faults = gallery.figure(name)
        findings += faults
        if figure is not None:
            figures[name] = figure
    pages = {
        number: tuple(drawing_image(f"sheet-{number}-{place}", page) for place, page in enumerate(drawings, start=1))
        for number, drawings in sheets.items()
    }
    full = PAPERS[paper].text_width
    cover, faults = gallery.cover
    findings += faults
    wide = frozenset(name for name, room in gallery.rooms.items() if room.wide)
    bars, layouts = drawing_image("check-bars", check_bars()), _draw_layouts(stated, full)
    things = _draw_things(stated)
    return Drawn(sheets, pages, figures, cover, bars, wide, layouts, things, unmarked, untold), tuple(findings)


def _draw_layouts(stated: Stated, width: float) -> dict[str, Image]:
    statement = stated.statement
    return {
        layout.id: drawing_image(
            f"layout-{layout.id.replace('/', '-')}",
            draw_cutting_plan(layout, cut_order(layout), (width, LAYOUT_HEIGHT), statement.edition.units),
        )
        for layout in statement.layouts
    }


def _draw_things(stated: Stated) -> tuple[SmallThing, ...]:
    uses = stated.taken.uses if stated.taken is not None else ()
    return small_things(uses, Units(stated.statement.edition.units))
