"""Links and pictures typed as Markdown: refused, since places in a plan set are named and pictures are declared."""

from __future__ import annotations

import re
from pathlib import PurePosixPath

from planbook.source.findings import Finding, Severity
from planbook.source.text import Text
from planbook.statement.prose.spots import place_of

_SPAN = re.compile(r"(?P<picture>!)?\[[^\[\]]{0,500}\](?:\((?P<to>[^()\s]{0,500})[^()]{0,500}\)|\[[^\[\]\n]{0,200}\])")
_AUTOMATIC = re.compile(r"<(?:https?|ftp|mailto|file):[^<>\s]{0,500}>|<[\w.+-]{1,100}@[\w.-]{1,100}>", re.IGNORECASE)
_DEFINITION = re.compile(r"^ {0,3}\[[^\[\]\n]{1,200}\]:[ \t]*\S", re.MULTILINE)


def refuse_links(text: Text, words: str) -> tuple[Finding, ...]:
    """A finding for each link and picture. `words` is `text` with its templating masked."""
    found: list[tuple[int, Finding]] = []
    for match in _SPAN.finditer(words):
        picture = match["picture"] is not None
        found.append((match.start(), (_picture if picture else _link)(text, match.start(), match["to"] or "")))
    for pattern in (_AUTOMATIC, _DEFINITION):
        found.extend((match.start(), _link(text, match.start(), match[0])) for match in pattern.finditer(words))
    return tuple(finding for _, finding in sorted(found, key=lambda each: each[0]))


def _link(text: Text, offset: int, to: str) -> Finding:
    where = f" to {to.strip('<>')}" if to else ""
    return Finding(
        "link-in-prose",
        Severity.STOP,
        f"A link{where} cannot be followed on paper.",
        "Name the place, as in {{ page.how_to }} or {{ sheet.ramp_bar }}; an address is written as plain text.",
        place_of(text, offset),
    )


def _picture(text: Text, offset: int, to: str) -> Finding:
    if re.match(r"\w+:|//", to):
        return Finding(
            "link-in-prose",
            Severity.STOP,
            f"The picture {to} lies outside the plan set.",
            "Put the file into the plan set's folder and declare it in figures.yaml.",
            place_of(text, offset),
        )
    name = re.sub(r"\W+", "_", PurePosixPath(to).stem).strip("_").lower() or "picture"
    return Finding(
        "picture-in-prose",
        Severity.STOP,
        f"The picture {to} has no caption and no text for the blind here.",
        f"Declare it in figures.yaml ({name}: {{picture: {to}, caption: ..., alt: ...}}) "
        f"and write {{{{ figure.{name} }}}} in a paragraph of its own.",
        place_of(text, offset),
    )
