"""The Markdown step: tables, definition lists, attribute lists; no raw HTML, no links, no pictures.

Works on text whose names are already tokens. Gives HTML with a block id on every block, and the blocks' texts.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from functools import cache
from html import unescape
from xml.etree.ElementTree import Element

from markdown import Markdown
from markdown.treeprocessors import Treeprocessor

from planbook.statement.prose.tokens import TOKEN, only_token, read_token, replace_tokens

MOST_LINES = 400
"""Lines in one paragraph: Markdown's time grows with the square of them."""
_HEADINGS = frozenset({"h1", "h2", "h3", "h4", "h5", "h6"})
_LISTS = frozenset({"ul", "ol", "dl"})
_KINDS = {"p": "paragraph", "li": "item", "dt": "term", "dd": "definition", "pre": "code", "tr": "row"}
_UNWANTED = ("html", "entity", "reference", "link", "image_link", "image_reference", "short_reference",
             "short_image_ref", "autolink", "automail")  # fmt: skip
_CLASS = re.compile(r"[a-z][a-z -]*")
_ALIGN = re.compile(r"text-align: (?:left|right|center);")


@dataclass(frozen=True, slots=True)
class RawBlock:
    """A block of a page: its text still holds tokens."""

    id: str
    kind: str
    text: str


@dataclass(frozen=True, slots=True)
class Marked:
    """A page after Markdown: HTML that still holds tokens. `alone` are the tokens that had a paragraph of their own."""

    html: str
    blocks: tuple[RawBlock, ...]
    alone: frozenset[int]


@dataclass(frozen=True, slots=True)
class Frame:
    """What a token alone in a paragraph turns that paragraph into."""

    tag: str
    attributes: dict[str, str]
    kind: str
    """The kind of block, "" when it says nothing that prose says."""
    keep: bool = False
    """Whether the token stays inside, to be replaced by what it stands for."""


def mark_up(page: str, text: str, slug_of: Callable[[int], str], frame_of: Callable[[int], Frame | None]) -> Marked:
    """Turn a page's text into HTML. `slug_of` names a token in a heading; `frame_of` tells what takes a paragraph.

    Raises RecursionError for lists nested beyond reading.
    """
    walker = _Walker(page, slug_of, frame_of)
    html = _markdown(walker).convert(text)
    return Marked(html, tuple(walker.blocks), frozenset(walker.alone))


def mark_up_line(text: str) -> str:
    """The HTML of one line: emphasis and code, no paragraph round it."""
    # What would open a list or a heading is an ordinary beginning in a line.
    words = re.sub(r"\A(\d*)([-+*#>.])(?=\s)", r"\1\\\2", " ".join(text.split()))
    html = _of_lines().reset().convert(words)
    return re.sub(r"\A<p>|</p>\Z", "", html) if html.count("<p>") == 1 else html


def plain_line(text: str) -> str:
    """The words of one line, without its marks of emphasis. Tokens stay."""
    return unescape(re.sub(r"<[^<>]*>", "", mark_up_line(text))).strip()


@cache
def _of_lines() -> Markdown:
    """One for all lines: it is built in more time than it takes to read one."""
    return _markdown(None)


def _markdown(walker: _Walker | None) -> Markdown:
    markdown = Markdown(extensions=["tables", "attr_list", "def_list", "sane_lists"], output_format="html")
    markdown.preprocessors.deregister("html_block")
    for name in _UNWANTED:
        markdown.inlinePatterns.deregister(name)
    markdown.parser.blockprocessors.deregister("reference")
    markdown.treeprocessors.register(_Marker(markdown, walker), "marks", -1)
    return markdown


class _Marker(Treeprocessor):
    def __init__(self, markdown: Markdown, walker: _Walker | None) -> None:
        super().__init__(markdown)
        self.walker = walker

    def run(self, root: Element) -> None:
        for element in root.iter():
            _clean(element)
        if self.walker is not None:
            self.walker.walk(root)


def _clean(element: Element) -> None:
    """Leave an element only attributes that cannot clash with the document's own: a class, a column's alignment."""
    kept = {
        name: value
        for name, value in element.attrib.items()
        if (name == "class" and _CLASS.fullmatch(value))
        or (name == "style" and element.tag in ("td", "th") and _ALIGN.fullmatch(value))
        or (name == "start" and element.tag == "ol" and value.isdecimal())
    }
    element.attrib.clear()
    element.attrib.update(kept)


@dataclass
class _Walker:
    """Goes through the blocks in reading order and gives each its id: page, heading, count under that heading."""

    page: str
    slug_of: Callable[[int], str]
    frame_of: Callable[[int], Frame | None]
    section: str = "start"
    count: int = 0
    sections: dict[str, int] = field(default_factory=lambda: {"start": 1})
    blocks: list[RawBlock] = field(default_factory=list)
    alone: set[int] = field(default_factory=set)

    def walk(self, parent: Element) -> None:
        for element in parent:
            if element.tag in _HEADINGS:
                self.enter(_words(element))
                self.block(element, "heading", _words(element), 0)
            elif element.tag == "p" and self.framed(element):
                continue
            elif element.tag in ("li", "dd") and any(child.tag == "p" for child in element):
                self.walk(element)
            elif element.tag in _KINDS:
                self.block(element, _KINDS[element.tag], _words(element), self.next())
                for child in element:
                    if child.tag in _LISTS:
                        self.walk(child)
            else:
                self.walk(element)

    def enter(self, heading: str) -> None:
        named = replace_tokens(heading, lambda index, _: f" {self.slug_of(index)} ")
        slug = re.sub(r"[^a-z0-9]+", "-", named.lower()).strip("-") or "section"
        self.sections[slug] = self.sections.get(slug, 0) + 1
        self.section = slug if self.sections[slug] == 1 else f"{slug}-{self.sections[slug]}"
        self.count = 0

    def next(self) -> int:
        self.count += 1
        return self.count

    def block(self, element: Element, kind: str, text: str, count: int) -> None:
        block = f"{self.page}/{self.section}/{count}"
        element.set("data-block", block)
        if kind:
            self.blocks.append(RawBlock(block, kind, text))

    def framed(self, element: Element) -> bool:
        """Turn a paragraph that is one token into what that token stands for."""
        index = only_token(_words(element))
        frame = None if index is None else self.frame_of(index)
        if index is None or frame is None:
            return False
        self.alone.add(index)
        text = _words(element)
        element.clear()
        element.tag, element.text = frame.tag, text if frame.keep else ""
        element.attrib.update(frame.attributes)
        self.block(element, frame.kind, text, self.next())
        return True


def _words(element: Element) -> str:
    """The text of a block as it reads, without that of the lists inside it; cells are parted by a stroke."""
    if element.tag == "tr":
        return " | ".join(_words(cell) for cell in element)
    return " ".join(unescape("".join(_pieces(element))).split())


def _pieces(element: Element) -> Iterator[str]:
    yield element.text or ""
    for child in element:
        if child.tag not in _LISTS:
            yield from _pieces(child)
        yield (" " if child.tag == "br" else "") + (child.tail or "")


def tokens_in(text: str) -> tuple[int, ...]:
    """The indices of the tokens in a text, in order."""
    return tuple(read_token(match) for match in TOKEN.finditer(text))
