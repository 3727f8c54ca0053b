"""The assembly in its named positions, and whether its components can stand there as placed."""

from planbook.motion.checking import check_assembly
from planbook.motion.positions import place_in

__all__ = ["check_assembly", "place_in"]
