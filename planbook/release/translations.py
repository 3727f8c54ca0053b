"""Translations: one whose original has changed since the version that it translates is told to its author."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from planbook.release.archive.reader import FOLDER, list_versions
from planbook.release.version import read_version
from planbook.source.content import Content, Translation, Wording
from planbook.source.findings import Finding, Place, Related, Severity
from planbook.source.markdown_file import split_prose
from planbook.source.names import listed
from planbook.source.text import Text
from planbook.source.translating import original_of
from planbook.source.tree import Node, texts_in
from planbook.source.yaml_tree import read_tree

_HEAD: Final = ("title", "question", "dry_fit", "hold", "tools")


@dataclass(frozen=True, slots=True)
class _Block:
    """What stands between two blank lines, and where it begins."""

    text: str
    line: int


def check_translations_kept(root: Path, content: Content) -> tuple[Finding, ...]:
    """A warning for each translation of a released version with the blocks of the original that are others today."""
    findings: list[Finding] = []
    for each in content.translations:
        if each.head.of is not None and each.original in content.bodies:
            findings += _check(root, content, each.head.of, _blocks_changed(root, content, each, each.head.of))
    for wording in content.wordings:
        if wording.of is not None:
            findings += _check(root, content, wording.of, _texts_changed(root, content, wording, wording.of))
    return tuple(findings)


def _check(root: Path, content: Content, of: Text, changed: Iterable[Place]) -> Iterator[Finding]:
    """Of a translation of a version: where the original is another since."""
    released = list_versions(root, content.key)
    if read_version(of) not in released:
        message = f"This translates version {of}, and that was never released."
        known = f"Name a released one: {listed(map(str, released), 'or')}. " if released else ""
        remedy = f"{known}Leave `of` out where it translates the words of today."
        yield Finding("translation-version-unknown", Severity.STOP, message, remedy, of.place)
    elif places := [*changed]:
        several = f"{len(places)} blocks of the original are" if len(places) > 1 else "one block of the original is"
        message = f"This translates version {of}, and {several} another since."
        newest = f"`of: {released[-1]}` once that is released, or leave `of` out until then"
        remedy = f"Translate what changed, and then write {newest}."
        related = tuple(Related(place, "this changed") for place in places)
        yield Finding("translation-stale", Severity.WARN, message, remedy, of.place, related=related)


def _blocks_changed(root: Path, content: Content, translation: Translation, of: Text) -> Iterator[Place]:
    """Of prose the blocks; and the words in its head, at the top of the file."""
    original = content.bodies[translation.original]
    head, then = _prose(_frozen(root, content, of, translation.original))
    if any(head.get(name, "") != _joined(getattr(original.head, name, "")) for name in _HEAD):
        yield Place(translation.original, 1, 1)
    body = original.body
    for each in _changed(_blocks(then, 1), _blocks(body, body.place.line if body.place else 1)):
        yield Place(translation.original, each.line, 1)


def _texts_changed(root: Path, content: Content, wording: Wording, of: Text) -> Iterator[Place]:
    """Of a table the texts that are translated."""
    then: dict[tuple[str, ...], str] = {}
    for file in reversed(wording.originals):
        tree = _tree(_frozen(root, content, of, file), file)
        then |= {} if tree is None else {path: str(text) for path, text in texts_in(tree)}
    for path in wording.texts:
        original = original_of(content, wording, path)
        if original is not None and then.get(path) != original:
            yield original.place


def _frozen(root: Path, content: Content, of: Text, file: str) -> str:
    """An original as a version read it; "" for one that did not exist then. What is damaged is told by the archive."""
    try:
        return (root / FOLDER / content.key / of / "inputs" / file).read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        return ""


def _tree(text: str, file: str) -> Node | None:
    return read_tree(text, file)[0] if text.strip() else None


def _prose(text: str) -> tuple[Mapping[str, str], str]:
    """The words in the head, and the body."""
    prose, _ = split_prose(text, "")
    if prose is None:
        return {}, ""
    head: dict[str, list[str]] = {}
    for (name, *_), each in texts_in(prose[0]):
        head.setdefault(name, []).append(str(each))
    return {name: "\n".join(words) for name, words in head.items()}, str(prose[1])


def _joined(words: str | tuple[str, ...]) -> str:
    return str(words) if isinstance(words, str) else "\n".join(words)


def _blocks(body: str, line: int) -> list[_Block]:
    blocks = []
    for match in re.finditer(r"(?:.*\S.*\n?)+", body):
        blocks.append(_Block(" ".join(match[0].split()), line + body.count("\n", 0, match.start())))
    return blocks


def _changed(then: list[_Block], now: list[_Block]) -> Iterator[_Block]:
    """The blocks of today that are new or other; where one was taken out, the one that follows."""
    matcher = difflib.SequenceMatcher(None, [each.text for each in then], [each.text for each in now], autojunk=False)
    for tag, _, _, start, end in matcher.get_opcodes():
        if tag in ("replace", "insert"):
            yield from now[start:end]
        elif tag == "delete" and now:
            yield now[min(start, len(now) - 1)]
