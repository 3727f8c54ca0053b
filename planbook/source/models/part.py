"""parts/<key>.yaml: one thing to make.

x runs along the grain, y across, z through the thickness, from the datum corner. The face view looks at the part from
+z. Faces: face (z = thickness), back (z = 0), left_end (x = 0), right_end,
front_edge (y = 0), rear_edge. Positions on any face are measured from the datum corner along the part's own axes:
face and back take [x, y]; ends take [y, z]; edges take [x, z]. Depth goes into the wood from the face named in `on`.

A hole, slot, mortise or opening may instead be measured `from` another of them: from its centre, the start of a slot,
the near corner of a mortise or opening, and from the first of a row.
"""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated, Self

from pydantic import Discriminator, Field, Tag, model_validator

from planbook.measure.systems import Precision
from planbook.source.models.around import ArcRampModel, ArcSlotModel, RingSectorModel
from planbook.source.models.base import (
    WHOLE,
    ContentModel,
    Flag,
    Name,
    SheetNumber,
    ShortModel,
    Triple,
    fault,
    recognised_by,
    tag_by,
)
from planbook.source.models.bores import HoleModel, SlotModel
from planbook.source.models.dimension import Dimensioning, DimensionKey, DimensionModel, ViewAxis
from planbook.source.models.feature import (
    FACE_AXES,
    Axis,
    Corner,
    Edge,
    FaceName,
    FeatureModel,
    Method,
    MethodModel,
    PlacedModel,
    RepeatModel,
)
from planbook.source.models.outline import PocketModel, VertexModel
from planbook.source.models.recesses import GrooveModel, MortiseModel, NotchModel, OpeningModel, RabbetModel, TenonModel
from planbook.source.models.showing import DetailModel, Letter, SectionModel
from planbook.source.models.slanted import EndCutModel, RoundTenonModel, TurnedModel
from planbook.source.models.slopes import ChamferModel, RampModel, RoundOverModel, TaperModel
from planbook.source.text import Formula, Text, Words

__all__ = [
    "FACE_AXES",
    "Axis",
    "Corner",
    "Edge",
    "FaceName",
    "FeatureModel",
    "Method",
    "MethodModel",
    "PlacedModel",
    "RepeatModel",
]
"""What a feature is made of stands in `feature`; others import it from here too."""


class PartKind(StrEnum):
    """Whether it stays in the piece, helps to make it, or tries something out."""

    PART = "part"
    JIG = "jig"
    TEST_PIECE = "test_piece"


# The key that tells which feature a mapping is.
FEATURE_KEYS: dict[str, type[FeatureModel]] = {
    "hole": HoleModel,
    "slot": SlotModel,
    "groove": GrooveModel,
    "rabbet": RabbetModel,
    "notch": NotchModel,
    "mortise": MortiseModel,
    "opening": OpeningModel,
    "tenon": TenonModel,
    "round_tenon": RoundTenonModel,
    "turned": TurnedModel,
    "end_cut": EndCutModel,
    "arc_slot": ArcSlotModel,
    "ring_sector": RingSectorModel,
    "arc_ramp": ArcRampModel,
    "pocket": PocketModel,
    "taper": TaperModel,
    "ramp": RampModel,
    "chamfer": ChamferModel,
    "round_over": RoundOverModel,
}
AnyFeature = Annotated[
    Annotated[HoleModel, Tag("hole")]
    | Annotated[SlotModel, Tag("slot")]
    | Annotated[GrooveModel, Tag("groove")]
    | Annotated[RabbetModel, Tag("rabbet")]
    | Annotated[NotchModel, Tag("notch")]
    | Annotated[MortiseModel, Tag("mortise")]
    | Annotated[OpeningModel, Tag("opening")]
    | Annotated[TenonModel, Tag("tenon")]
    | Annotated[RoundTenonModel, Tag("round_tenon")]
    | Annotated[TurnedModel, Tag("turned")]
    | Annotated[EndCutModel, Tag("end_cut")]
    | Annotated[ArcSlotModel, Tag("arc_slot")]
    | Annotated[RingSectorModel, Tag("ring_sector")]
    | Annotated[ArcRampModel, Tag("arc_ramp")]
    | Annotated[PocketModel, Tag("pocket")]
    | Annotated[TaperModel, Tag("taper")]
    | Annotated[RampModel, Tag("ramp")]
    | Annotated[ChamferModel, Tag("chamfer")]
    | Annotated[RoundOverModel, Tag("round_over")],
    Discriminator(tag_by(FEATURE_KEYS)),
    recognised_by(FEATURE_KEYS, "feature"),
]


