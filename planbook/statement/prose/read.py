"""Reading all the prose of an edition: pages and steps to marked HTML and blocks, lines to words."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from html import escape

from planbook.source.findings import Finding, Severity
from planbook.source.text import Text
from planbook.statement.model import BlockStated
from planbook.statement.prose.insert import html_of, plain_of
from planbook.statement.prose.links import refuse_links
from planbook.statement.prose.markup import (
    MOST_LINES,
    Frame,
    Marked,
    mark_up,
    mark_up_line,
    plain_line,
    tokens_in,
)
from planbook.statement.prose.measures import refuse_measures
from planbook.statement.prose.names import ALONE, Named, Names, Sort
from planbook.statement.prose.permitted import Use
from planbook.statement.prose.spots import place_of
from planbook.statement.prose.template import Filled, fill
from planbook.statement.prose.tokens import replace_tokens


@dataclass(frozen=True, slots=True)
class Line:
    """One line of prose: a note, a caption, the text of a caution."""

    plain: str
    html: str
    paths: frozenset[str]
    """The names that it prints."""


@dataclass(frozen=True, slots=True)
class Written:
    """A page or step as written: what it is called and its Markdown."""

    key: str
    title: str
    body: Text


@dataclass(frozen=True, slots=True)
class Read:
    """A page or step as read. The title's block comes first among `blocks`."""

    key: str
    title: str
    html: str
    blocks: tuple[BlockStated, ...]
    paths: frozenset[str]


def read_line(text: Text, names: Names) -> tuple[Line, tuple[Finding, ...]]:
    """Read one line of prose, in which names print as in a page. Figures, tables and cautions have no place in it."""
    filled, findings = fill(text, names)
    misplaced = _misplaced(text, filled, range(len(filled.uses)))
    html = _insert(mark_up_line(filled.text), filled.uses, html_of)
    plain = _insert(plain_line(filled.text), filled.uses, plain_of)
    return Line(plain, html, _paths(filled)), (*findings, *misplaced, *_refuse(text, filled, names))


def number_figures(written: Iterable[Written], names: Names) -> dict[str, int]:
    """The number of each figure that a page shows, in order of first placement; pages are given in reading order."""
    placed = (figure for page in written for figure in _placed(page.body, names))
    return {figure: at for at, figure in enumerate(dict.fromkeys(placed), start=1)}


def _placed(body: Text, names: Names) -> Iterator[str]:
    filled, _ = fill(body, names)
    if filled.text:
        yield from (named.key for _, named in _shown(filled))
    else:
        # A page that cannot be read is reported as that; what it seems to show shall not be missed elsewhere.
        yield from re.findall(r"\bfigure\.(\w+)", body)


def read_pages(written: Iterable[Written], names: Names) -> tuple[tuple[Read, ...], tuple[Finding, ...]]:
    """Read pages and steps, given in reading order. `names` must be numbered."""
    read: list[Read] = []
    found: list[Finding] = []
    shown: set[str] = set()
    for page in written:
        filled, findings = fill(page.body, names)
        found += (*findings, *_refuse(page.body, filled, names))
        for use, named in _shown(filled):
            if named.key in shown:
                found.append(_shown_before(page.body, use, named))
            shown.add(named.key)
        read.append(_read(page, filled, found))
    return tuple(read), tuple(found)


def _refuse(text: Text, filled: Filled, names: Names) -> tuple[Finding, ...]:
    """What any text must not hold: links, pictures, bare measures, references to figures that no page shows."""
    return (
        *refuse_links(text, filled.words),
        *refuse_measures(text, filled.words, names),
        *(
            _not_shown(text, use, use.named)
            for use in (filled.uses[index] for index in tokens_in(filled.text))
            if use.named is not None and use.named.sort is Sort.SEE and not use.named.plain
        ),
    )


def _shown(filled: Filled) -> Iterator[tuple[Use, Named]]:
    """The figures that a page places, in order."""
    for use in (filled.uses[index] for index in tokens_in(filled.text)):
        if use.named is not None and use.named.sort is Sort.FIGURE:
            yield use, use.named


def _not_shown(text: Text, use: Use, named: Named) -> Finding:
    figure = named.key.partition(".")[2]
    remedy = f"Write {{{{ figure.{figure} }}}} in a paragraph of its own, on the page where it belongs."
    message = f"No page shows the figure {figure}."
    return Finding("figure-not-shown", Severity.STOP, message, remedy, place_of(text, use.offset))


