"""assembly.yaml and positions.yaml: where the parts stand, and the named states of the moving assembly.

World axes: x right, y back, z up, origin at the front left of the piece on the floor.
"""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from planbook.source.models.base import ContentModel, Triple
from planbook.source.text import Formula, Text


class WorldAxis(StrEnum):
    RIGHT = "x"
    LEFT = "-x"
    BACK = "y"
    FRONT = "-y"
    UP = "z"
    DOWN = "-z"


class RodModel(ContentModel):
    """A bought round thing, drawn where it stands: roller, shaft, pin, bolt."""

    title: Text
    diameter: Formula
    length: Formula
    along: Annotated[WorldAxis, Field(description="x, y or z")]


class ComponentModel(ContentModel):
    """A part (or a bought rod) placed in the assembly.

    `at` is the lowest corner (least x, y and z) of the space that the placed component takes, before `turn`.
    `axes` says where the part's own x and y point in the world; z follows by the right hand. A mirrored component is
    the part mirrored in its own y (front edge to rear edge) before it is placed.
    """

    part: Text | None = None
    rod: RodModel | None = None
    at: Triple
    axes: Annotated[tuple[WorldAxis, WorldAxis], Field(description="World directions of the part's x and y.")] = (
        WorldAxis.RIGHT,
        WorldAxis.BACK,
    )
    mirrored: bool = False
    turn: Annotated[
        Formula | None,
        Field(description="An angle about an axis along world y through `pivot`, positive from x towards z (seen from the front: counter-clockwise)."),
    ] = None
    pivot: Annotated[Triple | None, Field(description="A world point that `turn` turns about.")] = None


class AssemblyModel(ContentModel):
    components: dict[Text, ComponentModel]


class PositionsModel(ContentModel):
    """The driver is a given parameter; a position is its value in a named state."""

    driver: Text
    positions: dict[Text, Formula]
