"""The pages as a reader gets them: sizes, order, running titles, links, bookmarks, fonts, tags."""

from __future__ import annotations

import re

import pytest

from planbook.document import Composed
from planbook.document.check_bars import INCHES, MILLIMETRES

from .readback import destinations, fonts, info, links, outline, page_texts, reader, straight_lines, tags, words

# ISO 216:2007 table 1: A4 is 210 x 297 mm, tolerance 2 mm over 150 mm; ASME Y14.1: size A is 8.5 x 11 in.
A4 = (210.0, 297.0)
LETTER = (215.9, 279.4)
POINT = 25.4 / 72


def both(metric: Composed, imperial: Composed) -> tuple[tuple[Composed, tuple[float, float]], ...]:
    return (metric, A4), (imperial, LETTER)


@pytest.fixture(params=["metric", "imperial"])
def edition(request: pytest.FixtureRequest, metric: Composed, imperial: Composed) -> Composed:
    return {"metric": metric, "imperial": imperial}[request.param]


def test_pages_have_the_papers_size_and_sheets_lie_on_their_side(metric: Composed, imperial: Composed) -> None:
    for done, (width, height) in both(metric, imperial):
        sheets = {place.page for target, place in done.places.targets.items() if target.startswith("sheet.")}
        assert len(sheets) == 2
        for number, page in enumerate(reader(done.pdf).pages, start=1):
            size = (POINT * float(page.mediabox.width), POINT * float(page.mediabox.height))
            wanted = (height, width) if number in sheets else (width, height)
            assert size == pytest.approx(wanted, abs=0.01)
            assert done.places.page_sizes[number - 1] == pytest.approx(wanted, abs=0.01)


def test_chapters_stand_in_the_order_in_which_a_builder_needs_them(edition: Composed) -> None:
    chapters = [title for depth, title, _ in outline(edition.pdf) if depth == 0]
    assert chapters == ["Contents", "How to use this plan", "Cautions", "About the tote", "What you need", "Building",
                        "Sheets", "Named dimensions", "Care", "Versions and changes", "Build log"]  # fmt: skip


def test_bookmarks_name_each_step_and_sheet_and_lead_to_its_page(edition: Composed) -> None:
    marks = {title: page for depth, title, page in outline(edition.pdf) if depth == 1}
    targets = edition.places.targets
    assert marks["Sheet 2: Side"] == targets["sheet.2"].page
    assert marks["1 Groove the sides"] == targets["step.groove"].page
    assert marks["Table of dimensions"] == targets["table.dimensions"].page


def test_every_page_says_which_set_edition_and_version_it_is_of_and_its_number(metric: Composed) -> None:
    texts = page_texts(metric.pdf)
    assert len(texts) == metric.places.pages
    for number, text in enumerate(texts, start=1):
        assert "Bench Tote · Metric edition · Version 1.1" in text
        assert f"Page {number} of {len(texts)}" in text


def test_a_draft_says_so_on_every_page(imperial: Composed) -> None:
    assert all("Imperial edition · Draft" in text for text in page_texts(imperial.pdf))


def test_running_titles_of_a_sheet_stand_in_its_margin(edition: Composed) -> None:
    # ISO 5457:1999 clause 4.2: the border is 20 mm wide on the left for filing, and 10 mm on the other sides.
    page = edition.places.targets["sheet.1"].page
    width, height = edition.places.page_sizes[page - 1]
    running = [word for word in words(edition.pdf) if word.page == page and word.top > height - 12]
    assert {"Bench", "Page", "of"} <= {word.text for word in running}
    for word in running:
        assert word.top > height - 10 + 0.7
        assert word.bottom < height - 3
        assert word.left > 10
        assert word.right < width - 10


def test_contents_print_the_page_on_which_each_chapter_begins(edition: Composed) -> None:
    text = page_texts(edition.pdf)[1]
    for _, title, page in outline(edition.pdf):
        bare = re.sub(r"^(Sheet )?\d+:? ", "", title)
        if bare != "Contents":
            assert re.search(rf"\b{re.escape(bare)}\b[ .]*\b{page}\b", text), bare


