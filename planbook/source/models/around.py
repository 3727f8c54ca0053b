"""What turns about a centre: arc slots, sectors of a ring, ramps along an arc, and patterns spaced by an angle."""

from __future__ import annotations

from typing import Annotated, Self

from pydantic import Field, model_validator

from planbook.source.models.base import WHOLE, ContentModel, Pair, fault
from planbook.source.models.feature import PlacedModel
from planbook.source.text import Formula

Count = Annotated[int, Field(ge=2, le=360), WHOLE]
Step = Annotated[
    Formula | None, Field(description="From one to the next; equally spaced over a whole turn without it.")
]
Angles = Annotated[
    tuple[Formula, Formula],
    Field(description="Where it starts and ends, counted from the face's first axis towards its second."),
]


class TurnModel(ContentModel):
    """`count` equal features about the centre that each of them has anyway."""

    count: Count
    step: Step = None


class CircleModel(TurnModel):
    """`count` holes on a circle about `at`: `circle` is its diameter, `start` the angle of the first."""

    circle: Formula
    start: Annotated[Formula | None, Field(description="Of the first, from the face's first axis.")] = None


class BandModel(PlacedModel):
    """What runs along an arc about `at`."""

    at: Pair
    angles: Angles
    around: TurnModel | None = None

    @model_validator(mode="after")
    def _check_pattern(self) -> Self:
        if self.around is not None and self.repeat is not None:
            raise fault("A feature is repeated in a row or around a centre, not both.", "Delete one of the two.")
        return self


class SweptModel(BandModel):
    """What is as deep all along its arc."""

    depth: Formula | None = None


class ArcSlotModel(SweptModel):
    """`arc_slot` is the width; `radius` is that of its middle line about `at`; `angles` are those of its round ends."""

    arc_slot: Formula
    radius: Formula


class RingSectorModel(SweptModel):
    """`ring_sector` is [inner radius, outer radius] about `at`; without `depth` it goes through."""

    ring_sector: Annotated[tuple[Formula, Formula], Field(description="[inner radius, outer radius]")]


class ArcRampModel(BandModel):
    """A floor that climbs evenly along an arc: `arc_ramp` is [depth where it starts, depth where it ends].

    Its lines towards the centre are level, so that it is steeper inside than outside.
    """

    arc_ramp: Annotated[Pair, Field(description="[depth at the first of its angles, depth at the second]")]
    radii: Annotated[Pair, Field(description="[inner radius, outer radius]")]
