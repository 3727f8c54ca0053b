"""Marked HTML made whole: figures and tables put where prose has left room for them."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from typing import Final

_FIGURE: Final = re.compile(r'<figure\b([^>]*?)\bdata-figure="([^"]+)"([^>]*)>\s*</figure>')
_TABLE: Final = re.compile(r'<div\b([^>]*?)\bdata-table="([^"]+)"([^>]*)>\s*</div>')


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

    return _TABLE.sub(in_table, _FIGURE.sub(in_figure, html))
