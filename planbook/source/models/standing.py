"""What a measure is to a builder: critical to how the piece fits together, or free to be changed."""

from __future__ import annotations

from typing import Annotated, Self

from pydantic import Field, model_validator

from planbook.source.models.base import ContentModel, Name, ShortModel, fault
from planbook.source.text import Formula, Text, Words

Limits = Annotated[tuple[Formula, Formula], Field(description="[least, most], both allowed.")]


class FreeModel(ShortModel):
    """Written short, only `because` is said, and no limits."""

    short_key = "because"
    short_kind = str

    because: Annotated[Words, Field(description="What the choice is about, in the builder's words.")]
    between: Annotated[Limits | None, Field(description="What it may be changed to: [least, most].")] = None
    by_market: Annotated[dict[Name, Limits] | None, Field(description="[least, most] for each market.")] = None

    @model_validator(mode="after")
    def _check(self) -> Self:
        if self.between is not None and self.by_market is not None:
            raise fault("Limits are for all markets or for each.", "Keep one of `between` and `by_market`.")
        return self

    def within(self, market: str) -> Limits | None:
        """The limits that hold in a market; None where the author gives it none."""
        return self.between if self.by_market is None else self.by_market.get(Text(market))


class StandingModel(ContentModel):
    """What a parameter or a dimension may say of itself; neither for most of them."""

    critical: Annotated[
        Words | None, Field(description="What goes wrong when it is not kept: the measure is critical to the fit.")
    ] = None
    free: Annotated[
        FreeModel | None, Field(description="A builder may change it: why, and perhaps `between` which limits.")
    ] = None

    @model_validator(mode="after")
    def _check_standing(self) -> Self:
        if self.critical is not None and self.free is not None:
            raise fault("A measure that is critical is not free to be changed.", "Keep one of `critical` and `free`.")
        return self
