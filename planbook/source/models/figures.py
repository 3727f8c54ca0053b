"""figures.yaml: pictures that pages and steps show by name. Every figure has a caption and a text for the blind."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from planbook.source.models.base import ContentModel
from planbook.source.models.part import FaceName
from planbook.source.text import Formula, Text


class Side(StrEnum):
    """Where an elevation of the assembly is seen from."""

    FRONT = "front"
    REAR = "rear"
    LEFT = "left"
    RIGHT = "right"
    TOP = "top"
    BELOW = "below"


class ElevationModel(ContentModel):
    """The assembly seen from a side, nearer things over farther ones."""

    elevation: Side
    position: Annotated[Text | None, Field(description="A name of positions.yaml.")] = None
    show: Annotated[tuple[Text, ...] | None, Field(description="Components drawn; all without it.")] = None
    emphasise: Annotated[tuple[Text, ...], Field(description="Components in black; the others turn grey.")] = ()
    label: Annotated[bool, Field(description="Whether part references with leaders are drawn.")] = False
    caption: Text
    alt: Annotated[Text, Field(description="What the figure shows, in words.")]


class PartFigureModel(ContentModel):
    """One view of a part without dimensions."""

    part: Text
    view: FaceName = FaceName.FACE
    emphasise: Annotated[tuple[Text, ...], Field(description="Features drawn heavier.")] = ()
    caption: Text
    alt: Text


class PictureModel(ContentModel):
    """A PNG, JPEG or SVG file in the plan set's folder."""

    picture: Text
    caption: Text
    alt: Text


class CurveModel(ContentModel):
    value: Formula
    label: Text


class LimitModel(ContentModel):
    value: Formula
    label: Text


class ChartModel(ContentModel):
    """Curves of formulas while one given parameter runs from `start` to `end`; every point is an evaluate."""

    chart: Annotated[Text, Field(description="The given parameter that varies.")]
    start: Formula
    end: Formula
    steps: Annotated[int, Field(ge=2, le=500)] = 60
    curves: tuple[CurveModel, ...]
    limits: tuple[LimitModel, ...] = ()
    x_label: Text
    y_label: Text
    caption: Text
    alt: Text


AnyFigure = ElevationModel | PartFigureModel | PictureModel | ChartModel
FIGURE_KEYS: dict[str, type[ContentModel]] = {
    "elevation": ElevationModel,
    "part": PartFigureModel,
    "picture": PictureModel,
    "chart": ChartModel,
}
