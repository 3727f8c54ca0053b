"""What a part's file asks its sheet to show besides the plain views: sections and enlarged details, by letter."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated, Self

from pydantic import Field, WithJsonSchema, model_validator

from planbook.source.models.base import ContentModel, Pair, fault, formed
from planbook.source.names import DETAILED, LETTER, RATIO
from planbook.source.text import Formula, Text

Letter = Annotated[Text, formed(LETTER, "a letter", "A"), WithJsonSchema({"type": "string", "pattern": f"^{LETTER}$"})]
"""A capital of `names.LETTERS`."""


class CutView(StrEnum):
    """The sides from which a section is seen: the face view looks along its plane, and shows where it runs."""

    FRONT_EDGE = "front_edge"
    REAR_EDGE = "rear_edge"
    LEFT_END = "left_end"
    RIGHT_END = "right_end"


class SectionModel(ContentModel):
    """A part cut open by a plane: `{through: pivot, view: front_edge}`, `{at: leg.length / 2, view: right_end}`."""

    view: Annotated[CutView, Field(description="The side from which it is seen; the plane is square to that.")]
    through: Annotated[
        Text | None,
        Field(description="A feature of this part through whose middle the plane runs; of a row the first."),
    ] = None
    at: Annotated[
        Formula | None, Field(description="The plane's place from the datum: y for an edge view, x for an end view.")
    ] = None

    @model_validator(mode="after")
    def _check(self) -> Self:
        if (self.through is None) == (self.at is None):
            raise fault("A section runs through a feature, or at a measure.", "Write `through: NAME` or `at: MEASURE`.")
        return self


class DetailModel(ContentModel):
    """Something shown again, larger: `{around: shaft, view: right_end}`, `{at: [20 mm, 5 mm], radius: 8 mm, ...}`."""

    view: Annotated[
        Text,
        formed(DETAILED, "a view or the letter of a section", "right_end"),
        WithJsonSchema({"type": "string", "pattern": f"^({DETAILED})$"}),
        Field(description="The view in which its circle stands, or the letter of a section."),
    ]
    around: Annotated[
        Text | None, Field(description="A feature of this part that the circle holds; of a row the first.")
    ] = None
    at: Annotated[Pair | None, Field(description="The circle's centre in the view, along the part's own axes.")] = None
    radius: Annotated[Formula | None, Field(description="Of the circle, with `at`.")] = None
    scale: Annotated[
        Text | None,
        formed(RATIO, "a scale", "2:1"),
        WithJsonSchema({"type": "string", "pattern": f"^{RATIO}$"}),
        Field(description="Paper to part; the largest that suits the sheet without it."),
    ] = None

    @model_validator(mode="after")
    def _check(self) -> Self:
        if (self.around is None) == (self.at is None) or (self.at is None) != (self.radius is None):
            raise fault(
                "A detail shows what lies round a feature, or in a circle.",
                "Write `around: NAME`, or `at: [x, y]` with `radius: MEASURE`.",
            )
        return self
