"""How people type a printed measure: `5 3/8`, `5-3/8"`, `137 mm`, `Ø6.5`; reduced to one spelling to compare."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass

from planbook.measure.printed import Printed
from planbook.statement.model import PrintedStated

_UNITS = {'"': "in", "''": "in", "″": "in", "′′": "in", "inch": "in", "inches": "in", "deg": "°", "degrees": "°"}
_SHAPE = re.compile(
    r"(?:\d+\s*[x×]\s*)?[øØ⌀R]?\s*"  # a callout's count and sign
    r"(?P<number>-?(?:\d+[\s-]+\d+/\d+|\d+/\d+|\d*\.\d+|\d+))"
    r"\s*(?P<unit>[^\d\s\[].*?)?"
    r"(?:\s*\[.*\])?"  # the other unit in brackets, as printed
)

_QUOTE = re.compile(
    r"(?:the )?(?P<measure>.+?)"
    r"(?: (?:on|in) (?:page|p\.) ?(?P<page>\d+))?"
    r"(?: (?:on|in) sheet (?P<sheet>\d+[a-z]?))?"
    r"(?: (?:of|in) (?:version )?(?P<version>\d+\.\d+))?",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Reading:
    """A number in one spelling, and its unit sign ("" when none was typed)."""

    number: str
    unit: str


@dataclass(frozen=True, slots=True)
class Quote:
    """What a buyer quotes: `the 5 3/8 on page 12 of 1.1` is a measure with where it stands; "" or None where unsaid."""

    measure: str
    page: int | None = None
    sheet: str = ""
    version: str = ""


def read_quote(text: str) -> Quote:
    """The measure in a quotation, and the page, sheet and version that stand in it."""
    match = _QUOTE.fullmatch(" ".join(text.split()))
    if match is None:
        return Quote(text)
    page = int(match["page"]) if match["page"] else None
    return Quote(match["measure"], page, match["sheet"] or "", match["version"] or "")


def read_measure(text: str) -> Reading | None:
    """What a person typed, as a reading; None when it is no measure."""
    # NFKC takes apart typed fractions: the sign for three eighths becomes 3, a fraction slash, 8.
    spaced = re.sub(r"(?<=\d)(?=[¼-¾⅐-⅞])", " ", text.strip())
    match = _SHAPE.fullmatch(unicodedata.normalize("NFKC", spaced).replace("\u2044", "/").replace("\u2212", "-"))
    if not match:
        return None
    unit = (match["unit"] or "").strip().rstrip(".")
    return Reading(_one_spelling(match["number"]), _UNITS.get(unit, unit))


def reads_so(printed: PrintedStated, reading: Reading) -> bool:
    """Whether a printed measure reads so in either of its two units."""
    sides = ((printed.text, printed.unit), (printed.other, printed.other_unit))
    return any(
        text and _one_spelling(text) == reading.number and reading.unit in ("", unicodedata.normalize("NFKC", unit))
        for text, unit in sides
    )


def spellings(printed: PrintedStated) -> tuple[str, ...]:
    """The numbers of a printed measure, in both units where it has two, each in its one spelling."""
    return tuple(dict.fromkeys(_one_spelling(text) for text in (printed.text, printed.other) if text))


def printed_text(stated: PrintedStated) -> str:
    """As in prose, with both units: `23 5/8 in [600 mm]`."""
    return Printed(stated.text, stated.other, stated.value, stated.unit, stated.other_unit).full


def _one_spelling(number: str) -> str:
    """`5-3/8` as `5 3/8`; `.50` and `0.5` as `0.5`; `137.0` as `137`."""
    if "/" in number:
        return re.sub(r"(?<=\d)[\s-]+(?=\d)", " ", number.strip())
    whole, _, decimals = number.strip().partition(".")
    decimals = decimals.rstrip("0")
    return f"{whole or '0'}.{decimals}" if decimals else whole or "0"
