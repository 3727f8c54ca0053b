"""shared/handbook.yaml: published numbers that formulas use by name, `handbook.<what>.<measure>`."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from planbook.source.models.base import ContentModel
from planbook.source.text import Formula, Words


class PublishedModel(ContentModel):
    """A number with where it is published."""

    value: Annotated[Formula, Field(alias="is", description="The value, the same in every market.")]
    means: Annotated[Words, Field(description="What it is, in words.")]
    source: Annotated[Words, Field(description="Where it is published, and whether it was read there.")]
