"""What leans, is cut at an angle, or is turned: the lean of a hole, and features at the ends and round the axis."""

from __future__ import annotations

from typing import Annotated, Self

from pydantic import Field, model_validator

from planbook.source.models.base import ContentModel, Pair, fault
from planbook.source.models.feature import Edge, FeatureModel
from planbook.source.text import Formula


class LeanModel(ContentModel):
    """How far a hole's axis is tilted from square, as seen along each axis of its face.

    Above zero the hole runs away from the datum on its way into the wood, below zero towards the datum. The angle
    along x is the one that is seen when one looks along y, and the other way round.
    """

    x: Annotated[Formula | None, Field(description="An angle: how far it runs along x on its way in.")] = None
    y: Annotated[Formula | None, Field(description="An angle: how far it runs along y on its way in.")] = None
    z: Annotated[Formula | None, Field(description="An angle: how far it runs along z on its way in.")] = None

    @property
    def named(self) -> dict[str, Formula]:
        """The angles by axis."""
        angles = {"x": self.x, "y": self.y, "z": self.z}
        return {axis: angle for axis, angle in angles.items() if angle is not None}

    @model_validator(mode="after")
    def _check(self) -> Self:
        if not self.named:
            raise fault("`lean` says no angle.", "Write, for example, `lean: {x: 8 deg}`.")
        return self


def _at_an_end(end: Edge, what: str) -> None:
    if end not in (Edge.LEFT, Edge.RIGHT):
        raise fault(f"{what} is at the left or the right end.", "Write `left` or `right`.")


class EndCutModel(FeatureModel):
    """`end_cut` is the end (left or right), cut by a tilted plane; `on` is not used.

    `mitre` is the angle from square seen on the face, `bevel` the one seen on the front edge. Above zero the part gets
    shorter away from the front edge, or towards the face. Its size is from long point to long point.
    """

    end_cut: Annotated[Edge, Field(description="left or right")]
    mitre: Annotated[Formula | None, Field(description="Angle from square as the face shows it.")] = None
    bevel: Annotated[Formula | None, Field(description="Angle from square as the front edge shows it.")] = None

    @model_validator(mode="after")
    def _check(self) -> Self:
        _at_an_end(self.end_cut, "An end cut")
        if self.mitre is None and self.bevel is None:
            raise fault("The end cut says no angle.", "Add `mitre: 8 deg`, `bevel: 8 deg`, or both.")
        return self


class RoundTenonModel(FeatureModel):
    """`round_tenon` is [diameter, length]: a pin in the middle of an end. The part's size includes it."""

    round_tenon: Pair
    end: Annotated[Edge, Field(description="left or right")]

    @model_validator(mode="after")
    def _check(self) -> Self:
        _at_an_end(self.end, "A round tenon")
        return self


class TurnedModel(FeatureModel):
    """`turned` is a diameter about the middle of the part's section, from `start` to `end` along x.

    Without `start` and `end` it is turned from end to end: a rod, a dowel. Several make a stepped pin.
    """

    turned: Formula
    start: Formula | None = None
    end: Formula | None = None
