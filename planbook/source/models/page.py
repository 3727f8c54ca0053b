"""The head of a prose file (pages/*.md, steps/*.md): YAML between two lines of three hyphens."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from planbook.source.models.base import ContentModel, Duration, Version
from planbook.source.text import Text


class Slot(StrEnum):
    """Where a page stands: before the sheets, with the build steps' introduction, or after them."""

    FRONT = "front"
    BUILD = "build"
    BACK = "back"


class PageHead(ContentModel):
    """A page of prose; its key is the file name."""

    title: Text
    slot: Slot = Slot.FRONT
    copied: Annotated[bool, Field(description="Whether it is copied from the plans: it shares no page.")] = False
    was: tuple[Text, ...] = ()


class TranslationHead(ContentModel):
    """A page, a step or a question's answer in another language; it has the file name of the original."""

    title: Annotated[Text, Field(description="Of a page or a step.")] = Text("")
    question: Annotated[Text, Field(description="Of a question, what was asked.")] = Text("")
    of: Annotated[
        Version | None, Field(description="The released version whose words it translates; none, those of today.")
    ] = None
    dry_fit: Annotated[Text, Field(description="Of a step that has one.")] = Text("")
    hold: Annotated[Text, Field(description="Of a step that has one.")] = Text("")
    tools: Annotated[tuple[Text, ...], Field(description="Of a step that names some.")] = ()


class GlueUpModel(ContentModel):
    """How a step is glued: which part after which, and how long the glue leaves to do it."""

    order: Annotated[
        tuple[Text, ...], Field(min_length=1, description="Keys of the parts, in the order in which they are glued.")
    ]
    open_time: Annotated[Duration, Field(description="How long the glue stays open: `10 min`, or `5 to 10 min`.")]


class StepHead(ContentModel):
    """A build step; the file's number gives the order, its key is the file name without the number."""

    title: Text
    parts: Annotated[tuple[Text, ...], Field(description="Keys of the parts that this step makes or adds.")] = ()
    tools: tuple[Text, ...] = ()
    dry_fit: Annotated[Text, Field(description="What is put together without glue first, and how it must go.")] = Text(
        ""
    )
    glue_up: GlueUpModel | None = None
    hold: Annotated[Text, Field(description="What must be checked before going on.")] = Text("")
    cautions: tuple[Text, ...] = ()
    was: tuple[Text, ...] = ()
