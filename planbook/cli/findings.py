"""Findings for people: where, how grave, what is wrong, the line itself with a caret, how to mend it."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence

from rich.console import Console
from rich.text import Text

from planbook.source import Door, Refused
from planbook.source.findings import Finding, Place, Severity

_STYLES = {Severity.STOP: "bold red", Severity.WARN: "bold yellow", Severity.NOTE: "bold cyan"}
_LONGEST = 160
"""Characters of a source line that are shown."""


def print_findings(console: Console, findings: Sequence[Finding], door: Door) -> None:
    """Print each finding, then how many there are of each severity. Prints nothing when there are none."""
    for finding in findings:
        console.print(_render(finding, door))
    if findings:
        counts = Counter(finding.severity for finding in findings)
        console.print(", ".join(f"{counts[severity]} {severity.value}" for severity in Severity if counts[severity]))


def _render(finding: Finding, door: Door) -> Text:
    text = Text()
    if finding.place:
        text.append(f"{_plain(str(finding.place))}: ", "bold")
    text.append(finding.severity.value, _STYLES[finding.severity])
    text.append(f" {finding.code}", "dim")
    if finding.edition:
        text.append(f" ({finding.edition} edition)", "dim")
    text.append(f"\n  {_sentence(_plain(finding.message))}\n")
    if finding.place:
        text.append(_excerpt(finding.place, door))
    text.append("  To mend it: ", "bold").append(f"{_sentence(_plain(finding.remedy))}\n")
    for related in finding.related:
        text.append(f"  See {_plain(str(related.place))}: ", "dim").append(f"{_plain(related.note)}\n")
    return text


def _excerpt(place: Place, door: Door) -> Text:
    """The line of a place with a caret under its column; empty when there is no such line."""
    line = _line(place, door)
    if not line.strip():
        return Text()
    number = str(place.line)
    # A long line is cut so that the column stays in sight.
    start = max(0, place.column - 1 - _LONGEST // 2)
    shown = line[start : start + _LONGEST].rstrip()
    caret = " " * max(0, place.column - 1 - start) + "^"
    text = Text(f"    {number} | ", "dim").append(f"{shown}\n", "default not dim")
    return text.append(f"    {' ' * len(number)} | ", "dim").append(f"{caret}\n", "bold")


def _line(place: Place, door: Door) -> str:
    """A line of a content file, with one character for each column; empty when it cannot be read."""
    try:
        lines = door.read_text(place.file).split("\n")
    except Refused:
        return ""
    return _plain(lines[place.line - 1]) if 0 < place.line <= len(lines) else ""


def _sentence(text: str) -> str:
    """Begun with a capital, unless it begins with a name of the content, and ended with a full stop."""
    begun = text[:1].upper() + text[1:] if re.match(r"[a-z]+[ ,]", text) else text
    return begun if begun.rstrip("\N{RIGHT DOUBLE QUOTATION MARK}").endswith((".", "?", "!", ":")) else f"{begun}."


def _plain(text: str) -> str:
    """Text without characters that would move the cursor or change the terminal's state."""
    return "".join(char if char.isprintable() else " " if char == "\t" else "\ufffd" for char in text)
