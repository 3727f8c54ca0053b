"""shared/markets/<market>.yaml: what a builder can buy there. shared/cautions.yaml, and a set's hardware.yaml.

Stock gives the formula names stock.<key>.thickness (and .width, .length for boards and sheets); hardware gives
hardware.<key>.<measure> for every measure listed under it.
"""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from planbook.source.models.base import ContentModel, Pair
from planbook.source.text import Formula, Text


class StockKind(StrEnum):
    SHEET = "sheet"
    BOARD = "board"
    ROD = "rod"


class StockModel(ContentModel):
    kind: StockKind
    title: Annotated[Text, Field(description="What to ask for at the yard.")]
    material: Annotated[Text, Field(description="What it is made of, for the title block.")]
    thickness: Annotated[Formula, Field(description="Actual thickness.")]
    accepted: Annotated[Pair | None, Field(description="[least, greatest] actual thickness the design takes.")] = None
    sizes: Annotated[tuple[Pair, ...], Field(description="Sizes sold, [length, width].")] = ()
    source: Annotated[Text, Field(description="Where the numbers are from.")] = Text("")


class HardwareItemModel(ContentModel):
    """A thing with the same key in every market: `bolt_6` is 1/4-20 in one and M6 in the other."""

    title: Annotated[Text, Field(description="What to ask for, without length.")]
    measures: Annotated[dict[Text, Formula], Field(description="diameter, clearance (a drill sold here), head, ...")]
    source: Text = Text("")


class MarketModel(ContentModel):
    title: Text
    stock: dict[Text, StockModel]
    hardware: dict[Text, HardwareItemModel]
    drills: Annotated[tuple[Formula, ...], Field(description="Diameters sold, smallest first.")] = ()


class SignalWord(StrEnum):
    """ANSI Z535 signal words."""

    DANGER = "danger"
    WARNING = "warning"
    CAUTION = "caution"
    NOTICE = "notice"


class CautionModel(ContentModel):
    word: SignalWord
    title: Text
    text: Annotated[Text, Field(description="What can happen, how bad, and how to avoid it.")]


class HardwareUseModel(ContentModel):
    """One line of the set's hardware list. `length` when the item is bought by length."""

    item: Annotated[Text, Field(description="A hardware key of the market tables.")]
    quantity: Annotated[int, Field(ge=1, le=10000)]
    length: Formula | None = None
    use: Annotated[Text, Field(description="What it is for.")]
    parts: Annotated[tuple[Text, ...], Field(description="Part keys it goes into.")] = ()
