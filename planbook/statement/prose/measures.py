"""Bare measures: numbers with units typed into prose, where a name must stand so that every edition prints its own."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from planbook.measure import UNITS
from planbook.measure.dimensionality import LENGTH, Dimensionality
from planbook.source.findings import Finding, Severity
from planbook.source.text import Text
from planbook.statement.prose.names import Named, Names, Sort
from planbook.statement.prose.spots import place_of

_SIGNS = {
    "mm": "mm", "millimetre": "mm", "millimeter": "mm", "cm": "cm", "centimetre": "cm", "centimeter": "cm",
    "m": "m", "metre": "m", "meter": "m", "in": "in", "inch": "in", "inche": "in", '"': "in", "″": "in", "”": "in",
    "ft": "ft", "foot": "ft", "feet": "ft", "°": "deg", "deg": "deg", "degree": "deg", "g": "g", "gram": "g",
    "kg": "kg", "kilogram": "kg", "oz": "oz", "ounce": "oz", "lb": "lb", "pound": "lb", "lbf": "lbf",
    "n": "N", "newton": "N",
}  # fmt: skip
"""Units as people type them, without a plural s, to the signs of measure.UNITS."""
# A longer row of digits is no measure, and more than a float can hold.
_DIGITS = r"\d{1,15}"
_NUMBER = rf"{_DIGITS}[ -]{_DIGITS}/{_DIGITS}|{_DIGITS}/{_DIGITS}|\d{{0,15}}\.{_DIGITS}|{_DIGITS}"
_WORDS = sorted((unit for unit in _SIGNS if unit.isalpha() and unit not in ("n", "in")), key=len, reverse=True)
_MEASURE = re.compile(
    rf"(?:(?<![\w./])|(?<=\d[x×]))(?P<number>{_NUMBER})"
    rf"(?:[ \xa0-]?(?P<word>(?i:{'|'.join(_WORDS)})s?|N|in)(?![\w])\.?|\xa0?(?P<sign>[\"″”°])(?!\s?[CF]\b))"
)
_THREAD = re.compile(r"(?<![\w./])(?:M\d+(?:\s?[x×]\s?\d+(?:\.\d+)?)?|(?:\d+/\d+|#\d+)-\d+)(?![\w./])")
# "2 in each corner" and "put 4 in the holes" count things: a whole number, then "in" before one of these.
_AFTER_PREPOSITION = re.compile(
    r"\s+(?:an?|the|all|any|both|each|every|either|its?|their|your|this|that|these|those|one|two|turn|order|place|"
    r"pairs?|rows?|total|sequence|line|front|which|step|part|sheet|page|figure|table)\b|\s+\ue000"
)
_REFERRED = re.compile(r"(?:part|step|sheet|page|figure|table|version|edition|number|no\.|item)s?\s+\Z", re.IGNORECASE)
CLOSE = 0.005
"""How far, as a ratio, a named value may lie from a typed one to be proposed for it."""


@dataclass(frozen=True, slots=True)
class BareMeasure:
    """A measure as typed. `value` is in base units, None for a thread such as 1/4-20."""

    text: str
    offset: int
    value: float | None
    dimensionality: Dimensionality


def bare_measures(words: str) -> Iterator[BareMeasure]:
    """The measures in a text whose templating is masked."""
    for match in _MEASURE.finditer(words):
        unit = (match["word"] or match["sign"]).lower()
        if not _counts_things(words, match, unit):
            known = UNITS[_SIGNS[unit if unit in _SIGNS else unit.removesuffix("s")]]
            value = known.to_base(_number(match["number"]))
            yield BareMeasure(match[0].rstrip("."), match.start(), value, known.dimensionality)
    for match in _THREAD.finditer(words):
        yield BareMeasure(match[0], match.start(), None, LENGTH)


def refuse_measures(text: Text, words: str, names: Names) -> tuple[Finding, ...]:
    """A finding for each bare measure, proposing the names that print the same. `words` is `text` masked."""
    found = sorted(bare_measures(words), key=lambda measure: measure.offset)
    return tuple(
        Finding(
            "bare-measure",
            Severity.STOP,
            f"{measure.text} is typed into the text, so every edition would print it as it stands.",
            _remedy(measure, names),
            place_of(text, measure.offset),
        )
        for measure in found
    )


def _counts_things(words: str, match: re.Match[str], unit: str) -> bool:
    before, after = words[max(0, match.start() - 40) : match.start()], words[match.end() :][:40]
    if unit in ('"', "”"):
        # With a quotation open, the sign closes it.
        paragraph = words[words.rfind("\n\n", 0, match.start()) + 1 : match.start()]
        if len(re.findall(r'(?<!\d)"|“', paragraph)) > len(re.findall(r'(?<=[^\s\d])"(?=\W)|”', paragraph)):
            return True
    if unit not in ("in", '"', "″", "”"):
        return False
    if _REFERRED.search(before):
        return True
    return unit == "in" and match["number"].isdecimal() and bool(_AFTER_PREPOSITION.match(after))


def _number(number: str) -> Fraction:
    total = Fraction(0)
    for piece in re.split(r"[ -]", number):
        above, _, below = piece.partition("/")
        total += Fraction(above) / (int(below or 1) or 1)
    return total


def _remedy(measure: BareMeasure, names: Names) -> str:
    near = tuple(_thread_names(measure.text, names) if measure.value is None else _equal_names(measure, names))
    if near:
        return f"Write {' or '.join(f'{{{{ {named.path} }}}} ({_reads(named)})' for named in near[:3])}."
    if measure.value is None:
        return _thread_remedy(measure.text, names)
    return f"Name it in parameters.yaml (some.name: {measure.text}) and write {{{{ some.name }}}} here."


def _reads(named: Named) -> str:
    return named.plain if named.printed is None else named.printed.full


def _thread_remedy(text: str, names: Names) -> str:
    """For a thread that nothing in the plan set has: each market has its own."""
    sold = next((named.path for named in _titled(text, names) if named.path.startswith("hardware.")), None)
    if sold is None:
        return "Name it in the market's table under `hardware`, and write its title in {{ }} here."
    return f"Ask for it in hardware.yaml (item: {sold.split('.')[1]}) and write {{{{ {sold} }}}} here."


def _thread_names(text: str, names: Names) -> Iterable[Named]:
    return (named for named in _titled(text, names) if named.path not in names.idle)


def _titled(text: str, names: Names) -> Iterable[Named]:
    """What has a thread in its words."""
    wanted = re.compile(rf"(?<![\w/]){re.escape(text)}(?![\w/])")
    return (named for named in names.named.values() if named.sort is Sort.WORDS and wanted.search(named.plain))


def _equal_names(measure: BareMeasure, names: Names) -> list[Named]:
    """Parameters first, then dimensions, then hardware and stock; the nearest first within each."""
    value = measure.value or 0.0
    near: list[tuple[int, float, Named]] = []
    for named in names.named.values():
        if named.path in names.idle or named.printed is None or named.dimensionality != measure.dimensionality:
            continue
        apart = abs(named.printed.value - value)
        if apart <= CLOSE * abs(value):
            head = named.path.partition(".")[0]
            near.append(({"dim": 1, "hardware": 2, "stock": 2}.get(head, 0), apart, named))
    return [named for _, _, named in sorted(near, key=lambda each: (each[0], each[1], each[2].path))]