class QuantityModel(ShortModel):
    """How many, so many as drawn and so many mirrored."""

    short_key = "as_drawn"
    short_kind = str

    as_drawn: Annotated[int, Field(ge=0, le=1000), WHOLE]
    mirrored: Annotated[int, Field(ge=0, le=1000), WHOLE] = 0

    @model_validator(mode="after")
    def _check(self) -> Self:
        if self.as_drawn + self.mirrored == 0:
            raise fault("The quantity is 0.", "Give how many are made, for example `quantity: 1`, or delete the part.")
        return self


class MarksModel(ContentModel):
    """What the pieces as drawn and the mirrored ones are called, so that a builder can mark them."""

    as_drawn: Words
    mirrored: Words


class PartGrain(StrEnum):
    """Which way the grain of a part runs: along its x, or as it comes."""

    ALONG = "along"
    FREE = "free"


class EdgingModel(ContentModel):
    """A strip on some edges of a part; its `size` is that of the wood under the strip."""

    item: Annotated[Text, Field(description="A hardware key of the market tables, bought by length.")]
    on: Annotated[tuple[Edge, ...], Field(min_length=1, description="left, right, front, rear")]


class PartModel(ContentModel):
    """The whole of a part file."""

    number: Annotated[int, Field(ge=1, le=9999), WHOLE]
    title: Words
    kind: PartKind = PartKind.PART
    sheet: Annotated[
        SheetNumber | None, Field(description="Sheet number, fixed for life; the part's number without it.")
    ] = None
    stock: Annotated[Text, Field(description="A stock name of the market tables.")]
    quantity: Annotated[QuantityModel, Field(description="A number, or {as_drawn, mirrored}.")]
    size: Annotated[Triple, Field(description="[length, width, thickness] of the finished part, tenons included.")]
    outline: Annotated[
        dict[Name, VertexModel] | None,
        Field(description="Named corners counter-clockwise from the datum corner; a rectangle without it."),
    ] = None
    # In the file a feature is recognised by its key; after reading it is one of the models above.
    features: dict[Name, AnyFeature] = Field(default_factory=dict)
    notes: Annotated[tuple[Words, ...], Field(description="Printed on the sheet; prose with names in {{ }}.")] = ()
    dimensions: Annotated[
        dict[DimensionKey, DimensionModel],
        Field(description="What is to be said of a dimension, by its feature and measure: `pivot/x`, `blank/length`."),
    ] = Field(default_factory=dict)
    dimensioning: Annotated[
        dict[ViewAxis, Dimensioning],
        Field(description="How measures from one datum stand in a view: `face/x: running`; else by their number."),
    ] = Field(default_factory=dict)
    sections: Annotated[
        dict[Letter, SectionModel],
        Field(description="Where the part is cut open: `A: {through: pivot, view: front_edge}`."),
    ] = Field(default_factory=dict)
    details: Annotated[
        dict[Letter, DetailModel],
        Field(description="What is shown again, larger: `B: {around: shaft, view: right_end}`."),
    ] = Field(default_factory=dict)
    template: Annotated[
        Flag, Field(description="Whether it is also printed at full size, to be glued up and used.")
    ] = False
    marks: Annotated[
        MarksModel | None, Field(description="Names of the two hands: {as_drawn: left, mirrored: right}.")
    ] = None
    least_wall: Annotated[
        Formula | None, Field(description="The thinnest wood that its features may leave; as set.yaml says without it.")
    ] = None
    precision: Precision | None = None
    grain: Annotated[
        PartGrain, Field(description="along: its x runs with the grain; free: either way, so that less is wasted.")
    ] = PartGrain.ALONG
    edging: Annotated[EdgingModel | None, Field(description="Edges that get a strip.")] = None
    was: tuple[Text, ...] = ()

    @model_validator(mode="after")
    def _check(self) -> Self:
        if self.marks is not None and not self.quantity.mirrored:
            remedy = "Delete `marks`, or say how many are mirrored: `quantity: {as_drawn: 1, mirrored: 1}`."
            raise fault("No piece of this part is mirrored, so that it has no two hands.", remedy)
        return self
