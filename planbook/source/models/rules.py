"""rules.yaml: requirements on the design that must hold in each edition. The key is the rule's dotted name."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated, Self

from pydantic import Field, model_validator

from planbook.source.models.base import ContentModel, Name, fault
from planbook.source.text import Formula, Text


class Weight(StrEnum):
    """Whether a broken rule stops the release or only warns."""

    STOP = "stop"
    WARN = "warn"


class RuleModel(ContentModel):
    """`require` compares: `knee.clear >= knee.least`, `0 mm <= flush.gap <= 0.8 mm`."""

    require: Formula | None = None
    by_market: dict[Name, Formula] | None = None
    because: Annotated[Text, Field(description="Why, in the builder's words.")]
    weight: Weight = Weight.STOP

    @model_validator(mode="after")
    def _check(self) -> Self:
        if (self.require is None) == (self.by_market is None):
            raise fault("A rule has one of `require` and `by_market`.", "Keep one, for example `require: gap >= 1 mm`.")
        return self
