"""Characters that have no business in content: they cannot be printed, and some file forms cannot hold them."""

from __future__ import annotations

import re

CONTROL = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]")


def find_control(text: str) -> int | None:
    """Index of the first control character, half a surrogate pair or noncharacter; line feeds and tabs may stand."""
    match = CONTROL.search(text)
    return match.start() if match else None


def code_point(char: str) -> str:
    """`U+000B`: how a character that cannot be shown is named."""
    return f"U+{ord(char):04X}"
