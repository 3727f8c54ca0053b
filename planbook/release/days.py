"""Days as people type them in commands: planbook asks no clock."""

from __future__ import annotations

import re
from datetime import date

WRITE_DAY = "Write it as 2026-05-04: year, month, day."


def is_day(text: str) -> bool:
    """Whether it is a day, as year, month and day with hyphens."""
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return bool(re.fullmatch(r"\d{4}-\d\d-\d\d", text, re.ASCII))
