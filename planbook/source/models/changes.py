"""changes.yaml: what the author says about each version; the comparison supplies the facts."""

from __future__ import annotations

from typing import Annotated, Self

from pydantic import Field, model_validator

from planbook.source.models.base import WHOLE, ContentModel, Day, fault
from planbook.source.text import Text, Words


class AboutModel(ContentModel):
    """Words about one thing, or about several that they are true of alike."""

    about: Text | tuple[Text, ...]

    @property
    def subjects(self) -> tuple[Text, ...]:
        """All that it is about."""
        return self.about if isinstance(self.about, tuple) else (self.about,)

    @model_validator(mode="after")
    def _of_something(self) -> Self:
        if not self.subjects or not all(each.strip() for each in self.subjects):
            raise fault("`about` names nothing here.", "Name what it is about, or take it out.")
        return self


class ReasonModel(AboutModel):
    """Why something changed. `about` names a part key, a parameter, a rule, a page or step file, or a dimension id.

    It may name several that changed for one reason, and a group of parameters or rules by what their names begin with.
    Where things of several sorts have the name, the sort stands before it: `step:fork`, `part:fork`, `parameter:fork`.
    """

    why: Words


class RemedyModel(AboutModel):
    """What to do with a glued piece that cannot be reworked or made anew. `about` names a part, or a feature of one.

    A feature is named as `handle/pivot`. Several may be named that have one remedy.
    """

    glued: Annotated[Words, Field(description="What a builder does who has glued the part.")]


class VersionNotesModel(ContentModel):
    """What the author says about one version."""

    issued: Day
    summary: Annotated[Words, Field(description="The version in one or two sentences.")]
    reasons: tuple[ReasonModel, ...] = ()
    remedies: tuple[RemedyModel, ...] = ()
    lifts: Annotated[
        tuple[Annotated[int, Field(ge=1), WHOLE], ...],
        Field(description="Numbers of the advisories that hold no longer for who has this version."),
    ] = ()


# The whole file: version text ("1.0", quoted or not: it is read as typed) to notes, newest last.
