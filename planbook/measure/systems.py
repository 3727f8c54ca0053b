"""The two unit systems and the two finenesses in which measures are printed."""

from __future__ import annotations

from enum import StrEnum


class Units(StrEnum):
    """The system whose numbers come first; the other stands in brackets."""

    INCH = "inch"
    MILLIMETRE = "millimetre"


class Precision(StrEnum):
    """How finely a measure is printed: woodwork 1/32 in or 0.5 mm; caliper .005 in or 0.1 mm."""

    WOODWORK = "woodwork"
    CALIPER = "caliper"
