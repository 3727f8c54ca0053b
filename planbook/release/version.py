"""A version number: two whole numbers with a dot between, ordered by those numbers."""

from __future__ import annotations

import re
from typing import NamedTuple

from planbook.source.names import VERSION

_LOOSE = re.compile(r"\s*v?\.?\s*(\d{1,6})(?:\.(\d{1,6}))?(?:\.0+)?\s*", re.ASCII | re.IGNORECASE)


class Version(NamedTuple):
    """`2.1` reworks nothing that `2.0` told; `3.0` may."""

    major: int
    minor: int

    def next_major(self) -> Version:
        """The one after it when a builder may have to rework something."""
        return Version(self.major + 1, 0)

    def next_minor(self) -> Version:
        """The one after it when only the paper changed."""
        return Version(self.major, self.minor + 1)

    def __str__(self) -> str:
        return f"{self.major}.{self.minor}"


def read_version(text: str) -> Version | None:
    """The version that a text names in its one spelling; None when it is none (`1`, `v1.0`, `1.00`, `1.0.0`)."""
    if not re.fullmatch(VERSION, text, re.ASCII):
        return None
    major, minor = map(int, text.split("."))
    return Version(major, minor)


def meant_version(text: str) -> Version | None:
    """What somebody who typed `1`, `v1.0` or `01.0` surely meant; None where nothing is sure."""
    match = _LOOSE.fullmatch(text)
    return Version(int(match[1]), int(match[2] or 0)) if match else None
