"""Of a whole book the chapters that tell something otherwise, cut down to pages, steps, tables and sheets that do."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from collections.abc import Set as AbstractSet
from dataclasses import replace
from typing import Final

from planbook.document.bars import with_bars
from planbook.document.book import NOTHING, Chapter, Entry, Step
from planbook.document.tables import Table

_ID: Final = re.compile(r'\bid="([^"]*)"')
_LINK: Final = re.compile(r'<a\b([^<>]*)\bhref="#([^"]*)"([^<>]*)>(.*?)</a>', re.DOTALL)
_LEFT_OUT: Final = frozenset({"build_log.html", "audit.html", "small_hardware.html"})
"""Chapters that follow from others, or are for writing in."""


def changed_chapters(
    chapters: Iterable[Chapter], told: AbstractSet[str], sheets: AbstractSet[str]
) -> tuple[Chapter, ...]:
    """What a supplement holds: `told` as in statement.marks, `sheets` the numbers of those that are not as before."""
    return tuple(_chapters(chapters, told, sheets))


def _chapters(chapters: Iterable[Chapter], told: AbstractSet[str], sheets: AbstractSet[str]) -> Iterator[Chapter]:
    for chapter in chapters:
        if chapter.template in _LEFT_OUT:
            continue
        cut = replace(
            chapter,
            body=chapter.body if _differs(chapter.body, told) or f"block/{chapter.title_block}" in told else NOTHING,
            tables=tuple(_tables(chapter.tables, told)),
            steps=tuple(step for step in chapter.steps if _step_differs(step, told)),
            sheets=tuple(sheet for sheet in chapter.sheets if sheet.number in sheets),
            cautions=tuple(panel for panel in chapter.cautions if _differs(panel, told)),
            calculations=tuple(each for each in chapter.calculations if each.anchor in told),
            questions=tuple(
                replace(group, asked=asked)
                for group in chapter.questions
                if (
                    asked := tuple(
                        a for a in group.asked if f"block/{a.title_block}" in told or _differs(a.answer, told)
                    )
                )
            ),
        )
        cut = replace(cut, stocks=chapter.stocks if cut.tables else (), notes=chapter.notes if cut.tables else ())
        if chapter.template == "versions.html":
            yield replace(chapter, entries=())
        elif any((cut.body, cut.tables, cut.steps, cut.sheets, cut.cautions, cut.calculations, cut.questions)):
            # Its sheets follow without the list of effective ones, which heads them in the whole set.
            target = cut.sheets[0].target if cut.sheets else chapter.target
            yield replace(cut, target=target, entries=_entries(chapter, cut))


def _entries(whole: Chapter, cut: Chapter) -> tuple[Entry, ...]:
    kept = {step.target for step in cut.steps} | {sheet.target for sheet in cut.sheets}
    kept |= {f"table.{table.name}" for table in cut.tables} | {stock.anchor for stock in cut.stocks}
    kept |= {each.anchor for each in cut.calculations}
    kept |= {asked.target for group in cut.questions for asked in group.asked}
    kept |= set(_ID.findall(cut.body))
    return tuple(entry for entry in whole.entries if entry.target in kept)


def _differs(html: str, told: AbstractSet[str]) -> bool:
    return with_bars(html, told) != html


def _tables(tables: Iterable[Table], told: AbstractSet[str]) -> Iterator[Table]:
    """Tables with a row that changed, whole; of the long one of named dimensions only such rows."""
    for table in tables:
        changed = tuple(
            replace(group, rows=rows)
            for group in table.groups
            if (rows := tuple(row for row in group.rows if row.told in told))
        )
        if changed:
            yield replace(table, groups=changed) if table.name == "dimensions" else table


def _step_differs(step: Step, told: AbstractSet[str]) -> bool:
    beside = any(name.startswith(f"{step.target}/") for name in told)
    return beside or f"block/{step.title_block}" in told or _differs(step.cautions + step.body, told)


def without_dead_links(html: str, pages: Mapping[str, int]) -> str:
    """Links to what the excerpt leaves out as plain words, with the page of the whole plan set where it is known."""
    here = set(_ID.findall(html))

    def kept(match: re.Match[str]) -> str:
        before, target, after, words = match.groups()
        if target in here:
            return match[0]
        page = pages.get(target)
        looks = before + after
        if "page-of" in looks:
            return str(page or "")
        if "paged" in looks:
            where = f", page\N{NO-BREAK SPACE}{page}" if page else ""
            return f"{words}{where} of the whole set"
        return words

    return _LINK.sub(kept, html)
