"""YAML 1.2 text to a tree with places, in the plain subset that plan sets use: no aliases, tags or second documents."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.error import YAMLError
from ruamel.yaml.events import (
    AliasEvent,
    DocumentStartEvent,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
)

from planbook.source.findings import Finding, Place, Related, Severity
from planbook.source.text import Text
from planbook.source.tree import Group, Node, Series
from planbook.source.yaml_trouble import Lines, explain

DEEPEST = 50
MOST_FINDINGS = 50


def read_tree(text: str, file: str, first_line: int = 1) -> tuple[Node | None, tuple[Finding, ...]]:
    """The tree of a YAML text, or None with the findings that say why not.

    `first_line` is the line of `file` on which the text starts. Never raises: whatever the text, the answer is a tree
    or findings.
    """
    reader = _Reader(Lines(text, file, first_line))
    try:
        reader.read()
    except _Stop:
        pass
    findings = tuple(reader.findings)
    return (None if findings else reader.root), findings


class _Stop(Exception):
    """Reading further would only repeat what was found."""


class _Reader:
    """Builds the tree from parser events, so that depth and aliases are judged before anything is expanded."""

    def __init__(self, lines: Lines) -> None:
        self.lines = lines
        self.findings: list[Finding] = []
        self.root: Node | None = None
        self._open: list[tuple[Group | Series, bool]] = []  # with whether it is written in brackets
        self._keys: list[Text | None] = []
        self._documents = 0

    def read(self) -> None:
        for event in self._events():
            match event:
                case DocumentStartEvent():
                    self._start_document(event)
                case AliasEvent():
                    self._refuse_alias(event)
                case MappingStartEvent() | SequenceStartEvent():
                    self._start(event)
                case MappingEndEvent() | SequenceEndEvent():
                    self._open.pop()
                    self._keys.pop()
                case ScalarEvent():
                    self._scalar(event)
        if self.root is None and not self.findings:
            self._find("yaml-empty", "The file says nothing.", "Write its content, or delete the file.", 0)

    def _events(self) -> Iterator[Any]:
        try:
            yield from YAML(typ="safe", pure=True).parse(self.lines.text)
        # ValueError and OverflowError: escapes of characters that do not exist, such as "\UFFFFFFFF".
        except (YAMLError, ValueError, OverflowError) as error:
            self.findings.append(explain(error, self.lines))

    def _start_document(self, event: Any) -> None:
        self._documents += 1
        if self._documents > 1:
            self._find(
                "yaml-documents",
                "A line of three hyphens starts a second document; a file holds one.",
                "Delete the line `---`, or move what follows it to a file of its own.",
                event.start_mark.index,
            )
            raise _Stop
        if event.version or event.tags:
            self._find(
                "yaml-directive",
                "Directives (lines that start with %) are not used in plan sets.",
                "Delete the line that starts with %.",
                0,
            )

    def _refuse_alias(self, event: Any) -> None:
        self._find(
            "yaml-alias",
            f"`*{event.anchor}` repeats a value from elsewhere; aliases are not used in plan sets.",
            "Write the value out, or make it a parameter and use its name.",
            event.start_mark.index,
        )
        self._put(Text("", self._place(event)))

    def _refuse_marks(self, event: Any) -> None:
        """Anchors and tags."""
        if event.anchor:
            self._find(
                "yaml-alias",
                f"`&{event.anchor}` marks a value for repetition; that is not used in plan sets.",
                f"Delete `&{event.anchor}`; write the value out where it is needed, or make it a parameter.",
                event.start_mark.index,
            )
        if event.ctag:
            self._find(
                "yaml-tag",
                f"`{event.tag}` is a tag; tags are not used in plan sets.",
                "Delete the word that starts with `!`, or put the whole value in quotation marks.",
                event.start_mark.index,
            )

    def _start(self, event: Any) -> None:
        self._refuse_marks(event)
        if len(self._open) == DEEPEST:
            self._find(
                "yaml-depth",
                f"Groups and lists are nested more than {DEEPEST} deep here.",
                "Write it flatter; nothing in a plan set is nested so deep.",
                event.start_mark.index,
            )
            raise _Stop
        place = self._place(event)
        node: Group | Series = Group(place) if isinstance(event, MappingStartEvent) else Series(place)
        self._put(node)
        self._open.append((node, event.flow_style))
        self._keys.append(None)

    def _scalar(self, event: Any) -> None:
        self._refuse_marks(event)
        text = Text(event.value, self._place(event))
        plain = event.style is None
        if self._is_key_next():
            self._check_key(text, plain, event.start_mark.index)
        elif plain and text == "":
            self._refuse_nothing(event)
        if plain and self._open and self._open[-1][1]:
            self._check_formula_whole(text, event)
        self._check_characters(text)
        self._put(text)

    def _is_key_next(self) -> bool:
        return bool(self._open) and isinstance(self._open[-1][0], Group) and self._keys[-1] is None

    def _put(self, node: Node) -> None:
        """Adds a node where reading stands: as the root, in a list, as a name, or as the value of the name before."""
        if not self._open:
            self.root = node
            return
        parent = self._open[-1][0]
        if isinstance(parent, Series):
            parent.append(node)
        elif (key := self._keys[-1]) is not None:
            parent.setdefault(key, node)
            self._keys[-1] = None
        else:
            self._keys[-1] = self._key(node)

    def _key(self, node: Node) -> Text:
        if isinstance(node, Text):
            return node
        self._find(
            "yaml-key",
            "A list or group stands here where a name is expected.",
            "Write a plain name; a value with brackets or braces goes into quotation marks.",
            self.lines.index(node.place),
        )
        return Text(f"\0{node.place}", node.place)

    def _check_key(self, key: Text, plain: bool, index: int) -> None:
        group = self._open[-1][0]
        if plain and key == "<<":
            self._find(
                "yaml-alias",
                "`<<` merges another group in; that is not used in plan sets.",
                "Write the values out here.",
                index,
            )
        elif plain and key == "":
            self._find("yaml-key", "A name is missing before the colon.", "Write the name, or delete the colon.", index)
        elif isinstance(group, Group) and key in group:
            first = group.key(key)
            self._find(
                "key-twice",
                f"`{key}` stands twice in the same group.",
                f"Delete one of the two, or rename this one. The first is on line {first.place.line}.",
                index,
                Related(first.place, f"`{key}` stands here for the first time"),
            )

    def _refuse_nothing(self, event: Any) -> None:
        key = self._keys[-1] if self._keys else None
        if self._documents_root():
            return
        name = f"`{key}` has no value." if key is not None else "An entry of the list is empty."
        if any(finding.code == "formula-split" for finding in self.findings[-1:]):
            return  # `{is: max(a, b)}` leaves `b)` without a value: said already
        index = self.lines.index(key.place) if key is not None else event.start_mark.index
        self._find("value-missing", name, "Write a value after the colon, or delete the line.", index)

    def _documents_root(self) -> bool:
        """An empty document is one empty scalar: `read` reports it."""
        return not self._open

    def _check_formula_whole(self, text: Text, event: Any) -> None:
        """In brackets a comma ends a value, even inside the parentheses of a formula: `{is: max(a, b)}`."""
        if text.count("(") <= text.count(")") or self.lines.after(event.end_mark.index) != ",":
            return
        whole = self.lines.balanced(event.start_mark.index)
        self._find(
            "formula-split",
            f"Between braces or brackets the comma ends the value: only `{text}` is read.",
            f'Put the formula in quotation marks: "{whole}".',
            event.start_mark.index,
        )

    def _check_characters(self, text: Text) -> None:
        bad = next((char for char in text if unicodedata.category(char) in ("Cc", "Cs") and char not in "\n\t"), None)
        if bad is not None:
            self._find(
                "yaml-character",
                f"The value contains the control character U+{ord(bad):04X}.",
                "Delete that character.",
                self.lines.index(text.place),
            )

    def _place(self, event: Any) -> Place:
        return self.lines.place(event.start_mark.index)

    def _find(self, code: str, message: str, remedy: str, index: int, *related: Related) -> None:
        self.findings.append(Finding(code, Severity.STOP, message, remedy, self.lines.place(index), related=related))
        if len(self.findings) >= MOST_FINDINGS:
            raise _Stop
