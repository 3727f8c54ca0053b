"""figures.yaml: pictures that pages and steps show by name. Every figure has a caption and a text for the blind."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated, Self

from pydantic import Discriminator, Field, Tag, model_validator

from planbook.source.models.base import WHOLE, ContentModel, Flag, Version, fault, recognised_by, tag_by
from planbook.source.models.part import FaceName
from planbook.source.text import Formula, Text, Words


class Side(StrEnum):
    """Where an elevation of the assembly is seen from."""

    FRONT = "front"
    REAR = "rear"
    LEFT = "left"
    RIGHT = "right"
    TOP = "top"
    BELOW = "below"


class Corner(StrEnum):
    """The corner of the assembly that is nearest in an isometric view: an upper one, or one below."""

    FRONT_LEFT = "front_left"
    FRONT_RIGHT = "front_right"
    REAR_LEFT = "rear_left"
    REAR_RIGHT = "rear_right"
    FRONT_LEFT_BELOW = "front_left_below"
    FRONT_RIGHT_BELOW = "front_right_below"
    REAR_LEFT_BELOW = "rear_left_below"
    REAR_RIGHT_BELOW = "rear_right_below"


class OfAssemblyModel(ContentModel):
    """What every picture of the assembly may say."""

    position: Annotated[Text | None, Field(description="A name of positions.yaml.")] = None
    show: Annotated[tuple[Text, ...] | None, Field(description="Components drawn; all without it.")] = None
    emphasise: Annotated[tuple[Text, ...], Field(description="Components in black; the others turn grey.")] = ()
    label: Annotated[Flag, Field(description="Whether part references with leaders are drawn.")] = False
    large: Annotated[Flag, Field(description="From margin to margin and most of a page high.")] = False
    caption: Words
    alt: Annotated[Words, Field(description="What the figure shows, in words.")]


class ElevationModel(OfAssemblyModel):
    """The assembly seen from a side, hidden lines removed."""

    elevation: Side

    @property
    def seen_from(self) -> str:
        """The side's name."""
        return str(self.elevation)


class IsometricModel(OfAssemblyModel):
    """The assembly seen from over a corner: lengths along its three axes are true to the scale bar."""

    isometric: Corner

    @property
    def seen_from(self) -> str:
        """The corner's name."""
        return str(self.isometric)


class ApartModel(ContentModel):
    """Components moved together from their places."""

    move: Annotated[tuple[Text, ...], Field(min_length=1, description="Components.")]
    by: Annotated[tuple[Formula, Formula, Formula], Field(description="Lengths to the right, to the back and up.")]


class ExplodedModel(OfAssemblyModel):
    """The assembly taken apart, seen from over a corner; narrow lines lead from joint to joint."""

    exploded: Corner
    apart: Annotated[
        tuple[ApartModel, ...],
        Field(min_length=1, description="What is moved; a component named several times goes all the ways."),
    ]

    @property
    def seen_from(self) -> str:
        """The corner's name."""
        return str(self.exploded)


class StepFigureModel(OfAssemblyModel):
    """What a build step adds, in black, to what earlier steps have made, in grey.

    Added are the components of the step's parts that no earlier step has, or all of them where each was there before,
    and those in `emphasise`, such as rods. What is there already is what earlier steps and their figures added, or the
    components in `show`.
    """

    step: Annotated[Text, Field(description="The name of a build step.")]
    seen_from: Annotated[
        Corner | None, Field(description="The nearest corner; without it the one from which most of it shows.")
    ] = None


class RowModel(OfAssemblyModel):
    """The assembly in several positions, all from one side or corner and to one scale, in the order of a movement."""

    row: Annotated[Side | Corner, Field(description="The side or the corner that it is seen from.")]
    positions: Annotated[
        tuple[Text, ...], Field(min_length=2, max_length=6, description="Names of positions.yaml, in order.")
    ]

    @model_validator(mode="after")
    def _check(self) -> Self:
        if self.position is not None or self.label:
            raise fault("A row shows several positions, without part numbers.", "Take `position` and `label` out.")
        return self

    @property
    def seen_from(self) -> str:
        """The name of the side or corner."""
        return str(self.row)


