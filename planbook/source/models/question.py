"""The head of a question (questions/*.md): what a buyer asked, of which version, and about what. The body answers it.

No person's name or address is kept: a question is about the plan.
"""

from __future__ import annotations

import re
from typing import Annotated, Self

from pydantic import Field, model_validator

from planbook.source.models.base import ContentModel, Day, Version, fault
from planbook.source.text import Text

_PERSONAL = re.compile(r"[\w.+-]+@[\w-]+\.\w+|(?<!\w)\+?\d[\d ()-]{8,}\d(?!\w)")
"""Addresses of mail, and what reads as a telephone number."""


class QuestionHead(ContentModel):
    """A question as it was asked; its key is the file name."""

    asked: Annotated[Day, Field(description="The day on which it was asked.")]
    version: Annotated[Version, Field(description="The released version that it was asked of.")]
    edition: Annotated[Text | None, Field(description="The edition, where it is about one.")] = None
    about: Annotated[
        Text, Field(description="A part, a dimension's id, a parameter, a step, a page or a figure, by its name.")
    ]
    question: Annotated[Text, Field(description="In the words in which the plan prints it.")]
    shown: Annotated[
        tuple[Text, ...], Field(description="What shows the answer in the plan, by name: a dimension, figure, step.")
    ] = ()

    @model_validator(mode="after")
    def _check(self) -> Self:
        if not self.question.strip():
            raise fault("The question says nothing.", "Write what was asked, as the plan is to print it.")
        if names_somebody(self.question):
            raise fault(
                "The question holds what reads as a person's address or telephone number.",
                "Take it out: a question is kept for years and printed, and it is about the plan.",
            )
        return self


def names_somebody(text: str) -> bool:
    """Whether a text holds what reads as an address or a telephone number."""
    return bool(_PERSONAL.search(text))
