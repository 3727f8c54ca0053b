"""Lines of a letter that any mail program shows."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator

_WIDTH = 76


def wrapped(text: str, lead: str = "", hang: int = 0) -> list[str]:
    """The text in lines, the first after `lead`, the others so far in; a word is never broken."""
    return textwrap.wrap(
        text, _WIDTH, initial_indent=lead, subsequent_indent=" " * hang, break_long_words=False, break_on_hyphens=False
    )


def section(title: str, lines: Iterable[str]) -> Iterator[str]:
    """A title with what stands under it, and a blank line; nothing where nothing does."""
    told = [line for each in lines for line in wrapped(each, lead="  ", hang=4)]
    yield from (title, *told, "") if told else ()
