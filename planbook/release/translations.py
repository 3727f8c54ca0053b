"""Translations: one whose original has changed since the version that it translates is told to its author."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from planbook.release.archive.reader import FOLDER, list_versions
from planbook.release.version import read_version
from planbook.source.content import Content, Translation
from planbook.source.findings import Finding, Place, Related, Severity
from planbook.source.markdown_file import split_prose
from planbook.source.names import listed
from planbook.source.text import Text


@dataclass(frozen=True, slots=True)
class _Block:
    """What stands between two blank lines, and where it begins."""

    text: str
    line: int


def check_translations_kept(root: Path, content: Content) -> tuple[Finding, ...]:
    """A warning for each translation of a released version with the blocks of the original that are others today."""
    return tuple(
        finding
        for each in content.translations
        if each.head.of is not None and each.original in content.prose
        for finding in _check(root, content, each, content.prose[each.original].body)
    )


def _check(root: Path, content: Content, translation: Translation, original: Text) -> Iterator[Finding]:
    assert translation.head.of is not None
    released = list_versions(root, content.key)
    if read_version(translation.head.of) not in released:
        message = f"This translates version {translation.head.of}, and that was never released."
        known = f"Name a released one: {listed(map(str, released), 'or')}. " if released else ""
        remedy = f"{known}Leave `of` out where it translates the words of today."
        yield Finding("translation-version-unknown", Severity.STOP, message, remedy, translation.head.of.place)
        return
    then = _body(root / FOLDER / content.key / translation.head.of / "inputs" / translation.original)
    changed = [*_changed(_blocks(then, 1), _blocks(original, original.place.line if original.place else 1))]
    if changed:
        several = f"{len(changed)} blocks of the original are" if len(changed) > 1 else "one block of the original is"
        message = f"This translates version {translation.head.of}, and {several} another since."
        newest = f"`of: {released[-1]}` once that is released, or leave `of` out until then"
        remedy = f"Translate what changed, and then write {newest}."
        related = tuple(Related(Place(translation.original, each.line, 1), "this changed") for each in changed)
        place = translation.head.of.place
        yield Finding("translation-stale", Severity.WARN, message, remedy, place, related=related)


def _body(path: Path) -> str:
    """Of a frozen original; nothing of a page that did not exist then. What is damaged is told by the archive."""
    try:
        prose, _ = split_prose(path.read_text(encoding="utf-8"), path.name)
    except (OSError, UnicodeDecodeError):
        return ""
    return str(prose[1]) if prose else ""


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
