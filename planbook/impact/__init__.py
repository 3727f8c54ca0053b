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
from planbook.impact.reshaping import Reshaped, reshaped
from planbook.impact.saying import ORDER, TITLES, gravest, say_part, say_reach, say_stages, say_step
from planbook.impact.turning import say_turn
from planbook.impact.weighing import weigh

__all__ = [
    "ORDER",
    "TITLES",
    "EditionImpact",
    "Impact",
    "ItemImpact",
    "Measure",
    "PartImpact",
    "Range",
    "Reach",
    "Reshaped",
    "Spot",
    "Stage",
    "StepImpact",
    "Work",
    "gravest",
    "reshaped",
    "say_part",
    "say_reach",
    "say_stages",
    "say_step",
    "say_turn",
    "weigh",
]
