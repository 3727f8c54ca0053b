"""Placeholder tokens: what stands in a text for a named thing while Markdown works on the words round it.

A token is made of private-use characters only, so no rule of Markdown can see into it or split it.
"""

from __future__ import annotations

import re
from collections.abc import Callable

_OPEN, _CLOSE, _ZERO = "\ue000", "\ue001", 0xE010
PRIVATE = re.compile("[\ue000-\uf8ff]")
TOKEN = re.compile("\ue000([\ue010-\ue019]+)\ue001")
ONLY_TOKEN = re.compile(rf"\s*{TOKEN.pattern}\s*")


def write_token(index: int) -> str:
    """The token of the index-th use in a text."""
    return _OPEN + "".join(chr(_ZERO + int(digit)) for digit in str(index)) + _CLOSE


def read_token(match: re.Match[str]) -> int:
    """The index that a match of TOKEN carries."""
    return int("".join(str(ord(sign) - _ZERO) for sign in match[1]))


def only_token(text: str) -> int | None:
    """The index of the token that is all of a text, None when there is more or less."""
    match = ONLY_TOKEN.fullmatch(text)
    return None if match is None else read_token(match)


def replace_tokens(text: str, insert: Callable[[int, str], str]) -> str:
    """The text with each token replaced by `insert(index, what stands before it)`, at most 300 characters of that."""
    pieces: list[str] = []
    done = 0
    for match in TOKEN.finditer(text):
        pieces.append(text[done : match.start()])
        pieces.append(insert(read_token(match), text[max(0, match.start() - 300) : match.start()]))
        done = match.end()
    return "".join(pieces) + text[done:]
