"""Where in a file a character of a text stands."""

from __future__ import annotations

from planbook.source.findings import Place
from planbook.source.text import Text


def place_of(text: Text, offset: int) -> Place:
    """The place of the character at `offset`; exact for pages and one-line values, the line's own for folded ones."""
    start = text.place
    line = text.count("\n", 0, offset)
    if line == 0:
        return Place(start.file, start.line, start.column + offset)
    return Place(start.file, start.line + line, offset - text.rfind("\n", 0, offset))
