"""`from:` of a feature: the other feature that its position is measured from, in place of the datum corner."""

from __future__ import annotations

from typing import Annotated, Self

from pydantic import Field, model_validator

from planbook.source.models.base import ShortModel, fault
from planbook.source.text import Text


class FromModel(ShortModel):
    """Written short (`from: pivot`) it holds along both axes of the face; `{x: pivot}` along that one only."""

    short_key = "both"
    short_kind = str

    both: Annotated[Text | None, Field(description="A feature of this part, for both axes of the face.")] = None
    x: Annotated[Text | None, Field(description="A feature of this part, along x only.")] = None
    y: Annotated[Text | None, Field(description="A feature of this part, along y only.")] = None
    z: Annotated[Text | None, Field(description="A feature of this part, along z only.")] = None

    @model_validator(mode="after")
    def _check(self) -> Self:
        single = self.single
        if self.both is not None and single:
            raise fault("`from` names a feature for both axes and one for a single axis.", "Keep one of the two.")
        if self.both is None and not single:
            raise fault("`from` names no feature.", "Write `from: NAME`, or `from: {x: NAME}` for one axis.")
        return self

    @property
    def single(self) -> dict[str, Text]:
        """The features that are named for one axis, by that axis."""
        named = {"x": self.x, "y": self.y, "z": self.z}
        return {axis: name for axis, name in named.items() if name is not None}

    def along(self, axis: str) -> Text | None:
        """The feature from which positions along "x", "y" or "z" are measured; None for the datum corner."""
        return self.both if self.both is not None else self.single.get(axis)