def test_links_land_where_their_target_was_placed(edition: Composed) -> None:
    landing = destinations(edition.pdf)
    followed = [target for _, target in links(edition.pdf)]
    assert {"part.side", "sheet.2", "figure.above", "step.close", "page.about"} <= set(followed)
    for target in followed:
        assert target in landing
        if target in edition.places.targets:
            place = edition.places.targets[target]
            assert landing[target][0] == place.page
            assert landing[target][1] < place.y + 0.1


def test_references_print_the_page_that_they_lead_to(edition: Composed) -> None:
    text = " ".join(" ".join(page_texts(edition.pdf)).split())
    targets = edition.places.targets
    assert f"see step 2, page {targets['step.close'].page}" in text
    assert f"see sheet 2, page {targets['sheet.2'].page}" in text


def test_check_bars_are_true_to_a_hundredth_of_a_millimetre(edition: Composed) -> None:
    page = next(page for _, title, page in outline(edition.pdf) if title == "Print scale")
    lines = straight_lines(edition.pdf, page)
    across = [abs(x2 - x1) for x1, y1, x2, y2 in lines if abs(y2 - y1) < 1e-6]
    upright = [abs(y2 - y1) for x1, y1, x2, y2 in lines if abs(x2 - x1) < 1e-6]
    assert (MILLIMETRES, INCHES) == (100.0, 101.6)
    for lengths in (across, upright):
        for wanted in (100.0, 101.6):
            assert sum(abs(length - wanted) <= 0.01 for length in lengths) == 1


def test_fonts_are_embedded_and_are_the_packaged_ones(edition: Composed) -> None:
    found = fonts(edition.pdf)
    assert found
    for font in found:
        inner = font["/DescendantFonts"][0].get_object()
        assert re.fullmatch(r"/[A-Z]{6}\+Source-(Sans|Serif)-Pro.*", inner["/BaseFont"])
        descriptor = inner["/FontDescriptor"].get_object()
        assert "/FontFile2" in descriptor or "/FontFile3" in descriptor


def test_fractions_are_set_as_fractions_and_read_back_with_space_and_slash(imperial: Composed) -> None:
    assert '18 <span class="f">1/2</span>' in imperial.html.replace('<span class="gap">\N{NO-BREAK SPACE}</span>', " ")
    assert "18 1/2" in " ".join(page_texts(imperial.pdf))


def test_the_document_is_tagged_titled_and_says_its_language(edition: Composed) -> None:
    root = reader(edition.pdf).trailer["/Root"]
    assert root["/Lang"] == "en"
    assert root["/MarkInfo"]["/Marked"]
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert info(edition.pdf)["Tagged"] == "yes"
    assert info(edition.pdf)["Title"].startswith("Bench Tote: ")
    assert b"pdfuaid" in reader(edition.pdf).trailer["/Root"]["/Metadata"].get_object().get_data()


def test_every_picture_has_words_for_those_who_do_not_see_it(edition: Composed) -> None:
    pictures = [tag for tag in tags(edition.pdf) if tag["/S"] == "/Figure"]
    told = {str(picture["/Alt"]) for picture in pictures}
    assert {
        "The front of the tote.",
        "The tote from above, in words.",
        "A side with a groove.",
        "Two rising lines.",
    } < told
    assert all(told)


def test_tables_have_heads_for_columns_and_rows(edition: Composed) -> None:
    found = tags(edition.pdf)
    cells = [tag for tag in found if tag["/S"] == "/TD"]
    assert cells
    assert all(cell["/A"]["/Headers"] for cell in cells)


def test_cover_says_whether_it_was_built(metric: Composed, imperial: Composed) -> None:
    assert "computed, never built" in page_texts(metric.pdf)[0]
    assert "built from this edition" in page_texts(imperial.pdf)[0]
    assert "2 March 2026" in page_texts(metric.pdf)[0]


def test_a_table_that_a_page_shows_is_not_printed_twice(edition: Composed) -> None:
    assert " ".join(page_texts(edition.pdf)).count("Screw 4 x 40") == 1
    assert edition.places.targets["table.hardware"].page == edition.places.targets["page.care"].page


def test_change_log_and_revisions_are_tables_of_their_own(edition: Composed) -> None:
    text = next(text for text in page_texts(edition.pdf)[2:] if "Revisions" in text)
    assert re.search(r"1\.1\s+20 March 2026\s+The groove is wider", text)
    assert re.search(r"Side, groove\s+6 mm\s+6.5 mm\s+It was tight", text)
