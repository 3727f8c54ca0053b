"""Marked HTML made whole: figures and tables put where prose has left room for them."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from typing import Final

_FIGURE: Final = re.compile(r'<figure\b([^>]*?)\bdata-figure="([^"]+)"([^>]*)>\s*</figure>')
_TABLE: Final = re.compile(r'<div\b([^>]*?)\bdata-table="([^"]+)"([^>]*)>\s*</div>')
_REFERENCE: Final = re.compile(r'(<a class="ref[^>]*>)([^<]*)')
_IN_SPAN: Final = r"(?:[^<]|<span[^>]*>(?:[^<]|<span[^>]*>[^<]*</span>)*</span>)*"
_MEASURE: Final = re.compile(rf'<span class="q"[^>]*>{_IN_SPAN}</span>')
_SPACE: Final = re.compile(r"\s(?![^<>]*>)")
"""Outside of tags."""
_BARE_POINT: Final = re.compile(r"(?<=[>\[])\.(?=\d)")
_BEFORE_NUMBER: Final = re.compile(r" (?=\d)")


def placed_figures(pages: Iterable[str]) -> tuple[str, ...]:
    """The figures that pages show, in reading order, each once."""
    return tuple(dict.fromkeys(match[2] for page in pages for match in _FIGURE.finditer(page)))


def placed_tables(pages: Iterable[str]) -> frozenset[str]:
    """The tables that pages show."""
    return frozenset(match[2] for page in pages for match in _TABLE.finditer(page))


def fill(html: str, figure: Callable[[str], str], table: Callable[[str], str], wide: frozenset[str]) -> str:
    """The page with `figure(name)` and `table(name)` inside its empty figures and tables.

    Figures named in `wide` get that class.
    """

    def in_figure(match: re.Match[str]) -> str:
        look = ' class="wide"' if match[2] in wide else ""
        return f'<figure{look}{match[1]}data-figure="{match[2]}"{match[3]}>{figure(match[2])}</figure>'

    def in_table(match: re.Match[str]) -> str:
        return f'<div{match[1]}data-table="{match[2]}"{match[3]}>{table(match[2])}</div>'

    return _TABLE.sub(in_table, _FIGURE.sub(in_figure, keep_together(html)))


def keep_together(html: str) -> str:
    """Measures and `(part 6)` in one line, by spaces that do not break.

    The style sheet's way to keep words in one line makes the typesetter break the lines before them too early.
    """
    return _REFERENCE.sub(_numbered, _MEASURE.sub(_whole, html))


def _whole(match: re.Match[str]) -> str:
    """Left to itself the typesetter breaks `.125` after the point: it is told that it may before, and not there."""
    before = "\N{ZERO WIDTH SPACE}" if match[0].partition(">")[2].startswith(".") else ""
    return before + _BARE_POINT.sub(".\N{WORD JOINER}", _SPACE.sub("\N{NO-BREAK SPACE}", match[0]))


def _numbered(match: re.Match[str]) -> str:
    return match[1] + _BEFORE_NUMBER.sub("\N{NO-BREAK SPACE}", match[2])
