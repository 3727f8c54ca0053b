"""YAML 1.2 text to a tree with places, in the plain subset that plan sets use: no aliases, tags or second documents."""

from __future__ import annotations

import contextlib
from collections.abc import Iterator
from dataclasses import dataclass
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

from planbook.source.characters import code_point, find_control
from planbook.source.findings import Finding, Place, Related, Severity
from planbook.source.lines import Lines
from planbook.source.text import Text
from planbook.source.tree import Group, Node, Series
from planbook.source.yaml_trouble import explain, made_whole

DEEPEST = 50
MOST_FINDINGS = 50


def read_tree(text: str, file: str, first_line: int = 1) -> tuple[Node | None, tuple[Finding, ...]]:
    """The tree of a YAML text, or None with the findings that say why not.

    `first_line` is the line of `file` on which the text starts. Never raises: whatever the text, the answer is a tree
    or findings.
    """
    reader = _Reader(Lines(text, file, first_line))
    with contextlib.suppress(_Enough):
        reader.read()
    findings = tuple(reader.findings)
    return (None if findings else reader.root), findings


class _Enough(Exception):  # noqa: N818, a signal and no error
    """Reading further would only repeat what was found."""


@dataclass(slots=True)
class _Level:
    """A group or list that is being read."""

    node: Group | Series
    in_brackets: bool
    found: int
    """How many findings there were when it began."""
    key: Text | None = None
    """In a group: the name whose value comes next."""
    split: bool = False
    """A comma was found to end a value too early; what it leaves behind is no fault of its own."""


def is_blank(text: str) -> bool:
    """Whether a YAML text is nothing but empty lines and comments."""
    return all(line.lstrip()[:1] in ("", "#") for line in text.split("\n"))


