"""Supplement and catch-up read back: what changed and nothing else, whole where it stands, no link to nowhere."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache
from pathlib import Path

from planbook.document import CatchUp, Composed, PartTask, Rework, TaskGroup, catch_up_pdf, compose, supplement_pdf
from planbook.document.excerpt import without_dead_links
from planbook.drawing.recording import Drawing, Label, Pt
from planbook.source import Door
from planbook.statement import Marks, SheetMark, compare
from planbook.statement.changes import Revision
from planbook.statement.stated import Stated

from .readback import destinations, info, links, outline, page_texts, poppler
from .test_marks import bars
from .tote import printed, state

DOOR = Door(Path(__file__).parents[2])
TOLD = frozenset(
    {"block/groove/start/1", "step.groove/hold", "parameter/tote.length", "sheet/2", "list/hardware/screw"}
)
MARK = SheetMark(1, "Groove, x", "300 mm", "A misprint.", "side/groove/x")


@cache
def changed() -> Stated:
    return replace(state(), marks=Marks("1.0", "1.1", TOLD, {"2": (MARK,)}))


@cache
def supplement() -> Composed:
    whole, findings = compose(changed(), DOOR)
    assert whole is not None
    new = changed().statement
    groove = replace(new.dimensions["side/groove/x"], printed=printed(300, "12", "millimetre"))
    old = replace(new, version="1.0", dimensions={**new.dimensions, "side/groove/x": groove})
    pdf, more = supplement_pdf(changed(), whole, compare(old, new), DOOR)
    assert pdf is not None
    assert (findings, more) == ((), ())
    return replace(whole, pdf=pdf)


def text_of(pdf: bytes) -> str:
    return " ".join(" ".join(page_texts(pdf)).split())


def test_a_supplement_holds_what_changed_and_nothing_else() -> None:
    text = text_of(supplement().pdf)
    assert "Bench Tote: what changed since version 1.0" in text
    assert "Groove the sides" in text
    assert "The panel slides by hand." in text
    assert "Put it together" not in text
    titles = [title for _, title, _ in outline(supplement().pdf)]
    assert [title for title in titles if title.startswith("Sheet ")] == ["Sheet 2: Side"]
    assert "Versions and changes" in titles
    assert not {"Build log", "Cautions", "Print scale"} & set(titles)


def test_of_the_named_dimensions_only_those_that_changed_stand_there() -> None:
    text = text_of(supplement().pdf)
    assert "tote.length" in text
    assert "side.height" not in text


def test_what_changed_has_its_bars_and_marks_there_too() -> None:
    assert bars(supplement())
    assert "300 mm A misprint." in text_of(supplement().pdf)


def test_no_link_leads_out_of_the_supplement() -> None:
    known = set(destinations(supplement().pdf))
    assert {target for _, target in links(supplement().pdf)} <= known
    assert "step 2, page" in text_of(supplement().pdf).replace("\N{NO-BREAK SPACE}", " ")
    away = re.findall(r"(\S+ \S+) of the whole set", text_of(supplement().pdf).replace("\N{NO-BREAK SPACE}", " "))
    assert away
    assert all(re.fullmatch(r"page \d+", each) for each in away), "each says on which page"


def test_links_to_what_is_left_out_become_words() -> None:
    html = (
        '<h1 id="a">A</h1><a class="ref" href="#a">A</a> <a class="ref paged" href="#b">B</a> '
        '<a class="ref paged" href="#c">C</a> <a class="page-of" href="#b"></a><a class="ref" href="#b">b</a>'
    )
    assert without_dead_links(html, {"b": 7}) == (
        '<h1 id="a">A</h1><a class="ref" href="#a">A</a> B, page\N{NO-BREAK SPACE}7 of the whole set '
        "C of the whole set 7b"
    )


def catch_up() -> tuple[str, ...]:
    """Its pages."""
    statement = state().statement
    whole, _ = compose(state(), DOOR)
    assert whole is not None
    told = CatchUp(
        old="1.0",
        versions=(Revision("1.1", "2026-03-20", "The groove is wider."),),
        groups=(
            TaskGroup("Recut", (PartTask(2, "Side", "Work from the new sheet 2", "Make it anew", "With the ends"),)),
            TaskGroup("New", (PartTask(3, "Lid", "Make 1, from sheet 3"),)),
        ),
        reprinted=(4, 5),
        as_before=1,
        others={"Hardware and stock": ("Buy 2 more: screw",), "Steps that you may have done": ()},
        lifted=("Do not cut part 2.",),
        reworks=(Rework("Part 2, Side", "the groove moved", Drawing(60, 30, (Label("FACE", Pt(5, 20), 2.5),), "Old")),),
        sheets={"2": whole.drawn.sheets["2"]},
        withdrawn=("7",),
    )
    pdf, findings = catch_up_pdf(statement, told, DOOR)
    assert pdf is not None
    assert findings == ()
    assert {"Tagged": "yes"}.items() <= info(pdf).items()
    assert [title for _, title, _ in outline(pdf) if title.startswith("Sheet ")] == ["Sheet 2: Side"]
    return tuple(" ".join(page.split()) for page in poppler("pdftotext", "-raw", pdf=pdf).split("\f")[:-1])


def test_a_catch_up_opens_with_one_page_of_what_to_do() -> None:
    first, second = catch_up()
    assert "Part 2, Side: the groove moved" in first
    assert "FACE" in first
    assert "THICKNESS OF" in second or "TITLE" in second
    for words in (
        "You have version 1.0 of the Bench Tote, Metric edition. This is version 1.1 of 2 March 2026.",
        "1.1 The groove is wider.",
        "No longer in force: “Do not cut part 2.”",
        "Not cut yet Cut Glued Finished",
        "Work from the new sheet 2",
        "the part is as before: parts 4, 5",
        "One part is as before.",
        "Buy 2 more: screw",
        "to be taken out: 7",
        "New sheets follow: 2.",
    ):
        assert words in first
    assert "Steps that you may have done" not in first
