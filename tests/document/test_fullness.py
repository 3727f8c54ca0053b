"""No page of any set is nearly empty: a buyer who pays for 80 pages looks at each of them."""

from __future__ import annotations

from itertools import pairwise

import pytest

from planbook.document import Composed, compose, drawn
from planbook.document.papers import PAPERS
from planbook.drawing.recording import Drawing
from planbook.source import Door
from planbook.statement.model import Statement

from .plan_sets import WORKSPACE, stated
from .readback import outline, words

LEAST = 0.25
"""Of a page's height that words and pictures reach down: common practice, no source."""


def blank_sheet(statement: Statement, _: str) -> tuple[tuple[Drawing, ...], tuple[()]]:
    """Sheets fill their pages whatever they show, and take long to draw."""
    paper = PAPERS[statement.edition.paper]
    return (Drawing(paper.height, paper.width, (), "A sheet", ()),), ()


def set_pages(key: str, edition: str, monkeypatch: pytest.MonkeyPatch) -> tuple[Composed, str]:
    monkeypatch.setattr(drawn, "draw_sheet", blank_sheet)
    told = stated(key, edition)
    done, _ = compose(told, Door(WORKSPACE))
    assert done is not None
    return done, told.statement.edition.paper


def fullness(done: Composed, paper_name: str) -> dict[int, float]:
    """How far down the text area each upright page is filled, by page."""
    paper, sizes = PAPERS[paper_name], done.places.page_sizes
    upright = [width < height for width, height in sizes]
    reach = dict.fromkeys(range(1, len(sizes) + 1), 0.0)
    for word in words(done.pdf):
        if word.bottom < paper.height - paper.bottom + 1:
            reach[word.page] = max(reach[word.page], word.bottom - paper.top)
    height = paper.height - paper.top - paper.bottom
    return {page: down / height for page, down in reach.items() if upright[page - 1]}


@pytest.mark.parametrize("edition", ["metric", "imperial"])
@pytest.mark.parametrize("key", ["tool-tote", "sewing-desk", "splayed-stool", "lift-column"])
def test_no_page_is_nearly_empty(key: str, edition: str, monkeypatch: pytest.MonkeyPatch) -> None:
    done, paper = set_pages(key, edition, monkeypatch)
    found = fullness(done, paper)
    assert len(found) > 10
    assert {page: round(share, 2) for page, share in found.items() if share < LEAST} == {}
    turned = {page for page, (width, height) in enumerate(done.places.page_sizes, start=1) if width > height}
    chapters = [(title, page) for depth, title, page in outline(done.pdf) if depth == 0]
    begun = {page for _, page in chapters}
    assert turned
    assert not begun & turned, "a chapter begins on the page of a sheet"
    copied = {str(page.head.title) for page in stated(key, edition).content.pages if page.head.copied}
    for (title, first), (_, then) in pairwise(chapters):
        assert title not in copied or then - first == 1, "what is to be copied from the plans takes one page"
    every = words(done.pdf) if copied else ()
    for title, page in chapters:
        here = [word for word in every if word.page == page and word.bottom > PAPERS[paper].top]
        assert title not in copied or title.startswith(min(here, key=lambda word: word.bottom).text), "and nothing else"
