"""Bars in the margin: the finished HTML of a book with a word on each element that reads otherwise than before.

Only that word is added, and the style sheet sets it outside the flow: no line or page of the book stands elsewhere.
"""

from __future__ import annotations

import re
from collections.abc import Set as AbstractSet
from typing import Final

_TAG: Final = re.compile(r'<[a-z][a-z0-9]*\b[^<>]*\bdata-(?:told|block|figure|caution)="[^<>]*>')
_NAMED: Final = re.compile(r'\bdata-(told|block|figure|caution)="([^"]*)"')
_PREFIX: Final = {"told": "", "block": "block/", "figure": "figure/", "caution": "list/cautions/"}
_END: Final = re.compile(r"/?>\Z")


def with_bars(html: str, told: AbstractSet[str]) -> str:
    """The HTML with `data-changed` on every element that shows one of `told` (see statement.marks)."""

    def marked(match: re.Match[str]) -> str:
        names = (_PREFIX[sort] + name for sort, name in _NAMED.findall(match[0]))
        return _END.sub(r" data-changed\g<0>", match[0]) if not told.isdisjoint(names) else match[0]

    return _TAG.sub(marked, html) if told else html
