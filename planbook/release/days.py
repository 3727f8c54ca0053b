"""Days as people type them in commands: planbook asks no clock."""

from __future__ import annotations

import re
from datetime import date

WRITE_DAY = "Write it as 2026-05-04: year, month, day."


def wrong_day(day: str, version: str, issued: str) -> tuple[str, str] | None:
    """What is wrong with the day on which a version is spoken of, and the remedy; it is not before its issue."""
    if not is_day(day):
        return f"`{day}` is no day.", WRITE_DAY
    if day < issued:
        return (
            f"{day} is before version {version} was issued, on {issued}.",
            f"Give the day itself: {issued} or a later one.",
        )
    return None


def is_day(text: str) -> bool:
    """Whether it is a day, as year, month and day with hyphens."""
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return bool(re.fullmatch(r"\d{4}-\d\d-\d\d", text, re.ASCII))
