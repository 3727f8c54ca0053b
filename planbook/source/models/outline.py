"""Named corners joined by straight sides or arcs: the outline of a part, and of a pocket in it."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from planbook.source.models.base import Name, Pair, ShortModel
from planbook.source.models.feature import FeatureModel
from planbook.source.text import Formula


class VertexModel(ShortModel):
    """A corner of an outline. Written short as `[x, y]`.

    `round` replaces the corner by an arc tangent to both sides. `through` makes the side that leads here (from the
    vertex before) an arc through that point.
    """

    short_key = "at"
    short_kind = list

    at: Pair
    round: Formula | None = None
    through: Pair | None = None


class PocketModel(FeatureModel):
    """`pocket` is its outline: named corners counter-clockwise, from the face's first axis towards its second."""

    pocket: Annotated[dict[Name, VertexModel], Field(description="Named corners, as of a part's outline.")]
    depth: Formula