class PartFigureModel(ContentModel):
    """One view of a part without dimensions."""

    part: Text
    view: FaceName = FaceName.FACE
    emphasise: Annotated[tuple[Text, ...], Field(description="Features drawn heavier.")] = ()
    caption: Words
    alt: Words


class ShowsModel(ContentModel):
    """What a photograph shows: the version that was built, and which of its parts are seen."""

    version: Version
    parts: Annotated[tuple[Text, ...], Field(min_length=1, description="Keys of the parts that are seen.")]


class PictureModel(ContentModel):
    """A PNG, JPEG, TIFF or SVG file in the plan set's folder."""

    picture: Text
    shows: Annotated[
        ShowsModel | None, Field(description="Of a photograph: told as outdated when one of these parts changes.")
    ] = None
    caption: Words
    alt: Words


class CurveModel(ContentModel):
    """One curve: a formula of the parameter that varies."""

    value: Formula
    label: Words


class LimitModel(ContentModel):
    """A level line that a curve is read against."""

    value: Formula
    label: Words


class ChartModel(ContentModel):
    """Curves of formulas while one given parameter runs from `start` to `end`; every point is an evaluate."""

    chart: Annotated[Text, Field(description="The given parameter that varies.")]
    start: Formula
    end: Formula
    steps: Annotated[int, Field(ge=2, le=500), WHOLE] = 60
    curves: Annotated[tuple[CurveModel, ...], Field(min_length=1)]
    limits: tuple[LimitModel, ...] = ()
    x_label: Words
    y_label: Words
    caption: Words
    alt: Words


class TravelCurveModel(ContentModel):
    """A curve over a travel: a formula, or the smallest clearance between components."""

    value: Formula | None = None
    clearance: Annotated[
        tuple[Text, ...] | None,
        Field(min_length=2, description="Components: the smallest clearance of any two that move against each other."),
    ] = None
    label: Words

    @model_validator(mode="after")
    def _one_of_two(self) -> Self:
        if (self.value is None) == (self.clearance is None):
            raise fault("A curve is either a value or a clearance.", "Give it one: `value: platform.lift`.")
        return self


class TravelChartModel(ContentModel):
    """Curves along a travel of positions.yaml, with the limits of the rules that are judged over it drawn in."""

    travel: Annotated[Text, Field(description="A travel of positions.yaml.")]
    curves: Annotated[tuple[TravelCurveModel, ...], Field(min_length=1)]
    limits: Annotated[tuple[LimitModel, ...], Field(description="Besides those of the rules.")] = ()
    x_label: Words
    y_label: Words
    caption: Words
    alt: Words


FIGURE_KEYS: dict[str, type[ContentModel]] = {
    "elevation": ElevationModel,
    "isometric": IsometricModel,
    "exploded": ExplodedModel,
    "step": StepFigureModel,
    "row": RowModel,
    "part": PartFigureModel,
    "picture": PictureModel,
    "chart": ChartModel,
    "travel": TravelChartModel,
}
AnyFigure = Annotated[
    Annotated[ElevationModel, Tag("elevation")]
    | Annotated[IsometricModel, Tag("isometric")]
    | Annotated[ExplodedModel, Tag("exploded")]
    | Annotated[StepFigureModel, Tag("step")]
    | Annotated[RowModel, Tag("row")]
    | Annotated[PartFigureModel, Tag("part")]
    | Annotated[PictureModel, Tag("picture")]
    | Annotated[ChartModel, Tag("chart")]
    | Annotated[TravelChartModel, Tag("travel")],
    Discriminator(tag_by(FIGURE_KEYS)),
    recognised_by(FIGURE_KEYS, "figure"),
]