class _Reader:
    """Builds the tree from parser events, so that depth and aliases are judged before anything is expanded."""

    def __init__(self, lines: Lines) -> None:
        self.lines = lines
        self.findings: list[Finding] = []
        self.root: Node | None = None
        self._levels: list[_Level] = []
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
                    self._levels.pop()
                case ScalarEvent():
                    self._scalar(event)
        if not self.findings and (self.root is None or self.root == ""):
            self._find("yaml-empty", "The file says nothing.", "Write its content, or delete the file.", 0)

    def _events(self) -> Iterator[Any]:
        try:
            yield from YAML(typ="safe", pure=True).parse(self.lines.text)
        # ValueError and OverflowError: escapes of characters that do not exist, such as "\UFFFFFFFF".
        except (YAMLError, ValueError, OverflowError) as error:
            brackets = next((level for level in self._levels if level.in_brackets), None)
            if brackets is not None:  # what was found inside is the doing of a bracket that is not closed
                del self.findings[brackets.found :]
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
            raise _Enough
        if event.version or event.tags:
            self._find(
                "yaml-directive",
                "Directives (lines that start with %) are not used in plan sets.",
                "Delete the line that starts with %.",
                f"\n{self.lines.text}".find("\n%"),
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
        if len(self._levels) == DEEPEST:
            self._find(
                "yaml-depth",
                f"Groups and lists are nested more than {DEEPEST} deep here.",
                "Write it flatter; nothing in a plan set is nested so deep.",
                event.start_mark.index,
            )
            raise _Enough
        place = self._place(event)
        node: Group | Series = Group(place) if isinstance(event, MappingStartEvent) else Series(place)
        self._put(node)
        self._levels.append(_Level(node, event.flow_style, len(self.findings)))

    def _scalar(self, event: Any) -> None:
        self._refuse_marks(event)
        text = Text(event.value, self.lines.place(self._text_start(event)))
        plain = event.style is None
        level = self._levels[-1] if self._levels else None
        if level is not None:
            if isinstance(level.node, Group) and level.key is None:
                self._check_key(level.node, text, plain, event.start_mark.index)
            elif plain and text == "":
                self._refuse_nothing(level, event)
            if plain and level.in_brackets:
                self._check_formula_whole(level, text, event)
        self._check_characters(text)
        self._put(text)

    def _put(self, node: Node) -> None:
        """Adds a node where reading stands: as the root, in a list, as a name, or as the value of the name before."""
        if not self._levels:
            self.root = node
            return
        level = self._levels[-1]
        if isinstance(level.node, Series):
            level.node.append(node)
        elif level.key is None:
            level.key = self._key(node)
        else:
            level.node.setdefault(level.key, node)
            level.key = None

    def _key(self, node: Node) -> Text:
        if isinstance(node, Text):
            return node
        self._find(
            "yaml-key",
            "A list or group stands here where a name is expected.",
            "Write a plain name; a value with brackets or braces goes into quotation marks.",
            self.lines.index(node.place),
        )
        return Text("", node.place)

    def _check_key(self, group: Group, key: Text, plain: bool, index: int) -> None:
        if plain and key == "<<":
            self._find(
                "yaml-alias",
                "`<<` merges another group in; that is not used in plan sets.",
                "Write the values out here.",
                index,
            )
        elif plain and key == "":
            self._find("yaml-key", "A name is missing before the colon.", "Write the name, or delete the colon.", index)
        elif key in group:
            first = group.key(key).place
            self._find(
                "key-twice",
                f"`{key}` stands twice in the same group.",
                f"Delete one of the two, or rename this one. The first is on line {first.line}.",
                index,
                Related(first, f"`{key}` stands here for the first time"),
            )

    def _refuse_nothing(self, level: _Level, event: Any) -> None:
        """An entry without a value; in braces most likely the rest of a value with a comma in it."""
        if level.split:
            return
        if isinstance(level.node, Series) or level.key is None:
            self._find(
                "value-missing",
                "An entry of the list is empty.",
                "Write its value, or delete it.",
                event.start_mark.index,
            )
            return
        name, value = next(reversed(level.node.items()), (None, None))
        if level.in_brackets and isinstance(value, Text):
            end = self.lines.index(level.key.place) + len(level.key)
            self._find_split(level, value, f"{name}: ", end)
        else:
            self._find(
                "value-missing",
                f"`{level.key}` has no value.",
                "Write a value after the colon, or delete the line.",
                self.lines.index(level.key.place),
            )

    def _check_formula_whole(self, level: _Level, text: Text, event: Any) -> None:
        """Whether a comma has cut a formula in its parentheses, which can go unnoticed: `[max(a, b), c]`."""
        end = self.lines.word_after(event.end_mark.index)
        if text.count("(") <= text.count(")") or self.lines.text[end : end + 1] != ",":
            return
        start = event.start_mark.index
        self._find_split(level, text, "", start + len(self.lines.balanced(start)))

    def _find_split(self, level: _Level, value: Text, before: str, end: int) -> None:
        level.split = True
        start = self.lines.index(value.place)
        self._find(
            "comma-split",
            f"Between braces or brackets a comma ends the value: it is read only as far as `{value}`.",
            made_whole(before, self.lines.text[start:end]),
            start,
        )

    def _check_characters(self, text: Text) -> None:
        bad = find_control(text)
        if bad is not None:
            self._find(
                "yaml-character",
                f"The value contains the control character {code_point(text[bad])}.",
                "Delete that character.",
                self.lines.index(text.place),
            )

    def _text_start(self, event: Any) -> int:
        """Where the text itself begins: behind a quotation mark, or below the sign of a block."""
        start: int = event.start_mark.index
        if event.style in ("'", '"'):
            return start + 1
        if event.style in ("|", ">"):
            below = self.lines.text.find("\n", start, event.end_mark.index)
            return start if below < 0 else self.lines.word_after(below)
        return start

    def _place(self, event: Any) -> Place:
        return self.lines.place(event.start_mark.index)

    def _find(self, code: str, message: str, remedy: str, index: int, *related: Related) -> None:
        self.findings.append(Finding(code, Severity.STOP, message, remedy, self.lines.place(index), related=related))
        if len(self.findings) >= MOST_FINDINGS:
            raise _Enough