def _shown_before(text: Text, use: Use, named: Named) -> Finding:
    message, remedy = f"The figure {named.key} is already shown.", f"Refer to it: {{{{ see.{named.key} }}}}."
    return Finding("figure-twice", Severity.STOP, message, remedy, place_of(text, use.offset))


def _read(page: Written, filled: Filled, found: list[Finding]) -> Read:
    title = BlockStated(f"{page.key}/start/0", page.key, "heading", page.title)
    marked = _marked(page, filled, found)
    if marked is None:
        return Read(page.key, page.title, "", (title,), _paths(filled))
    found += _misplaced(page.body, filled, (index for index in tokens_in(filled.text) if index not in marked.alone))
    blocks = tuple(
        BlockStated(block.id, page.key, block.kind, _insert(block.text, filled.uses, plain_of))
        for block in marked.blocks
    )
    return Read(page.key, page.title, _insert(marked.html, filled.uses, html_of), (title, *blocks), _paths(filled))


def _marked(page: Written, filled: Filled, found: list[Finding]) -> Marked | None:
    longest = max((chunk.count("\n") + 1 for chunk in filled.text.split("\n\n")), default=0)
    remedy = "Divide it into shorter paragraphs and lists."
    if longest > MOST_LINES:
        message = f"A paragraph has {longest} lines; at most {MOST_LINES} are read."
        found.append(Finding("page-too-long", Severity.STOP, message, remedy, place_of(page.body, 0)))
        return None
    try:
        return mark_up(
            page.key, filled.text, lambda index: _slug(filled.uses[index]), lambda index: _frame(filled.uses[index])
        )
    except RecursionError:
        message = "Lists are nested too deep to be read."
        found.append(Finding("page-too-long", Severity.STOP, message, remedy, place_of(page.body, 0)))
        return None


def _slug(use: Use) -> str:
    return use.named.path if use.named else ""


def _frame(use: Use) -> Frame | None:
    named = use.named
    if named is None or named.sort not in ALONE:
        return None
    if named.sort is Sort.FIGURE:
        return Frame("figure", {"id": f"figure.{named.key}", "data-figure": named.key}, "caption")
    if named.sort is Sort.TABLE:
        return Frame("div", {"id": f"table.{named.key}", "data-table": named.key}, "")
    return _caution_frame(named)


def _misplaced(text: Text, filled: Filled, indices: Iterable[int]) -> tuple[Finding, ...]:
    return tuple(
        Finding(
            "not-alone",
            Severity.STOP,
            f"{use.named.path} needs a paragraph of its own.",
            f"Write {{{{ {use.named.path} }}}} between two empty lines of a page.",
            place_of(text, use.offset),
        )
        for use in (filled.uses[index] for index in indices)
        if use.named is not None and use.named.sort in ALONE
    )


def _insert(text: str, uses: tuple[Use, ...], words_of: Callable[[Named, str], str]) -> str:
    def insert(index: int, before: str) -> str:
        named = uses[index].named
        return "" if named is None else words_of(named, before)

    return replace_tokens(text, insert)


def _paths(filled: Filled) -> frozenset[str]:
    return frozenset(use.named.path for use in filled.uses if use.named is not None)


def caution(key: str, word: str, title: str, line: Line) -> Named:
    """A caution as prose names it: signal word, title and text, as words and as what stands inside its frame."""
    html = (
        f'<p class="caution-word">{escape(word.upper())}</p>'
        f'<p class="caution-title">{escape(title)}</p><p class="caution-text">{line.html}</p>'
    )
    return Named(f"caution.{key}", Sort.CAUTION, key, f"{word.upper()}. {title}. {line.plain}", html=html)


def caution_html(named: Named) -> str:
    """A caution with its frame, as a page that generates its own cautions shows it."""
    frame = _caution_frame(named)
    attributes = "".join(f' {name}="{escape(value)}"' for name, value in frame.attributes.items())
    return f"<{frame.tag}{attributes}>{named.html}</{frame.tag}>"


def _caution_frame(named: Named) -> Frame:
    word = named.plain.partition(".")[0].lower()
    return Frame("aside", {"class": f"caution caution-{word}", "data-caution": named.key}, "caution", keep=True)
