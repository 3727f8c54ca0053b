"""What a part's file says of single dimensions: `dimensions`, by feature and measure."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated, Self

from pydantic import Field, WithJsonSchema, model_validator

from planbook.source.models.base import WHOLE, Flag, fault, formed
from planbook.source.models.feature import FaceName, MethodModel
from planbook.source.models.standing import StandingModel
from planbook.source.names import DIMENSION, VIEW_AXIS
from planbook.source.text import Text

DimensionKey = Annotated[
    Text,
    formed(DIMENSION, "a dimension of this part", "pivot/x"),
    WithJsonSchema({"type": "string", "pattern": f"^{DIMENSION}$"}),
]
"""The id of a dimension without its part: feature, measure, and perhaps a second feature."""


class Beside(StrEnum):
    """A side of a view."""

    ABOVE = "above"
    BELOW = "below"
    LEFT = "left"
    RIGHT = "right"


ViewAxis = Annotated[
    Text,
    formed(VIEW_AXIS, "a view with an axis that it shows", "face/x"),
    WithJsonSchema({"type": "string", "pattern": f"^({VIEW_AXIS})$"}),
]


class Dimensioning(StrEnum):
    """How measures from one datum stand (ISO 129-1): each on a line of its own, or all along one."""

    PARALLEL = "parallel"
    RUNNING = "running"


class Added(StrEnum):
    """What an added dimension is for: to work from, or in ( ) to check by."""

    DIMENSION = "dimension"
    REFERENCE = "reference"


class DimensionModel(StandingModel):
    """What is to be said of one dimension."""

    method: Annotated[MethodModel | None, Field(description="How the builder gets it.")] = None
    view: Annotated[FaceName | None, Field(description="The view that shows it, of those that show its length.")] = None
    side: Annotated[Beside | None, Field(description="The side of the view on which its line stands.")] = None
    row: Annotated[int | None, Field(ge=1, le=12, description="The row of its line, 1 nearest to the view."), WHOLE] = (
        None
    )
    hide: Annotated[Flag, Field(description="Left out: the sheet must say enough without it.")] = False
    add: Annotated[
        Added | None, Field(description="One that is not there by itself, `pivot/x/screw`: to work from, or in ( ).")
    ] = None

    @model_validator(mode="after")
    def _check(self) -> Self:
        if not self.model_fields_set:
            raise fault("Nothing is said of this dimension.", "Add, for example, `side: above`, or delete it.")
        if self.hide and len(self.model_fields_set) > 1:
            raise fault("A dimension that is hidden stands nowhere.", "Keep `hide: true` alone, or delete it.")
        return self
