"""rules.yaml: requirements on the design that must hold in each edition. The key is the rule's dotted name."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated, Self

from pydantic import Field, model_validator

from planbook.source.models.base import ContentModel, Flag, Name, fault
from planbook.source.text import Formula, Text, Words


class Weight(StrEnum):
    """Whether a broken rule stops the release or only warns."""

    STOP = "stop"
    WARN = "warn"


class ClearanceModel(ContentModel):
    """How near two components may come."""

    between: Annotated[tuple[Text, Text], Field(description="Names of two components.")]
    least: Annotated[Formula, Field(description="The least distance.")]
    fitted: Annotated[
        Flag, Field(description="Whether one is made to the other in hand, so that general tolerances do not count.")
    ] = False


class RuleModel(ContentModel):
    """`require` compares: `knee.clear >= knee.least`, `0 mm <= flush.gap <= 0.8 mm`."""

    require: Formula | None = None
    by_market: dict[Name, Formula] | None = None
    clearance: ClearanceModel | None = None
    over: Annotated[Text | None, Field(description="A travel of positions.yaml: it must hold all along.")] = None
    because: Annotated[Words, Field(description="Why, in the builder's words.")]
    weight: Weight = Weight.STOP

    @model_validator(mode="after")
    def _check(self) -> Self:
        if sum(each is not None for each in (self.require, self.by_market, self.clearance)) != 1:
            raise fault(
                "A rule has one of `require`, `by_market` and `clearance`.", "Keep one: `require: gap >= 1 mm`."
            )
        if self.clearance is not None and self.over is None:
            raise fault("A clearance is kept over a travel.", "Name one of positions.yaml: `over: lift`.")
        return self
