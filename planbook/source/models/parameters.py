"""parameters.yaml: a tree of groups whose leaves are quantities, given or derived."""

from __future__ import annotations

from typing import Annotated, Self

from pydantic import Field, model_validator

from planbook.measure.systems import Precision
from planbook.source.models.base import Name, ShortModel, fault
from planbook.source.models.standing import StandingModel
from planbook.source.text import Formula, Text, Words


class ToleranceModel(ShortModel):
    """What a measure may be off by. Written short, it holds in every market. Exactly one of `is` and `by_market`."""

    short_key = "is"
    short_kind = str

    value: Annotated[
        Text | None, Field(alias="is", description="'1/32 in' is plus or minus; '+0.5 mm/0', '0/-0.5 mm' can be said.")
    ] = None
    by_market: Annotated[dict[Name, Text] | None, Field(description="One tolerance per market.")] = None

    @model_validator(mode="after")
    def _check(self) -> Self:
        if (self.value is None) == (self.by_market is None):
            raise fault("A tolerance is one for all markets or one for each.", "Keep one of `is` and `by_market`.")
        return self

    def within(self, market: str) -> Text | None:
        """What holds in a market; None where the author gives it none."""
        return self.value if self.by_market is None else self.by_market.get(Text(market))


class ParameterModel(StandingModel, ShortModel):
    """A leaf. Written short (`length: 59 in`), only `is` is set. Exactly one of `is` and `by_market`."""

    short_key = "is"
    short_kind = str

    value: Annotated[Formula | None, Field(alias="is", description="The value or the formula.")] = None
    by_market: Annotated[dict[Name, Formula] | None, Field(description="One value or formula per market.")] = None
    tolerance: Annotated[ToleranceModel | None, Field(description="What it may be off by.")] = None
    means: Annotated[Words, Field(description="What it is, for the table of dimensions.")] = Words("")
    precision: Precision | None = None
    was: Annotated[tuple[Text, ...], Field(description="Names it had in earlier versions.")] = ()

    @model_validator(mode="after")
    def _check(self) -> Self:
        if self.value is None and self.by_market is None:
            raise fault(
                "The parameter has no value.",
                "Give it `is: 18 mm`, or `by_market: {...}` with a value for each market.",
            )
        if self.value is not None and self.by_market is not None:
            raise fault("The parameter has both `is` and `by_market`.", "Keep one of them.")
        return self


# A group's key leads to a leaf or to a further group; `top.length` is the dotted path. A mapping with any
# of the keys above is a leaf; anything typed as a scalar is a leaf with only `is`.
