"""Plain printed texts as HTML: escaped, with real fractions and measures that do not break in two."""

from __future__ import annotations

import re
from datetime import date
from typing import Final

from markupsafe import Markup, escape

_FRACTION: Final = re.compile(r"(?<![\w/.])(\d+)/(\d+)(?![\w/])")
_BEFORE_FRACTION: Final = re.compile(r"(?<=\d) (?=\d+/\d)")
_POINTED: Final = re.compile(r"(?<![\w.])\.\d+")
"""A decimal fraction that begins with its point, after which a line would break."""
_BEFORE_UNIT: Final = re.compile(r"(?<=\d) (?=(?:in|mm|N|lbf|kg|lb|MPa|psi|min|°C|°F|board feet)\b|[m%](?![a-z]))")
_RELATION: Final = re.compile(r" ([≥≤]) ")
MONTHS: Final = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip


def as_html(text: str) -> Markup:
    """`23 5/8 in` with a real fraction, in one line; the text that is read back keeps its space and its slash."""
    kept = _RELATION.sub("\N{NO-BREAK SPACE}\\1\N{NO-BREAK SPACE}", _BEFORE_UNIT.sub("\N{NO-BREAK SPACE}", text))
    pieces = _BEFORE_FRACTION.split(_POINTED.sub(r'<span class="whole">\g<0></span>', str(escape(kept))))
    joined = '<span class="gap">\N{NO-BREAK SPACE}</span>'.join(
        _FRACTION.sub(r'<span class="f">\1/\2</span>', piece) for piece in pieces
    )
    return Markup(joined)


def unbroken(text: str) -> list[str]:
    """The pieces between which a printed text may break into lines: `planed`, `to`, `1 3/4 in`."""
    whole = _BEFORE_FRACTION.sub("\N{NO-BREAK SPACE}", _BEFORE_UNIT.sub("\N{NO-BREAK SPACE}", text))
    return [piece for piece in whole.split(" ") if piece]


def long_date(iso: str) -> str:
    """`2026-11-25` as `25 November 2026`, the same in every locale; any other text stays as it is."""
    try:
        day = date.fromisoformat(iso)
    except ValueError:
        return iso
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"


def version_words(version: str) -> str:
    """`Version 1.0`; `Draft` or `One-off` for what is released under no number."""
    return {"": "Draft", "draft": "Draft", "one-off": "One-off"}.get(version) or f"Version {version}"
