"""calculations.yaml: what the engineering pages print with its working. The key is a dotted name.

A calculation is a parameter; a stack adds up the tolerances of what a parameter hangs on.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, Self

from pydantic import Discriminator, Field, Tag, model_validator

from planbook.measure.systems import Precision
from planbook.source.models.base import ContentModel, Name, fault
from planbook.source.models.parameters import ParameterModel
from planbook.source.text import Formula, Words


class CalculationModel(ContentModel):
    """A parameter with its working. Exactly one of `is` and `by_market`."""

    title: Annotated[Words, Field(description="What is worked out, as a heading.")]
    value: Annotated[Formula | None, Field(alias="is", description="The formula, often a call of a calculator.")] = None
    by_market: Annotated[dict[Name, Formula] | None, Field(description="One formula per market.")] = None
    assumes: Annotated[Words, Field(description="What this use of the formula takes for granted.")] = Words("")
    precision: Precision | None = None

    @model_validator(mode="after")
    def _check(self) -> Self:
        if (self.value is None) == (self.by_market is None):
            raise fault("A calculation has one of `is` and `by_market`.", "Keep one, for example `is: a / b`.")
        return self

    @property
    def parameter(self) -> ParameterModel:
        """What formulas and pages name."""
        return ParameterModel.model_construct(
            value=self.value, by_market=self.by_market, means=self.title, precision=self.precision
        )


class ClosingModel(ContentModel):
    """What takes up the deviation of a stack: a part fitted to what is there, or an adjuster."""

    name: Annotated[Words, Field(description="The part, feature or adjuster.")]
    by: Annotated[
        tuple[Formula, Formula], Field(description="[least, greatest] by which it can shift what is stacked.")
    ]


class StackModel(ContentModel):
    """`flush: {title: Top over platform, stack: platform.flush, within: [-0.8 mm, 0 mm], keep: 50 %}`."""

    title: Annotated[Words, Field(description="What is stacked, as a heading.")]
    stack: Annotated[Formula, Field(description="The parameter that the layers add up to.")]
    within: Annotated[tuple[Formula, Formula], Field(description="[least, greatest] that it may be.")]
    closes_on: ClosingModel | None = None
    keep: Annotated[Formula, Field(description="Share of the tolerance that is kept for the making.")] = Formula("50 %")
    assumes: Annotated[Words, Field(description="What this stack takes for granted.")] = Words("")


def _kind(value: Any) -> str:
    return "stack" if isinstance(value, StackModel) or (isinstance(value, Mapping) and "stack" in value) else "is"


AnyCalculation = Annotated[
    Annotated[StackModel, Tag("stack")] | Annotated[CalculationModel, Tag("is")], Discriminator(_kind)
]
