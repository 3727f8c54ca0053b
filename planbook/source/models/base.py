"""What every content model shares: frozen, no unknown keys, fields described for an editor."""

from __future__ import annotations

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field

from planbook.source.text import Formula, Text


class ContentModel(BaseModel):
    """A mapping in a content file: every key is known, nothing changes after reading."""

    model_config = ConfigDict(extra="forbid", frozen=True)


Pair = Annotated[tuple[Formula, Formula], Field(description="Two measures: [x, y] on a face, or [length, width].")]
Triple = Annotated[tuple[Formula, Formula, Formula], Field(description="Three measures: [x, y, z].")]
Name = Annotated[Text, Field(description="A name used elsewhere in the content.")]
