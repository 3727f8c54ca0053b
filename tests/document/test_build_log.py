"""The build log and the list of effective sheets, read back from the PDF."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from planbook.document import Composed, compose
from planbook.document.build_log import build_log
from planbook.source import Door

from .readback import page_texts
from .tote import printed, quantity, state


@pytest.fixture(params=["metric", "imperial"])
def edition(request: pytest.FixtureRequest, metric: Composed, imperial: Composed) -> Composed:
    return metric if request.param == "metric" else imperial


def test_every_part_and_step_has_a_line_with_its_sheet_and_page(edition: Composed) -> None:
    targets = edition.places.targets
    text = " ".join(page_texts(edition.pdf)[-1].split())
    for number, title in ((1, "End"), (2, "Side")):
        assert re.search(rf"\b{number} {title} {number} {targets[f'sheet.{number}'].page}\b", text)
    for number, key, title in ((1, "groove", "Groove the sides"), (2, "close", "Put it together")):
        assert re.search(rf"\b{number} {title} {targets[f'step.{key}'].page}\b", text)


def test_the_build_log_is_the_end_of_the_document_and_names_edition_and_version(metric: Composed) -> None:
    assert "Metric edition Version" in " ".join(page_texts(metric.pdf)[-1].split())
    assert "Version 1.1, 2 March 2026" in " ".join(page_texts(metric.pdf)[-1].split())


def test_there_is_a_box_for_each_piece_and_each_hand() -> None:
    stated = state()
    end, side = (replace(stated.statement.parts[key], as_drawn=2, mirrored=2) for key in ("end", "side"))
    parts = {"end": replace(end, marks=("left", "right"), mirrored=1), "side": replace(side, as_drawn=0)}
    lines = build_log(replace(stated, statement=replace(stated.statement, parts=parts))).parts
    assert [(line.number, line.hand, line.boxes) for line in lines] == [
        (1, "left", 2),
        (1, "right", 1),
        (2, "mirrored", 2),
    ]


def test_many_pieces_are_counted_instead_of_ticked(door: Door) -> None:
    stated = state()
    parts = {key: replace(part, as_drawn=40) for key, part in stated.statement.parts.items()}
    done, _ = compose(replace(stated, statement=replace(stated.statement, parts=parts)), door)
    assert done is not None
    assert page_texts(done.pdf)[-1].count("of 40") == 6


def test_a_measure_that_a_hold_names_is_asked_for_in_the_unit_of_the_edition() -> None:
    stated = state()
    measure = quantity("parameter:tote.length", printed(460, "18 1/2", "millimetre"))
    prose = tuple(replace(each, hold_html=f"It is {measure}, all {measure}.") for each in stated.prose)
    log = build_log(replace(stated, prose=prose))
    assert [line.measures for line in log.steps] == [(("for", "460\N{NO-BREAK SPACE}mm"),)] * 2
    assert [line.measures for line in build_log(stated).steps] == [(), ()]


@pytest.mark.parametrize(
    ("before", "after", "limit"),
    [
        ("agree within", "", "at most"),
        ("lies under it by at most", "", "at most"),
        ("is at least", "", "at least"),
        ("is", "", "for"),
        ("is", " or more from the wall", "at least"),
        ("is", " or less", "at most"),
        ("is", " or thereabouts, or more", "for"),
    ],
)
def test_a_limit_is_asked_for_as_the_hold_says_it(before: str, after: str, limit: str) -> None:
    stated = state()
    measure = quantity("parameter:tote.length", printed(1.5, "1/16", "millimetre"))
    prose = tuple(replace(each, hold_html=f"It {before} {measure}{after}.") for each in stated.prose)
    assert [each for each, _ in build_log(replace(stated, prose=prose)).steps[0].measures] == [limit]


def test_a_fraction_to_measure_stays_a_real_one() -> None:
    stated = state("inch", "letter")
    measure = quantity("parameter:tote.length", printed(460, "18 1/2", "inch"))
    prose = tuple(replace(each, hold_html=f"It is {measure}.") for each in stated.prose)
    ((_, shown),) = build_log(replace(stated, prose=prose)).steps[0].measures
    assert shown == '18\N{NO-BREAK SPACE}<span class="f">1/2</span>\N{NO-BREAK SPACE}in'


def test_a_step_shows_what_is_tried_dry_and_the_order_of_gluing(door: Door) -> None:
    stated = state()
    steps = tuple(
        replace(step, glue_order=("side", "end"), open_time="5 to 10 min") if step.key == "close" else step
        for step in stated.statement.steps
    )
    prose = tuple(
        replace(p, dry_fit_html="It closes <em>by hand</em>." if p.key == "close" else "") for p in stated.prose
    )
    done, findings = compose(replace(stated, prose=prose, statement=replace(stated.statement, steps=steps)), door)
    assert done is not None
    assert findings == ()
    first = done.places.targets["step.close"].page - 1
    text = " ".join(" ".join(page_texts(done.pdf)[first : first + 2]).split())
    assert "Dry fit It closes by hand. Glue-up 2 Side → 1 End Open time 5 to 10 min" in text
    assert text.count("Dry fit") == 1


def test_effective_sheets_print_all_their_pages_and_the_version_of_each(edition: Composed) -> None:
    text = " ".join(next(text for text in page_texts(edition.pdf) if "List of effective" in text).split())
    first = edition.places.targets["sheet.1"].page
    assert f"1 End Version 1.0 {first}" in text
    assert "List of effective sheets" in text
