"""cutting.yaml: how stock is cut to pieces. finishing.yaml: what the piece is finished with."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from planbook.source.models.base import WHOLE, ContentModel, Name, Pair
from planbook.source.text import Formula, Text, Words


class Machine(StrEnum):
    """What cuts the pieces: a saw from edge to edge, or a router along any line."""

    SAW = "saw"
    ROUTER = "router"


class WayModel(ContentModel):
    """How one kind of stock, or one stock, is cut. What is not said is as usual."""

    by: Annotated[Machine | None, Field(description="saw (from edge to edge) or router (along any line)")] = None
    kerf: Annotated[Formula | None, Field(description="What a cut takes away: a saw's kerf, a cutter's diameter.")] = (
        None
    )
    trim: Annotated[
        Pair | None, Field(description="Lost before anything is cut to size: [at each end, at each side].")
    ] = None
    oversize: Annotated[Pair | None, Field(description="What a rough piece is larger by: [longer, wider].")] = None


class TogetherModel(ContentModel):
    """Parts that come from one piece of stock."""

    parts: Annotated[tuple[Text, ...], Field(min_length=2, description="Part keys, in the order of the grain.")]
    because: Annotated[Words, Field(description="Why, for the cut list.")]


class CuttingModel(ContentModel):
    """The whole of cutting.yaml."""

    sheets: WayModel = WayModel()
    boards: WayModel = WayModel()
    rods: WayModel = WayModel()
    stock: Annotated[dict[Name, WayModel], Field(description="What is otherwise for one stock, by its key.")] = Field(
        default_factory=dict
    )
    together: dict[Name, TogetherModel] = Field(default_factory=dict)


class FinishUseModel(ContentModel):
    """A finish that the piece gets."""

    item: Annotated[Text, Field(description="A key of the market tables' finishes.")]
    coats: Annotated[int, Field(ge=1, le=50), WHOLE] = 1
    leave_out: Annotated[tuple[Text, ...], Field(description="Keys of parts that do not get it.")] = ()
    use: Annotated[Words, Field(description="Where it goes.")] = Words("")
