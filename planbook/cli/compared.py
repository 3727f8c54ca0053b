"""A comparison for people: what it means for the parts, then heading by heading, then the number that is due."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator, Mapping

from planbook.cli.advised import advised_lines
from planbook.impact import ORDER, TITLES
from planbook.release import Compared, HeadingAcross, PartAcross
from planbook.source.sentences import capital
from planbook.statement.wording import Wording

_WIDTH = 100
_DRAFT = "draft"
_MEASURE = re.compile(r"(?<=\d) (?=\d+/|mm\b|in\b)")
"""The spaces in `1 3/4 in`."""


def compared_lines(compared: Compared) -> Iterator[str]:
    """All lines, none longer than a terminal is wide unless a word is."""
    names = [edition.name for edition in compared.editions]
    now = "the content as it stands" if compared.new == _DRAFT else compared.new
    yield f"{compared.title}: from {compared.old} to {now}"
    for edition in compared.editions:
        if edition.impact is None:
            yield from (
                "",
                f"The {edition.name} edition is {'new' if not edition.changes[0].old else 'no longer made'}.",
            )
    if compared.advised and compared.advised.advisories:
        yield from ("", *advised_lines(compared.advised))
    yield from _parts(compared.parts, names)
    for title, lines in compared.others.items():
        yield from _others(title, lines, names)
    for heading in compared.headings:
        yield from ("", heading.title, *_heading(heading, names))
    if not compared.headings:
        yield from ("", "Nothing that is printed reads differently.")
    if compared.due:
        yield from ("", f"Next version: {compared.due.version or 'none is due'}")
        yield from _wrapped(f"{capital(compared.due.why)}.", "  ")


def _parts(parts: tuple[PartAcross, ...], editions: list[str]) -> Iterator[str]:
    """Under each class, the gravest first, its parts and what to do with them."""
    told = [part for part in parts if not part.as_before]
    for impact in ORDER:
        group = [part for part in told if part.impact is impact]
        if group:
            yield from ("", TITLES[impact], *(line for part in group for line in _part(part, editions)))
    if told and (same := len(parts) - len(told)):
        yield from ("", f"{'One other part is' if same == 1 else f'{same} other parts are'} as before.")


def _part(part: PartAcross, editions: list[str]) -> Iterator[str]:
    yield f"{part.number:>4}  {part.title}"
    meanings = part.meanings
    if len(set(meanings.values())) == 1 and len(meanings) == len(editions):
        said = next(iter(meanings.values()))
        yield from _wrapped(said, "      ") if said else ()
        return
    width = max(map(len, editions))
    for edition, said in meanings.items():
        yield from _wrapped(said or "as the others", f"      {edition:<{width}}  ")


def _others(title: str, lines: Mapping[str, tuple[str, ...]], editions: list[str]) -> Iterator[str]:
    if not lines:
        return
    yield from ("", title)
    for line, whose in lines.items():
        yield from _wrapped(line if len(whose) == len(editions) else f"{', '.join(whose)}: {line}", "  ")


def _heading(heading: HeadingAcross, editions: list[str]) -> Iterator[str]:
    for line in heading.lines:
        said = dict.fromkeys(map(str, line.values()))
        if len(said) == 1 and len(line) == len(editions):
            yield from _same(next(iter(line.values())))
        else:
            yield from _differing(line, max(map(len, editions)))


def _same(what: Wording) -> Iterator[str]:
    """What every edition tells in the same words: in one line where it goes into one, texts one under the other."""
    if _quotes(what):
        yield from _wrapped(what.subject, "  ") if what.subject else ()
        yield from _pair(what, "    ", "")
    else:
        yield from _wrapped(str(what), "  ")


def _differing(line: Mapping[str, Wording], width: int) -> Iterator[str]:
    """One line an edition, under what they have in common."""
    subjects = {what.subject for what in line.values()}
    common = next(iter(subjects)) if len(subjects) == 1 else ""
    shared = bool(common) and all(what.old or what.new for what in line.values())
    if shared:
        yield from _wrapped(common, "  ")
    for edition, what in line.items():
        if _quotes(what):
            yield from _pair(what, "    ", f"{edition:<{width}}  ")
        else:
            told = Wording("", what.old, what.new) if shared else what
            yield from _wrapped(str(told), f"    {edition:<{width}}  ")


def _quotes(what: Wording) -> bool:
    return what.old.startswith("“") and what.new.startswith("“")


def _pair(what: Wording, indent: str, label: str) -> Iterator[str]:
    yield from _wrapped(what.old, f"{indent}{label}before  ")
    yield from _wrapped(what.new, f"{indent}{' ' * len(label)}now     ")


def _wrapped(text: str, lead: str) -> list[str]:
    """The text after its lead, in lines that hang under its first word; a measure stays in one line with its unit."""
    bound = _MEASURE.sub("\N{NO-BREAK SPACE}", text)
    lines = textwrap.wrap(
        bound, _WIDTH, initial_indent=lead, subsequent_indent=" " * len(lead), break_long_words=False,
        break_on_hyphens=False,
    )  # fmt: skip
    return [line.replace("\N{NO-BREAK SPACE}", " ") for line in lines]
