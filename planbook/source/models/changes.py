"""changes.yaml: what the author says about each version; the comparison supplies the facts."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from planbook.source.models.base import WHOLE, ContentModel, Day
from planbook.source.text import Text


class ReasonModel(ContentModel):
    """Why one thing changed. `about` names a part key, a parameter, a rule, a page or step file, or a dimension id."""

    about: Text
    why: Text


class RemedyModel(ContentModel):
    """What to do where no tool reaches any more. `about` names a part key, or a feature as `handle/pivot`."""

    about: Text
    glued: Annotated[Text, Field(description="What a builder does who has glued the part.")]


class VersionNotesModel(ContentModel):
    """What the author says about one version."""

    issued: Day
    summary: Annotated[Text, Field(description="The version in one or two sentences.")]
    reasons: tuple[ReasonModel, ...] = ()
    remedies: tuple[RemedyModel, ...] = ()
    lifts: Annotated[
        tuple[Annotated[int, Field(ge=1), WHOLE], ...],
        Field(description="Numbers of the advisories that hold no longer for who has this version."),
    ] = ()


# The whole file: version text ("1.0", quoted or not: it is read as typed) to notes, newest last.
