"""Messages and remedies are sentences: they open with a capital letter, whatever word comes first."""

from __future__ import annotations


def capital(words: str) -> str:
    """`words` with a capital first letter."""
    return words[:1].upper() + words[1:]
