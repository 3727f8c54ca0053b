"""A prose file: a YAML head between two lines of three hyphens, then Markdown."""

from __future__ import annotations

from planbook.source.characters import code_point, find_control
from planbook.source.findings import Finding, Place, Severity
from planbook.source.lines import Lines
from planbook.source.text import Text
from planbook.source.tree import Node
from planbook.source.yaml_tree import read_tree

FENCE = "---"


def split_prose(text: str, file: str) -> tuple[tuple[Node, Text] | None, tuple[Finding, ...]]:
    """The head's tree and the body, whose place is its first line; or None and why not."""
    bad = find_control(text)
    if bad is not None:
        return None, (_bad_character(text[bad], Lines(text, file).place(bad)),)
    lines = text.split("\n")
    if lines[0].rstrip() != FENCE:
        return None, (_no_head(file),)
    end = next((number for number, line in enumerate(lines[1:], 1) if line.rstrip() == FENCE), None)
    if end is None:
        return None, (_open_head(file),)
    tree, findings = read_tree("\n".join(lines[1:end]) + "\n", file, first_line=2)
    if tree is None:
        return None, findings
    return (tree, Text("\n".join(lines[end + 1 :]), Place(file, end + 2, 1))), ()


def _no_head(file: str) -> Finding:
    return Finding(
        "head-missing",
        Severity.STOP,
        "The file does not start with its head.",
        "Begin with the three lines `---`, `title: ...` and `---`.",
        Place(file, 1, 1),
    )


def _open_head(file: str) -> Finding:
    return Finding(
        "head-open",
        Severity.STOP,
        "The head that starts here has no end.",
        "Write a line `---` after the head.",
        Place(file, 1, 1),
    )


def _bad_character(char: str, place: Place) -> Finding:
    return Finding(
        "prose-character",
        Severity.STOP,
        f"The text contains the control character {code_point(char)}.",
        "Delete that character.",
        place,
    )
