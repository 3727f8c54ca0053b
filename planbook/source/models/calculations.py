"""calculations.yaml: what the engineering pages print with its working. The key is a dotted name, as of a parameter."""

from __future__ import annotations

from typing import Annotated, Self

from pydantic import Field, model_validator

from planbook.measure.systems import Precision
from planbook.source.models.base import ContentModel, Name, fault
from planbook.source.models.parameters import ParameterModel
from planbook.source.text import Formula, Text


class CalculationModel(ContentModel):
    """A parameter with its working. Exactly one of `is` and `by_market`."""

    title: Annotated[Text, Field(description="What is worked out, as a heading.")]
    value: Annotated[Formula | None, Field(alias="is", description="The formula, often a call of a calculator.")] = None
    by_market: Annotated[dict[Name, Formula] | None, Field(description="One formula per market.")] = None
    assumes: Annotated[Text, Field(description="What this use of the formula takes for granted.")] = Text("")
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
