"""What content mentions: the names in its formulas and texts."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from pydantic import BaseModel

_NAME = re.compile(r"[A-Za-z_]\w*(?:\.[A-Za-z_]\w*)*")


def names_in(content: object) -> frozenset[str]:
    """Everything that may be a name in the formulas and texts of content, however deep."""
    return frozenset(match[0] for text in _texts(content) for match in _NAME.finditer(text))


def _texts(content: object) -> Iterator[str]:
    if isinstance(content, str):
        yield content
    elif isinstance(content, BaseModel):
        for value in content.__dict__.values():
            yield from _texts(value)
    elif isinstance(content, Mapping):
        for value in content.values():
            yield from _texts(value)
    elif isinstance(content, list | tuple):
        for value in content:
            yield from _texts(value)
