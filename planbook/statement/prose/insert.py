"""What a token becomes: marked HTML in a page, plain words in the statement."""

from __future__ import annotations

import re
from html import escape

from planbook.measure.printed import Printed
from planbook.source.sentences import capital
from planbook.statement.prose.names import Named, Sort

_FRACTION = re.compile(r"(\d+)/(\d+)")
_SENTENCE_START = re.compile(r"(?:\A|[.!?:]\s+)\Z")
_BLOCK_START = re.compile(r"(?:\A|<(?:p|li|td|th|dt|dd|h[1-6])(?:\s[^<>]*)?>\s*|[.!?:]\s+)\Z")


def measure_html(text: str, unit: str) -> str:
    """A printed number with its unit; fractions are marked for the font: `23 <span class="f">5/8</span> in`."""
    number = _FRACTION.sub(r'<span class="f">\1/\2</span>', escape(text))
    return f"{number}{escape(unit)}" if not unit or unit == "°" else f"{number} {escape(unit)}"


def printed_html(printed: Printed, mark: str) -> str:
    """A marked value: the edition's own unit, then the other in brackets."""
    second = ""
    if printed.other:
        second = f' <span class="second">[{measure_html(printed.other, printed.other_unit)}]</span>'
    return f'<span class="q" data-mark="{escape(mark)}">{measure_html(printed.text, printed.unit)}{second}</span>'


def html_of(named: Named, before: str) -> str:
    """The marked HTML of a name. `before` is the HTML that it follows: a reference opens a sentence with a capital."""
    if named.sort is Sort.QUANTITY and named.printed is not None:
        return printed_html(named.printed, named.key)
    if named.sort in (Sort.LINK, Sort.SEE):
        words = capital(named.plain) if _BLOCK_START.search(before[-200:]) else named.plain
        classes = "ref paged" if named.paged else "ref"
        return f'<a class="{classes}" href="#{escape(named.key)}">{escape(words)}</a>'
    if named.sort is Sort.CAUTION:
        return named.html
    return escape(named.plain) if named.sort is Sort.WORDS else ""


def plain_of(named: Named, before: str) -> str:
    """The words that a reader reads for a name."""
    if named.sort is Sort.QUANTITY and named.printed is not None:
        return named.printed.full
    if named.sort in (Sort.LINK, Sort.SEE) and _SENTENCE_START.search(before[-20:]):
        return capital(named.plain)
    return named.plain
