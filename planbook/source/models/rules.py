"""rules.yaml: requirements on the design that must hold in each edition. The key is the rule's dotted name."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from planbook.source.models.base import ContentModel
from planbook.source.text import Formula, Text


class Weight(StrEnum):
    STOP = "stop"
    WARN = "warn"


class RuleModel(ContentModel):
    """`require` compares: `knee.clear >= knee.least`, `0 mm <= flush.gap <= 0.8 mm`."""

    require: Formula | None = None
    by_market: dict[Text, Formula] | None = None
    because: Annotated[Text, Field(description="Why, in the builder's words.")]
    weight: Weight = Weight.STOP
