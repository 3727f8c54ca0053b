"""Units, quantities, rounding, and the texts that a builder reads."""

from planbook.measure.drills import printed_diameter
from planbook.measure.lengths import UNIT_SIGNS, print_gauged
from planbook.measure.printed import Printed, is_in_degrees
from planbook.measure.printing import print_calculated, print_quantity
from planbook.measure.quantity import Quantity
from planbook.measure.rounding import Direction, round_plain, round_to, settled, snap
from planbook.measure.systems import Precision, Units
from planbook.measure.tolerances import CALIPER_TOLERANCE, ToleranceText, print_limits, print_tolerance
from planbook.measure.units import INCH, MILLIMETRE, UNITS, in_words

__all__ = [
    "CALIPER_TOLERANCE",
    "INCH",
    "MILLIMETRE",
    "UNITS",
    "UNIT_SIGNS",
    "Direction",
    "Precision",
    "Printed",
    "Quantity",
    "ToleranceText",
    "Units",
    "in_words",
    "is_in_degrees",
    "print_calculated",
    "print_gauged",
    "print_limits",
    "print_quantity",
    "print_tolerance",
    "printed_diameter",
    "round_plain",
    "round_to",
    "settled",
    "snap",
]
