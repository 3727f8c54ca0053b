"""Lengths and angles in words: which of them a text no longer tells, and what is left without them."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable

from planbook.statement.model import DimensionStated

_REFERENCE = re.compile(r" ?\[[^\]]*\]")
_MEASURE = re.compile(r"(?P<number>\d[\d ./]*?) ?(?P<unit>mm\b|in\b|°)")


def measures_in(texts: Iterable[str]) -> Counter[str]:
    """`23 5/8 in`, `12.5°`: all of them, those in brackets left out."""
    return Counter(
        f"{found['number'].strip()} {found['unit']}"
        for text in texts
        for found in _MEASURE.finditer(_REFERENCE.sub("", text))
    )


def without_measures(texts: Iterable[str]) -> tuple[str, ...]:
    """The same words with no lengths and angles in them."""
    return tuple(_MEASURE.sub("", _REFERENCE.sub("", text)) for text in texts)


def printed_measures(dimensions: Iterable[DimensionStated]) -> frozenset[str]:
    """How dimensions read in words."""
    return frozenset(f"{each.printed.text} {each.printed.unit}" for each in dimensions)


def is_remeasured(old: Iterable[str], new: Iterable[str], told: frozenset[str]) -> bool:
    """Whether a length or an angle gave way to another; those that changed dimensions `told` are judged by them."""
    before, after = measures_in(old), measures_in(new)
    return bool(set(before - after) - told) and bool(after - before)
