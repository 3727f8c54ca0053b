"""assembly.yaml and positions.yaml: where the parts stand, and the named states of the moving assembly.

World axes: x right, y back, z up, origin at the front left of the piece on the floor.
"""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated, Self

from pydantic import Field, model_validator

from planbook.source.models.base import WHOLE, ContentModel, Flag, Name, Triple, fault
from planbook.source.text import Formula, Text, Words


class WorldAxis(StrEnum):
    """A direction in the world."""

    RIGHT = "x"
    LEFT = "-x"
    BACK = "y"
    FRONT = "-y"
    UP = "z"
    DOWN = "-z"


class RodModel(ContentModel):
    """A bought round thing, drawn where it stands: roller, shaft, pin, bolt."""

    title: Words
    diameter: Formula
    length: Formula
    along: Annotated[WorldAxis, Field(description="x, y or z")]
    bore: Annotated[Formula | None, Field(description="Of a bush or roller: diameter of the hole through it.")] = None
    item: Annotated[
        Text | None, Field(description="What it is bought as: a hardware key. Formulas count it: tally.hardware.KEY.")
    ] = None
    density: Annotated[Formula | None, Field(description="What it weighs by volume; steel without it.")] = None


class ComponentModel(ContentModel):
    """A part (or a bought rod) placed in the assembly.

    `at` is the lowest corner (least x, y and z) of the space that the placed component takes, before it is
    turned.
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
    mirrored: Flag = False
    turn: Annotated[
        Formula | None,
        Field(
            description="An angle about an axis along world y through `pivot`, positive from x towards z "
            "(seen from the front: counter-clockwise)."
        ),
    ] = None
    tilt: Annotated[
        Formula | None,
        Field(
            description="An angle about an axis along world x through `pivot`, positive from y towards z; it comes "
            "before `turn`."
        ),
    ] = None
    swivel: Annotated[
        Formula | None,
        Field(
            description="An angle about an upright axis through `pivot`, positive from x towards y (seen from above: "
            "counter-clockwise); it comes last."
        ),
    ] = None
    pivot: Annotated[Triple | None, Field(description="A world point that `tilt`, `turn` and `swivel` turn about.")] = (
        None
    )

    @model_validator(mode="after")
    def _check(self) -> Self:
        if (self.part is None) == (self.rod is None):
            raise fault("A component is either a part or a rod.", "Give it one of `part: NAME` and `rod: {...}`.")
        turned = any(angle is not None for angle in (self.turn, self.tilt, self.swivel))
        if turned != (self.pivot is not None):
            raise fault(
                "`turn`, `tilt` or `swivel` goes with a `pivot`.",
                "Give both, for example `turn: 10 deg` and `pivot: [0 mm, 0 mm, 0 mm]`.",
            )
        if self.axes[0].strip("-") == self.axes[1].strip("-"):
            raise fault(
                "The two `axes` lie along the same line.", "Let the part's x and y point along two of x, y and z."
            )
        return self


class OverlapModel(ContentModel):
    """Components that are meant to lie in one another: any two of `between`."""

    between: Annotated[tuple[Text, ...], Field(min_length=2, description="Names of components.")]
    because: Annotated[Words, Field(description="Why, as in `a press fit`.")]


class MassModel(ContentModel):
    """Components that are weighed together, as they stand: `mass.<name>`, and `mass.<name>_x`, `_y`, `_z`."""

    means: Annotated[Words, Field(description="What is weighed, in words.")]
    of: Annotated[tuple[Text, ...] | None, Field(min_length=1, description="Components; all without it.")] = None
    without: Annotated[tuple[Text, ...], Field(description="Components that are left out.")] = ()


class AssemblyModel(ContentModel):
    """The whole of assembly.yaml."""

    components: dict[Name, ComponentModel]
    masses: dict[Name, MassModel] = Field(default_factory=dict, description="Weighed from solids and densities.")
    overlaps: dict[Name, OverlapModel] = Field(default_factory=dict)


class PhaseModel(ContentModel):
    """A stretch of a travel: `phase.<name>` is 0 before it, 1 after it, and runs evenly in between."""

    start: Annotated[Formula, Field(alias="from", description="The driver where it begins.")]
    end: Annotated[Formula, Field(alias="to", description="The driver where it ends.")]
    after: Annotated[Text | None, Field(description="The phase that must have ended before this one begins.")] = None


class BearingModel(ContentModel):
    """Components that bear on one another while they move; rounded figures may let them share a little."""

    between: Annotated[tuple[Text, Text], Field(description="Names of two components.")]
    by: Annotated[Formula, Field(description="How far the one may lie in the other.")]
    because: Annotated[Words, Field(description="Why, as in `the roller stands on the ramp`.")]


class TravelModel(ContentModel):
    """The assembly moved by a driver from one value to another, other given parameters held."""

    driver: Annotated[Text | None, Field(description="A given parameter; the driver of the positions without it.")] = (
        None
    )
    start: Annotated[Formula, Field(alias="from", description="The driver's value at the beginning.")]
    end: Annotated[Formula, Field(alias="to", description="The driver's value at the end.")]
    steps: Annotated[int, Field(ge=2, le=500, description="Places looked at besides the first."), WHOLE] = 60
    holding: dict[Text, Formula] = Field(
        default_factory=dict, description="Other given parameters, and where they stay."
    )
    bearing: dict[Name, BearingModel] = Field(default_factory=dict)


class GuardModel(ContentModel):
    """Components that pinch where no finger gets: any two of `between`."""

    between: Annotated[tuple[Text, ...], Field(min_length=2, description="Names of components.")]
    because: Annotated[Words, Field(description="Why, as in `the front apron covers them`.")]


Stand = Annotated[dict[Text, Formula], Field(min_length=1, description="Given parameters, and where they stand.")]


class PositionsModel(ContentModel):
    """The driver is a given parameter; a position is its value in a named state, or those of several parameters."""

    driver: Text
    positions: dict[Name, Formula | Stand]
    phases: dict[Name, PhaseModel] = Field(default_factory=dict)
    travels: dict[Name, TravelModel] = Field(default_factory=dict)
    guarded: dict[Name, GuardModel] = Field(
        default_factory=dict, description="Pinch points that are out of the reach of fingers."
    )

    @property
    def drivers(self) -> tuple[Text, ...]:
        """Every parameter that a position or a travel sets, each once, the chief one first."""
        set_in_travels = (each.driver for each in self.travels.values() if each.driver is not None)
        set_in_positions = (name for each in self.positions for name in self.stand(each))
        return tuple(dict.fromkeys((self.driver, *set_in_positions, *set_in_travels)))

    def stand(self, position: Text) -> dict[Text, Formula]:
        """Where the parameters stand in a position, by their names."""
        said = self.positions[position]
        return said if isinstance(said, dict) else {self.driver: said}
