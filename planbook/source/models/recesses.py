"""Features with square sides: grooves, rabbets, notches, mortises, openings, and tenons, which stay."""

from __future__ import annotations

from typing import Annotated, Self

from pydantic import Field, model_validator

from planbook.source.models.base import Pair, Triple, fault
from planbook.source.models.feature import Axis, Corner, Edge, FeatureModel, PlacedModel
from planbook.source.text import Formula


class GrooveModel(FeatureModel):
    """`groove` is the width; it runs `along` an axis; `at` is its near side; `start`/`end` stop it."""

    groove: Formula
    along: Axis
    at: Formula
    depth: Formula
    start: Formula | None = None
    end: Formula | None = None


class RabbetModel(FeatureModel):
    """`rabbet` is the width from the border of the face inwards."""

    rabbet: Formula
    edge: Edge
    depth: Formula


class NotchModel(FeatureModel):
    """A through cut-out: `notch` is [along x, along y]; at a `corner`, or on an `edge` starting at `start`."""

    notch: Pair
    corner: Corner | None = None
    edge: Edge | None = None
    start: Annotated[Formula | None, Field(description="On an edge: where it starts, along that edge.")] = None
    round: Annotated[Formula | None, Field(description="Radius of its inner corners.")] = None

    @model_validator(mode="after")
    def _check(self) -> Self:
        if (self.corner is None) == (self.edge is None):
            raise fault("A notch is at a `corner` or on an `edge`.", "Give it one, for example `corner: front_left`.")
        if self.edge is not None and self.start is None:
            raise fault("A notch on an edge says where it starts.", "Add, for example, `start: 40 mm`.")
        if self.corner is not None and self.start is not None:
            raise fault("A notch at a corner starts at that corner.", "Delete `start`.")
        return self


class MortiseModel(PlacedModel):
    """`mortise` is [along first axis, along second axis]; `at` is its corner nearest the datum. No depth: through."""

    mortise: Pair
    at: Pair
    depth: Formula | None = None
    round: Annotated[Formula | None, Field(description="Radius of its corners (a router leaves one).")] = None


class OpeningModel(PlacedModel):
    """A cut-out through the part: `opening` is [along x, along y]; `at` is its corner nearest the datum."""

    opening: Pair
    at: Pair
    round: Formula | None = None


class TenonModel(FeatureModel):
    """`tenon` is [length, width, thickness] at an end; its section's near corner is `at` [y, z]; `on` is not used.

    The part's size includes its tenons.
    """

    tenon: Triple
    end: Annotated[Edge, Field(description="left or right")]
    at: Annotated[Pair | None, Field(description="[y, z] of the tenon's near corner; centred without it.")] = None

    @model_validator(mode="after")
    def _check(self) -> Self:
        if self.end not in (Edge.LEFT, Edge.RIGHT):
            raise fault("A tenon is at the left or the right end.", "Write `end: left` or `end: right`.")
        return self
