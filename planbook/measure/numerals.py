"""Numbers as a workshop writes them: mixed fractions, decimals of an inch without a leading zero, plain decimals."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Context, Decimal
from fractions import Fraction

MINUS = "−"
"""The true minus sign, as in `−0.5`."""


def fraction_text(value: Fraction) -> str:
    """`23 5/8`, `5/8`, `23`, `0`; the denominator is reduced."""
    whole, rest = divmod(abs(value), 1)
    if not rest:
        text = str(whole)
    elif whole:
        text = f"{whole} {rest.numerator}/{rest.denominator}"
    else:
        text = f"{rest.numerator}/{rest.denominator}"
    return signed(text, negative=value < 0)


def inch_decimal_text(value: Fraction, places: int) -> str:
    """`.515`, `1.454`: no zero before the point and all places kept, as ASME Y14.5 has it for inches."""
    text = f"{Decimal(value.numerator) / Decimal(value.denominator):.{places}f}".removeprefix("-")
    return signed(text.removeprefix("0"), negative=value < 0)


def decimal_text(value: Fraction, places: int) -> str:
    """`600`, `0.5`: a zero before the point and none after the last digit, as ASME Y14.5 has it for millimetres."""
    text = f"{Decimal(value.numerator) / Decimal(value.denominator):.{places}f}".removeprefix("-")
    return signed(_without_idle_zeros(text), negative=value < 0)


def significant(value: float, digits: int) -> Decimal:
    """`value` to so many significant digits, ties to even on its shortest decimal form."""
    return Context(prec=digits, rounding=ROUND_HALF_EVEN).create_decimal(repr(value))


def significant_text(value: Decimal) -> str:
    """A rounded number written out without exponent: `1380`, `52.4`, `0.12`."""
    return signed(_without_idle_zeros(f"{abs(value):f}"), negative=value < 0)


def signed(text: str, *, negative: bool) -> str:
    """`text` with a true minus before it if it is negative."""
    return f"{MINUS}{text}" if negative else text


def _without_idle_zeros(text: str) -> str:
    return text.rstrip("0").rstrip(".") if "." in text else text
