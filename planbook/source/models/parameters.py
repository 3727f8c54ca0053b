"""parameters.yaml: a tree of groups whose leaves are quantities, given or derived."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from planbook.measure.systems import Precision
from planbook.source.models.base import ContentModel
from planbook.source.text import Formula, Text


class ParameterModel(ContentModel):
    """A leaf. Written short (`length: 59 in`), only `is` is set. Exactly one of `is` and `by_market`."""

    value: Annotated[Formula | None, Field(alias="is", description="The value or the formula.")] = None
    by_market: Annotated[dict[Text, Formula] | None, Field(description="One value or formula per market.")] = None
    tolerance: Annotated[
        Text | None, Field(description="'1/32 in' is plus or minus; '+0.5 mm/0', '0/-0.5 mm' can be said.")
    ] = None
    means: Annotated[Text, Field(description="What it is, for the table of dimensions.")] = Text("")
    precision: Precision | None = None
    was: Annotated[tuple[Text, ...], Field(description="Names it had in earlier versions.")] = ()


# A group's key leads to a leaf or to a further group; `top.length` is the dotted path. A mapping with `is` or
# `by_market` is a leaf; anything typed as a scalar is a leaf with only `is`.
