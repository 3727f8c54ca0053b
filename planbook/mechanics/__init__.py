"""Calculators for pieces that move and bear, each pure, with its source, assumptions and range."""

from collections.abc import Mapping
from types import MappingProxyType

from planbook.mechanics.beams import BEAMS
from planbook.mechanics.calculator import Calculator, Input, OutOfRange, Output, Way
from planbook.mechanics.cranks import CRANKS
from planbook.mechanics.fasteners import FASTENERS
from planbook.mechanics.guides import GUIDES
from planbook.mechanics.lateral import LATERAL
from planbook.mechanics.levers import LEVERS
from planbook.mechanics.linkages import LINKAGES
from planbook.mechanics.moisture import MOISTURE
from planbook.mechanics.plates import PLATES
from planbook.mechanics.slopes import SLOPES
from planbook.mechanics.springs import SPRINGS
from planbook.mechanics.stability import STABILITY

SUBJECTS: Mapping[str, tuple[Calculator, ...]] = MappingProxyType(
    {
        "Ramps": SLOPES,
        "Levers": LEVERS,
        "Cranks, slides and segments": CRANKS,
        "Linkages": LINKAGES,
        "Springs": SPRINGS,
        "Guides": GUIDES,
        "Beams and shelves": BEAMS,
        "Panels": PLATES,
        "Screws, pins and rollers": FASTENERS,
        "Screws and bolts loaded from the side": LATERAL,
        "Wood and moisture": MOISTURE,
        "Weight and tipping": STABILITY,
    }
)
CALCULATORS: Mapping[str, Calculator] = MappingProxyType(
    {each.name: each for every in SUBJECTS.values() for each in every}
)

__all__ = ["CALCULATORS", "SUBJECTS", "Calculator", "Input", "OutOfRange", "Output", "Way"]
