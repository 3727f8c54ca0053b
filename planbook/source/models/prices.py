"""prices/<market>.yaml: what things cost where the author asked, and when."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated, Self

from pydantic import Field, model_validator

from planbook.source.models.base import WHOLE, ContentModel, Day, Name, ShortModel, fault, formed
from planbook.source.text import Text, Words

Amount = Annotated[Text, formed(r"\d{1,9}(\.\d{1,4})?", "a price", "12.50")]


class Per(StrEnum):
    """What a price is for."""

    PIECE = "piece"
    SQUARE_METRE = "square_metre"
    SQUARE_FOOT = "square_foot"
    CUBIC_METRE = "cubic_metre"
    BOARD_FOOT = "board_foot"
    METRE = "metre"
    FOOT = "foot"


class PriceModel(ShortModel):
    """A price: bare for one piece, else with what it is for."""

    short_key = "price"
    short_kind = str

    price: Amount | None = None
    per: Per = Per.PIECE
    pack: Annotated[int, Field(ge=1, le=10000, description="How many pieces the price is for."), WHOLE] = 1
    by_size: Annotated[
        tuple[Amount, ...],
        Field(description="In place of `price`: one for each size sold, in the market table's order."),
    ] = ()

    @model_validator(mode="after")
    def _check(self) -> Self:
        if (self.price is None) == (not self.by_size):
            raise fault("A price is either `price` or `by_size`.", "Give one of the two, for example `price: 12.50`.")
        return self


class PricesModel(ContentModel):
    """The whole of a price file."""

    currency: Annotated[Text, formed("[A-Z]{3}", "a currency's code", "EUR"), Field(description="ISO 4217")]
    asked: Annotated[Day, Field(description="The day on which these prices held.")]
    source: Annotated[Words, Field(description="Where they were asked, in words.")] = Words("")
    stock: dict[Name, PriceModel] = Field(default_factory=dict)
    hardware: dict[Name, PriceModel] = Field(default_factory=dict)
    finishes: dict[Name, PriceModel] = Field(default_factory=dict)
