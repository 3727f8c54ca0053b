"""What a new version means for wood that was cut to an older one, from what each told the builder."""

from planbook.impact.model import (
    EditionImpact,
    Impact,
    ItemImpact,
    Measure,
    PartImpact,
    Range,
    Reach,
    Spot,
    Stage,
    StepImpact,
    Work,
)
from planbook.impact.weighing import weigh

__all__ = [
    "EditionImpact",
    "Impact",
    "ItemImpact",
    "Measure",
    "PartImpact",
    "Range",
    "Reach",
    "Spot",
    "Stage",
    "StepImpact",
    "Work",
    "weigh",
]
