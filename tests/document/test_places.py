"""The places record against the PDF itself: what is said to stand somewhere is read there."""

from __future__ import annotations

import pytest

from planbook.document import Composed
from planbook.document.locate import locate
from planbook.document.typeset import SetPage, Typeset, Words
from planbook.drawing import Drawing
from planbook.drawing.recording import Label, Pt

from .readback import Word, words


@pytest.fixture(scope="module", params=["metric", "imperial"])
def edition(request: pytest.FixtureRequest, metric: Composed, imperial: Composed) -> Composed:
    return {"metric": metric, "imperial": imperial}[request.param]


@pytest.fixture(scope="module")
def printed(edition: Composed) -> tuple[Word, ...]:
    return words(edition.pdf)


def first_word(text: str) -> str:
    return text.split(maxsplit=1)[0]


def test_dimensions_of_a_sheet_are_read_within_a_millimetre_of_their_place(
    edition: Composed, printed: tuple[Word, ...]
) -> None:
    on_sheets = [(id_, place) for id_, places in edition.places.dimensions.items() for place in places if place.sheet]
    assert {id_ for id_, _ in on_sheets} == {"end/blank/length", "side/blank/length", "side/groove/x"}
    for _, place in on_sheets:
        near = [
            word for word in printed
            if word.page == place.page and abs(word.left - place.x) < 1 and word.top < place.y < word.bottom
        ]  # fmt: skip
        assert [word.text for word in near] == [first_word(place.text)]
        assert abs(near[0].middle - place.y) < 1


def test_parameters_are_found_in_prose_and_in_the_table(edition: Composed, printed: tuple[Word, ...]) -> None:
    places = edition.places.parameters["tote.length"]
    assert len(places) == 3
    assert edition.places.parameters["side.height"]
    for place in places:
        near = [word for word in printed if word.page == place.page and abs(word.left - place.x) < 1]
        assert first_word(place.text) in [word.text for word in near if word.top < place.y < word.bottom]


def test_a_dimension_named_in_prose_has_a_place_outside_any_sheet(edition: Composed) -> None:
    places = edition.places.dimensions["side/groove/x"]
    assert [place.sheet for place in places] == ["", "2"]
    assert places[0].page == edition.places.targets["step.groove"].page


def test_targets_are_all_that_links_can_aim_at(edition: Composed) -> None:
    assert set(edition.places.targets) == {
        "sheet.1", "sheet.2", "part.end", "part.side", "page.how_to_use", "page.about", "page.order", "page.care",
        "step.groove", "step.close", "figure.above", "figure.room", "figure.face", "table.tools", "table.materials",
        "table.hardware", "table.parts", "table.dimensions",
        "caution.machines", "caution.dust", "caution.rags", "caution.measure",
    }  # fmt: skip


def test_record_is_rounded_to_a_micrometre(edition: Composed) -> None:
    places = (place for each in edition.places.parameters.values() for place in each)
    assert all(round(value, 3) == value for place in places for value in (place.x, place.y))


def test_a_dimension_on_a_later_page_of_its_sheet_is_found_there() -> None:
    """A sheet that begins on page 2 and goes over two pages."""
    blank = SetPage(297, 210, {})
    done = Typeset(b"", (blank, SetPage(297, 210, {"a": (0, 0, 1, 1)}), blank), (Words("a", "sheet.7", "", ""),))
    sheet = [
        Drawing(297, 210, (Label(text, Pt(30, 40), 2.5, mark=f"dimension:{text}"),)) for text in ("first", "second")
    ]
    found = locate(done, {"7": sheet}).dimensions
    assert {key: [(place.page, place.sheet) for place in places] for key, places in found.items()} == {
        "first": [(2, "7")],
        "second": [(3, "7")],
    }
