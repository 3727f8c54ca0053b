"""A version number: two or three whole numbers with dots, ordered by those numbers."""

from __future__ import annotations

import re
from typing import NamedTuple

_SHAPE = re.compile(r"(0|[1-9]\d{0,5})\.(0|[1-9]\d{0,5})(?:\.(0|[1-9]\d{0,5}))?", re.ASCII)


class Version(NamedTuple):
    """`2.1` reworks nothing that `2.0` told; `3.0` may. The third number is there for those who want it."""

    major: int
    minor: int
    patch: int = 0

    def next_minor(self) -> Version:
        """The one after it when only the paper changed."""
        return Version(self.major, self.minor + 1)

    def __str__(self) -> str:
        return f"{self.major}.{self.minor}" + (f".{self.patch}" if self.patch else "")


def read_version(text: str) -> Version | None:
    """The version that a text names in its one spelling; None when it is none (`1`, `v1.0`, `1.00`, `1.0.0`)."""
    match = _SHAPE.fullmatch(text)
    if not match:
        return None
    version = Version(*(int(number) for number in match.groups(default="0")))
    return version if str(version) == text else None
