"""Features that a round cutter makes: holes and slots."""

from __future__ import annotations

from typing import Annotated, Self

from pydantic import Field, model_validator

from planbook.source.models.around import CircleModel
from planbook.source.models.base import ContentModel, Pair, fault
from planbook.source.models.feature import PlacedModel
from planbook.source.models.slanted import LeanModel
from planbook.source.text import Formula


class CounterboreModel(ContentModel):
    """A wider, flat-bottomed mouth of a hole."""

    diameter: Formula
    depth: Formula


class CountersinkModel(ContentModel):
    """A conical mouth of a hole; `angle` is the whole angle of the cone."""

    diameter: Formula
    angle: Formula = Formula("90 deg")


class HoleModel(PlacedModel):
    """`hole` is the diameter; `at` its centre; without `depth` it goes through.

    With `around` several stand on a circle, and `at` is the centre of that.
    """

    hole: Formula
    at: Pair
    depth: Formula | None = None
    around: CircleModel | None = None
    counterbore: CounterboreModel | None = None
    countersink: CountersinkModel | None = None
    lean: Annotated[LeanModel | None, Field(description="How far its axis is from square, along the face's axes.")] = (
        None
    )

    @model_validator(mode="after")
    def _check(self) -> Self:
        if self.lean is not None and (self.counterbore is not None or self.countersink is not None):
            raise fault("A hole that leans has neither a counterbore nor a countersink.", "Delete it, or `lean`.")
        if self.counterbore is not None and self.countersink is not None:
            raise fault("A hole has either a counterbore or a countersink.", "Delete one of the two.")
        if self.around is not None and self.repeat is not None:
            raise fault("A feature is repeated in a row or around a centre, not both.", "Delete one of the two.")
        if self.around is not None and self.lean is not None:
            raise fault(
                "Holes around a centre do not lean.", "Write each of them as a hole of its own, or delete `lean`."
            )
        return self


class SlotModel(PlacedModel):
    """`slot` is the width; `start` and `end` are the centres of its round ends. Without `depth` it goes through."""

    slot: Formula
    start: Pair
    end: Pair
    depth: Formula | None = None
