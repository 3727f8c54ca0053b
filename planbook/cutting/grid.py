"""Whole nanometres: the grid on which cutting is reckoned exactly. 1/64 in and a micrometre are whole on it."""

import math

from planbook.measure import snap


def whole_piece(nm: float) -> int:
    """A piece's size, a kerf or a trim (nm), rounded up: what is planned is never too small."""
    return math.ceil(snap(nm))


def whole_stock(nm: float) -> int:
    """A stock's size (nm), rounded down: what is planned is never more than there is."""
    return math.floor(snap(nm))
