"""What a part's file says of single dimensions: `dimensions`, by feature and measure."""

from __future__ import annotations

from typing import Annotated, Self

from pydantic import WithJsonSchema, model_validator

from planbook.source.models.base import fault, formed
from planbook.source.models.standing import StandingModel
from planbook.source.names import DIMENSION
from planbook.source.text import Text

DimensionKey = Annotated[
    Text,
    formed(DIMENSION, "a dimension of this part", "pivot/x"),
    WithJsonSchema({"type": "string", "pattern": f"^{DIMENSION}$"}),
]
"""The id of a dimension without its part: feature, measure, and perhaps a second feature."""


class DimensionModel(StandingModel):
    """What is to be said of one dimension."""

    @model_validator(mode="after")
    def _check(self) -> Self:
        if not self.model_fields_set:
            raise fault("Nothing is said of this dimension.", "Add, for example, `critical: ...`, or delete it.")
        return self
