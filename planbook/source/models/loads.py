"""loads.yaml: what the piece carries, what the finished piece is tried with, and what it was worked out to bear."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from planbook.source.models.base import ContentModel
from planbook.source.text import Formula, Words


class LoadModel(ContentModel):
    """A load of one kind in one place, all three as masses or all three as forces."""

    title: Annotated[Words, Field(description="What lies, stands or pulls where.")]
    working: Annotated[Formula, Field(description="What the piece may carry in use.")]
    test: Annotated[Formula, Field(description="What the finished piece is tried with: at least as much.")]
    strength: Annotated[Formula, Field(description="Where the first of what was worked out gives: at least the test.")]
    weakest: Annotated[Words, Field(description="What that is.")]
    how: Annotated[Words, Field(description="How to try it, and what to look at.")]
    assumes: Annotated[Words, Field(description="What the working takes for granted, and what was not worked out.")]
