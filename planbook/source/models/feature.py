"""What all features of a part may say, and the faces, edges and methods that they name."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from typing import Annotated, Self

from pydantic import Field, model_validator

from planbook.measure.systems import Precision
from planbook.source.models.base import WHOLE, ContentModel, fault
from planbook.source.models.origin import FromModel
from planbook.source.text import Formula, Text, Words


class FaceName(StrEnum):
    """The six faces of a part."""

    FACE = "face"
    BACK = "back"
    LEFT_END = "left_end"
    RIGHT_END = "right_end"
    FRONT_EDGE = "front_edge"
    REAR_EDGE = "rear_edge"


FACE_AXES: Mapping[FaceName, tuple[str, str]] = {
    FaceName.FACE: ("x", "y"),
    FaceName.BACK: ("x", "y"),
    FaceName.LEFT_END: ("y", "z"),
    FaceName.RIGHT_END: ("y", "z"),
    FaceName.FRONT_EDGE: ("x", "z"),
    FaceName.REAR_EDGE: ("x", "z"),
}
"""Which of the part's axes positions on a face are measured along."""


class Axis(StrEnum):
    """A direction on a face."""

    X = "x"
    Y = "y"


class Corner(StrEnum):
    """A corner of the face."""

    FRONT_LEFT = "front_left"
    FRONT_RIGHT = "front_right"
    REAR_LEFT = "rear_left"
    REAR_RIGHT = "rear_right"


class Edge(StrEnum):
    """A border of the face: left and right are at x = 0 and x = length, front and rear at y = 0 and y = width."""

    LEFT = "left"
    RIGHT = "right"
    FRONT = "front"
    REAR = "rear"


class Method(StrEnum):
    """How the builder gets a measure."""

    TO_NUMBER = "to_number"
    OVERSIZE_THEN_TRIM = "oversize_then_trim"
    MARKED_FROM = "marked_from"
    DRILLED_WITH = "drilled_with"


class MethodModel(ContentModel):
    """`{how: marked_from, part: platform}`; `part` for the last two only."""

    how: Method
    part: Text | None = None

    @model_validator(mode="after")
    def _check(self) -> Self:
        needs_part = self.how in (Method.MARKED_FROM, Method.DRILLED_WITH)
        if needs_part and self.part is None:
            raise fault(f"`{self.how}` does not say which part.", f"Write `{{how: {self.how}, part: NAME}}`.")
        if not needs_part and self.part is not None:
            raise fault(f"`{self.how}` takes no part.", f"Write `{{how: {self.how}}}`.")
        return self


class RepeatModel(ContentModel):
    """A row: `count` features, `pitch` apart, along one axis of the face."""

    count: Annotated[int, Field(ge=2, le=1000), WHOLE]
    pitch: Formula
    along: Axis = Axis.X


class FeatureModel(ContentModel):
    """What all features may say."""

    on: FaceName = FaceName.FACE
    repeat: RepeatModel | None = None
    precision: Precision | None = None
    method: MethodModel | None = None
    note: Annotated[Words, Field(description="A few words at the callout or among the notes, with names in {{ }}.")] = (
        Words("")
    )
    was: tuple[Text, ...] = ()


class PlacedModel(FeatureModel):
    """What features with a place on a face may say: another of them from which theirs is measured and dimensioned."""

    origin: Annotated[
        FromModel | None,
        Field(alias="from", description="A feature of this part from which the position is measured, not the datum."),
    ] = None
