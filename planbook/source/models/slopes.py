"""What leans: tapers, ramps, chamfers, and edges rounded over."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated, Self

from pydantic import Field, model_validator

from planbook.source.models.base import Pair, fault
from planbook.source.models.feature import Axis, Edge, FeatureModel
from planbook.source.text import Formula


class Side(StrEnum):
    """A long side of a part, from which a taper is cut."""

    FRONT = "front"
    REAR = "rear"
    FACE = "face"
    BACK = "back"


class TaperModel(FeatureModel):
    """`taper` is [size at `start`, size at `end`] along x, from the opposite side; `on` is not used.

    From the front or rear side the sizes are widths, from the face or back thicknesses.
    """

    taper: Annotated[Pair, Field(description="[size at its start, size at its end]")]
    side: Side
    start: Annotated[Formula | None, Field(description="Along x; the left end without it.")] = None
    end: Annotated[Formula | None, Field(description="Along x; the right end without it.")] = None


class RampModel(FeatureModel):
    """A sloping floor: `ramp` is [depth at `start`, depth at `end`], `along` an axis of its face.

    It goes across the whole face, or is `width` wide from `at`.
    """

    ramp: Annotated[Pair, Field(description="[depth at its start, depth at its end]")]
    along: Axis
    start: Formula
    end: Formula
    at: Annotated[Formula | None, Field(description="Its near side.")] = None
    width: Formula | None = None

    @model_validator(mode="after")
    def _check(self) -> Self:
        if (self.at is None) != (self.width is None):
            raise fault("A ramp that is no wider than `width` starts at `at`.", "Give both, or neither.")
        return self


class ChamferModel(FeatureModel):
    """`chamfer` is how far it reaches from the corner on both sides, at 45 degrees, along a whole edge."""

    chamfer: Formula
    edge: Edge


class RoundOverModel(FeatureModel):
    """`round_over` is the radius of a whole edge of the face or the back."""

    round_over: Formula
    edge: Edge
