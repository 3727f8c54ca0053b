"""fits.yaml: which measures of the sheets go into one another, and how much room there must be between them."""

from __future__ import annotations

from typing import Annotated, Self

from pydantic import Field, model_validator

from planbook.source.models.base import ContentModel, Flag, Name, fault
from planbook.source.text import Formula, Words

Gap = Annotated[tuple[Formula, Formula], Field(description="[least, most]; below zero one of the two is pared away.")]
_SUM = "One measure or a sum of several: `dim.<part>.<feature>.<measure>`, `stock.` and `hardware.` names, lengths."


class FitModel(ContentModel):
    """The gap is `opening` less `slider`, from the limits that the sheets print."""

    opening: Annotated[Formula, Field(description=_SUM)]
    slider: Annotated[Formula, Field(description=_SUM)]
    gap: Gap | None = None
    by_market: dict[Name, Gap] | None = None
    because: Annotated[Words, Field(description="Why, in the builder's words.")]
    fitted: Annotated[
        Flag, Field(description="Whether one is made to the other in hand, so that tolerances do not count.")
    ] = False

    @model_validator(mode="after")
    def _check(self) -> Self:
        if (self.gap is None) == (self.by_market is None):
            raise fault("A fit has one of `gap` and `by_market`.", "Keep one, for example `gap: [1 mm, 2.5 mm]`.")
        return self
