"""Bars in the margin and marked sheets in a finished PDF: what changed has one, and no word stands elsewhere for it."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import pairwise
from pathlib import Path

from planbook.document import Composed, compose
from planbook.document.bars import with_bars
from planbook.source import Door
from planbook.statement import Marks, Removed, SheetMark

from .readback import page_texts, reader, tags, words
from .tote import state

WORKSPACE = Path(__file__).parents[2]
TOLD = frozenset({
    "block/about/p/1", "block/about/longer/0", "block/groove/title/0", "block/about/title/0", "figure/room",
    "list/hardware/screw", "list/tools/1", "list/parts/side", "list/cautions/dust", "parameter/tote.length",
    "step.groove/hold", "step.groove/tools", "sheet/2",
})  # fmt: skip
SHEETS = {"2": (SheetMark(1, "Groove, x", "300 mm", "A misprint.", "side/groove/x"),)}
REMOVED = (Removed("Care", "Wax it twice a year."),)
_BAR = 0.7 * 96 / 25.4
"""The width of a bar in CSS pixels."""


@cache
def composed(told: frozenset[str], since: str = "1.0") -> Composed:
    marks = Marks(since, "1.1", told, SHEETS, REMOVED) if since else Marks()
    done, findings = compose(replace(state(), marks=marks), Door(WORKSPACE))
    assert done is not None
    assert findings == ()
    return done


def bars(done: Composed) -> dict[int, set[tuple[int, int]]]:
    """Left and top in CSS pixels of every bar, by page: a box of its own, or a border that is told by its two edges."""
    found: dict[int, set[tuple[int, int]]] = {}
    for number, page in enumerate(reader(done.pdf).pages, start=1):
        content = page.get_contents()
        assert content is not None
        boxes = [
            tuple(float(each) for each in operands) for operands, operator in content.operations if operator == b"re"
        ]
        own = [box for box in boxes if abs(box[2] - _BAR) < 0.01]
        borders = [b for a, b in pairwise(boxes) if a[1] == b[1] and a[3] == b[3] and abs(b[2] - a[2] - _BAR) < 0.01]
        found[number] = {(round(box[0]), round(box[1])) for box in (*own, *borders)}
    return {number: those for number, those in found.items() if those}


def test_bars_move_no_word_and_no_page() -> None:
    assert words(composed(TOLD).pdf) == words(composed(frozenset()).pdf)
    assert composed(TOLD).places == composed(frozenset()).places


def test_everything_that_changed_has_a_bar_and_nothing_else() -> None:
    assert bars(composed(frozenset())) == {}
    count = sum(len(those) for those in bars(composed(TOLD)).values())
    assert count == composed(TOLD).html.count(" data-changed")
    assert count == len(TOLD) + 1  # the caution stands in its chapter and in the step that names it


def test_a_bar_stands_left_of_its_words() -> None:
    done = composed(frozenset({"parameter/tote.length"}))
    ((page, places),) = bars(done).items()
    ((left, top),) = places
    row = next(each for each in words(done.pdf) if each.page == page and each.text == "tote.length")
    assert left < 22 * 96 / 25.4  # in the margin of the paper
    assert abs(top * 25.4 / 96 - row.top) < 2


def test_pages_say_how_changes_are_marked_and_what_was_taken_out() -> None:
    text = " ".join(" ".join(page_texts(composed(TOLD).pdf)).split())
    assert "Changed since version 1.0; the sheet says under that number what it was" in text
    assert "A bar in the margin stands beside words and rows that read otherwise than in version 1.0" in text
    assert "Care: “Wax it twice a year.”" in text
    plain = " ".join(" ".join(page_texts(composed(frozenset(), "").pdf)).split())
    assert "bar in the margin" not in plain


def test_a_marked_sheet_tells_the_former_value_and_says_so_to_who_does_not_see_it() -> None:
    done = composed(TOLD)
    (page,) = {place.page for place in done.places.dimensions["side/groove/x"] if place.sheet == "2"}
    assert "300 mm" in page_texts(done.pdf)[page - 1]
    assert "A misprint." in page_texts(done.pdf)[page - 1]
    told = [str(tag.get("/Alt", "")) for tag in tags(done.pdf) if tag["/S"] == "/Figure"]
    assert any("Changed since version 1.0: 1, Groove, x: 300 mm" in each for each in told)


def test_bars_are_no_content() -> None:
    """A bar is seen only: the tags are those of the same pages without one."""
    assert kinds(composed(TOLD)) == kinds(composed(frozenset()))


def kinds(done: Composed) -> list[str]:
    """Of all tags that mean anything."""
    return [str(tag["/S"]) for tag in tags(done.pdf) if tag["/S"] != "/NonStruct"]


def test_an_element_is_marked_once_whatever_names_it() -> None:
    panel = '<aside data-caution="dust" data-block="a/b/1"{}><p data-block="a/b/2" class="x">5 > 4</p></aside>'
    html = panel.format("") + '<br data-told="x"/>'
    told = {"list/cautions/dust", "block/a/b/1", "x"}
    assert with_bars(html, told) == panel.format(" data-changed") + '<br data-told="x" data-changed/>'
    assert with_bars(html, {"y"}) == html
