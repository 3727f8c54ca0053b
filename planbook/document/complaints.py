"""What the typesetter complains about, in words for the author, at the severity that it has for a plan set."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from planbook.source.findings import Finding, Place, Severity


@dataclass(frozen=True, slots=True)
class Complaint:
    """A line of the typesetter's log; `file` is the style sheet that was being read, "" for the page itself."""

    message: str
    file: str


@dataclass(frozen=True, slots=True)
class _Kind:
    pattern: re.Pattern[str]
    code: str
    severity: Severity
    remedy: str


_KINDS: Final = (
    _Kind(re.compile(r"missing glyph|\.notdef glyph"), "missing-glyph", Severity.WARN,
          "Write another sign, or a word, that the fonts have."),
    _Kind(re.compile(r"Failed to load|cannot be loaded|Relative URI"), "failed-url", Severity.WARN,
          "A plan set shows pictures of its own folder only; templates may use files that lie beside them."),
    _Kind(re.compile(r"No anchor #|target points to undefined anchor"), "broken-link", Severity.WARN,
          "A template links to something that is not in this edition: correct its address."),
    _Kind(re.compile(r"no required alt description"), "no-alternative-text", Severity.WARN,
          "Give the picture an alt text."),
    _Kind(re.compile(r"fontTools instead of HarfBuzz"), "fonts-not-reproducible", Severity.NOTE,
          "On Debian or Ubuntu: `apt-get install libharfbuzz-subset0`."),
    _Kind(re.compile(r"^Ignored|^Invalid|^Unknown|^Unsupported|^Expected"), "style-ignored", Severity.NOTE,
          "Correct the style sheet at this place, or delete the declaration."),
)  # fmt: skip
_OTHER: Final = _Kind(re.compile(""), "typesetting", Severity.NOTE, "Look at the page and correct the template.")
_SPOT: Final = re.compile(r"\bat (\d+):(\d+)")


def as_findings(complaints: Iterable[Complaint]) -> tuple[Finding, ...]:
    """One finding for each different complaint, in order."""
    return tuple(dict.fromkeys(_finding(complaint) for complaint in complaints))


def _finding(complaint: Complaint) -> Finding:
    kind = next((kind for kind in _KINDS if kind.pattern.search(complaint.message)), _OTHER)
    spot = _SPOT.search(complaint.message)
    place = Place(complaint.file, int(spot[1]), int(spot[2])) if spot and complaint.file else None
    message = f"While setting the pages: {complaint.message.rstrip('.')}."
    return Finding(kind.code, kind.severity, message, kind.remedy, place)
