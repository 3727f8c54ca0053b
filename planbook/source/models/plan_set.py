"""set.yaml: what the plan set is, who makes it, and the editions it is sold in."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from planbook.measure.systems import Units
from planbook.source.models.base import ContentModel, Day, Flag, Name
from planbook.source.text import Formula, Text, Words


class Paper(StrEnum):
    """ISO 216 A4 or ASME Y14.1 size A (US Letter)."""

    A4 = "a4"
    LETTER = "letter"


class Projection(StrEnum):
    """How views are laid out round the face view (ISO 5456-2)."""

    FIRST_ANGLE = "first_angle"
    THIRD_ANGLE = "third_angle"


class EditionModel(ContentModel):
    """One compilation for a public. The five choices are independent of one another."""

    title: Annotated[Words, Field(description="How the edition is called on the cover, e.g. 'Metric edition'.")]
    units: Units
    paper: Paper
    projection: Projection
    market: Annotated[Text, Field(description="Where stock is bought: a file in shared/markets/.")]
    language: Text = Text("en")
    built: Annotated[
        Flag, Field(description="Whether a piece was really built from this edition; if not, the plan says so.")
    ] = False


class Workshop(ContentModel):
    """Who makes the plans."""

    name: Text
    place: Text = Text("")
    rights: Annotated[Words, Field(description="What a buyer may do with the plans.")] = Words("")


class GeneralTolerances(ContentModel):
    """What holds where a sheet states no tolerance. Values by edition units are formulas of design parameters."""

    length: Annotated[Text, Field(description="Formula: plus or minus on a length, e.g. make.length_tolerance")]
    angle: Annotated[Text, Field(description="Formula: plus or minus on an angle.")]
    diagonals: Annotated[Text, Field(description="Formula: how much the two diagonals of a rectangle may differ.")]
    moisture: Annotated[Words, Field(description="Moisture content of the wood in words, e.g. '6 to 9 %'.")]


class SetModel(ContentModel):
    """The whole of set.yaml."""

    title: Words
    subtitle: Words = Words("")
    code: Annotated[Text, Field(description="Document number; a sheet is numbered CODE-SHEET.")]
    summary: Annotated[Words, Field(description="One or two sentences for the cover.")]
    workshop: Workshop
    issued: Annotated[Day, Field(description="Issue date of the working version: an input, never the clock.")]
    drawn_by: Annotated[Text, Field(description="ISO 7200 creator.")]
    approved_by: Annotated[Text, Field(description="ISO 7200 approval person.")]
    editions: Annotated[dict[Name, EditionModel], Field(min_length=1)]
    tolerances: GeneralTolerances
    least_wall: Annotated[
        Formula | None, Field(description="The thinnest wood that features may leave, e.g. make.wall.")
    ] = None
    cover: Annotated[Text, Field(description="The figure (figures.yaml) shown on the cover.")]
    overall: Annotated[
        tuple[Formula, Formula, Formula] | None,
        Field(description="Length, depth and height of the piece; without it those of the box round all parts."),
    ] = None
    cautions: Annotated[
        tuple[Text, ...], Field(description="Names of cautions on the cautions page (cautions.yaml or shared).")
    ]
    tools: Annotated[tuple[Words, ...], Field(description="What the builder needs at hand, one line each.")] = ()
