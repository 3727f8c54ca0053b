"""shared/markets/<market>.yaml: what a builder can buy there. shared/cautions.yaml, and a set's hardware.yaml.

Stock gives the formula names stock.<key>.thickness; hardware gives hardware.<key>.<measure> for every measure listed
under it.
"""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from planbook.source.models.base import WHOLE, ContentModel, Name, Pair
from planbook.source.text import Formula, Text, Words


class StockKind(StrEnum):
    """How stock is sold: by the sheet, as sawn boards, or as round rods."""

    SHEET = "sheet"
    BOARD = "board"
    ROD = "rod"


class Substance(StrEnum):
    """What a cut face shows, for the hatching of sections."""

    WOOD = "wood"
    PLYWOOD = "plywood"
    METAL = "metal"
    PLASTIC = "plastic"
    OTHER = "other"


class Grain(StrEnum):
    """Which way the grain of a sheet or board runs: along its first size, along its second, or not at all."""

    LENGTH = "length"
    WIDTH = "width"
    NONE = "none"


class StockModel(ContentModel):
    """One thing sold to make parts from."""

    kind: StockKind
    title: Annotated[Words, Field(description="What to ask for at the yard.")]
    material: Annotated[Words, Field(description="What it is made of, for the title block.")]
    substance: Annotated[
        Substance | None,
        Field(description="What a cut face shows, for sections; without it a sheet is plywood, all else wood."),
    ] = None
    thickness: Annotated[Formula, Field(description="Actual thickness.")]
    accepted: Annotated[Pair | None, Field(description="[least, greatest] actual thickness the design takes.")] = None
    density: Annotated[
        Formula | None, Field(description="What a volume of it weighs: `handbook.sugar_maple.density`.")
    ] = None
    sizes: Annotated[tuple[Pair, ...], Field(description="Sizes sold, [length, width].")] = ()
    grain: Annotated[
        Grain, Field(description="Which way its grain runs: along the length or width of the size sold, or none.")
    ] = Grain.LENGTH
    rough: Annotated[Formula | None, Field(description="Thickness as sold, where it is planed to `thickness`.")] = None
    yields: Annotated[int, Field(ge=1, le=9, description="Into how many a rough board is resawn."), WHOLE] = 1
    layers: Annotated[
        int, Field(ge=1, le=9, description="Of how many, as sold, one is glued up face to face."), WHOLE
    ] = 1
    allowance: Annotated[Formula | None, Field(description="What is lost to knots and splits, e.g. 15 %.")] = None
    source: Annotated[Words, Field(description="Where the numbers are from.")] = Words("")

    @property
    def cut_face(self) -> Substance:
        """Its substance, said or taken for granted."""
        return self.substance or (Substance.PLYWOOD if self.kind is StockKind.SHEET else Substance.WOOD)


class Outline(StrEnum):
    """What a small thing looks like, for its outline at full size; each asks for measures of its own."""

    COUNTERSUNK = "countersunk"
    ROUND_HEAD = "round_head"
    HEXAGON = "hexagon"
    CYLINDER = "cylinder"
    RING = "ring"


class HardwareItemModel(ContentModel):
    """A thing with the same key in every market: `bolt_6` is 1/4-20 in one and M6 in the other."""

    title: Annotated[Words, Field(description="What to ask for, without length.")]
    measures: Annotated[dict[Name, Formula], Field(description="diameter, clearance (a drill sold here), head, ...")]
    outline: Annotated[
        Outline | None, Field(description="What it looks like, so that its outline is printed at full size.")
    ] = None
    source: Words = Words("")


class FinishModel(ContentModel):
    """A finish as sold."""

    title: Annotated[Words, Field(description="What to ask for.")]
    pack: Annotated[Words, Field(description="How much one pack holds, in words: `750 ml`.")]
    covers: Annotated[Formula, Field(description="What one pack covers once: `9 m * 1 m`.")]
    source: Words = Words("")


class MarketModel(ContentModel):
    """The whole of a market file."""

    title: Words
    stock: dict[Name, StockModel]
    hardware: dict[Name, HardwareItemModel]
    drills: Annotated[tuple[Formula, ...], Field(description="Diameters sold, smallest first.")] = ()
    finishes: dict[Name, FinishModel] = Field(default_factory=dict)


class MarketAdditionsModel(ContentModel):
    """content/<set>/markets/<market>.yaml: laid over the shared market, key by key."""

    stock: dict[Name, StockModel] = Field(default_factory=dict)
    hardware: dict[Name, HardwareItemModel] = Field(default_factory=dict)
    drills: Annotated[tuple[Formula, ...] | None, Field(description="In place of the shared list.")] = None
    finishes: dict[Name, FinishModel] = Field(default_factory=dict)


class SignalWord(StrEnum):
    """ANSI Z535 signal words."""

    DANGER = "danger"
    WARNING = "warning"
    CAUTION = "caution"
    NOTICE = "notice"


class Listing(StrEnum):
    """What the tool finds and a caution lists."""

    PINCH_POINTS = "pinch_points"


class CautionModel(ContentModel):
    """A caution, shown where pages and steps name it."""

    word: SignalWord
    title: Words
    text: Annotated[Words, Field(description="What can happen, how bad, and how to avoid it.")]
    lists: Annotated[
        Listing | None, Field(description="`pinch_points`: a step that names it lists those that it makes.")
    ] = None


class HardwareUseModel(ContentModel):
    """One line of the set's hardware list. `length` when the item is bought by length."""

    item: Annotated[Text, Field(description="A hardware key of the market tables.")]
    quantity: Annotated[
        Formula, Field(description="How many: a number, or a formula that counts, as 2 * tally.hardware.roller_32.")
    ]
    spares: Annotated[int, Field(ge=0, le=1000, description="How many more to buy."), WHOLE] = 0
    length: Formula | None = None
    use: Annotated[Words, Field(description="What it is for.")]
    parts: Annotated[tuple[Text, ...], Field(description="Part keys it goes into.")] = ()
