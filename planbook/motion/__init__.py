"""The assembly in its positions and along its travels: whether its components can stand and pass there."""

from planbook.motion.checking import check_assembly
from planbook.motion.pair import NO_SHIFT, Pair, Shift, Standing, pair_of
from planbook.motion.pinching import FINGER_FREE, Pinch
from planbook.motion.positions import place_in
from planbook.motion.sweep import Nearest
from planbook.motion.travels import Travel, check_travels, travels_of

__all__ = [
    "FINGER_FREE",
    "NO_SHIFT",
    "Nearest",
    "Pair",
    "Pinch",
    "Shift",
    "Standing",
    "Travel",
    "check_assembly",
    "check_travels",
    "pair_of",
    "place_in",
    "travels_of",
]
