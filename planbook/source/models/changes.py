"""changes.yaml: what the author says about each version; the comparison supplies the facts."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from planbook.source.models.base import WHOLE, ContentModel, Day
from planbook.source.text import Text, Words


class ReasonModel(ContentModel):
    """Why something changed. `about` names a part key, a parameter, a rule, a page or step file, or a dimension id.

    It may name several that changed for one reason, and a group of parameters or rules by what their names begin with.
    Where things of several sorts have the name, the sort stands before it: `step:fork`, `part:fork`, `parameter:fork`.
    """

    about: Text | tuple[Text, ...]
    why: Words

    @property
    def subjects(self) -> tuple[Text, ...]:
        """All that the reason is about."""
        return self.about if isinstance(self.about, tuple) else (self.about,)


class RemedyModel(ContentModel):
    """What to do with a glued piece that cannot be reworked or made anew. `about` names a part, or a feature of one.

    A feature is named as `handle/pivot`. Several may be named that have one remedy.
    """

    about: Text | tuple[Text, ...]
    glued: Annotated[Words, Field(description="What a builder does who has glued the part.")]

    @property
    def subjects(self) -> tuple[Text, ...]:
        """All that the remedy is about."""
        return self.about if isinstance(self.about, tuple) else (self.about,)


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
