"""Questions: written down once, answered in the plan, and published by the version that prints the answer."""

from __future__ import annotations

from pathlib import Path

import pytest

from planbook.release import (
    add_question,
    compare_set,
    draft_set,
    find,
    list_questions,
    release_set,
    report_questions,
    start_workspace,
)
from planbook.release.reading_measures import Quote, read_quote
from planbook.source import Door, load
from planbook.source.models.question import names_somebody

SET = "tool-tote"
ABOUT = "end/screws/pitch"
DAY = "2026-10-04"
ASKED = "Is it from centre to centre?"


@pytest.fixture(scope="module")
def released(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A workspace with a release; tests that write in it take a question name of their own."""
    root = tmp_path_factory.mktemp("questions") / "workshop"
    start_workspace(root)
    assert release_set(root, SET, "1.0").editions
    return root


def questions(root: Path) -> list[str]:
    return sorted(path.name for path in (root / "content" / SET / "questions").glob("*"))


def test_a_question_from_asked_to_published(released: Path) -> None:
    path, findings = add_question(released, SET, "1.0", "metric", ABOUT, DAY, f'{ASKED} "Yes"?')
    assert (path, findings) == (f"content/{SET}/questions/q001.md", ())
    assert [each.stand for each in list_questions(released, SET)[0] or ()] == ["open"]
    assert "Questions and answers" not in _headings(released)

    with (released / path).open("a", encoding="utf-8") as file:
        file.write("Yes: {{ dim.end.screws.pitch }}, see {{ sheet.end }}.\n")
    assert [each.stand for each in list_questions(released, SET)[0] or ()] == ["answered in the draft"]
    assert "Questions and answers" in _headings(released)

    changes = released / "content" / SET / "changes.yaml"
    changes.write_text(
        changes.read_text(encoding="utf-8") + '"1.1":\n  issued: 2026-10-20\n  summary: An answer.\n', encoding="utf-8"
    )
    issued = release_set(released, SET, "1.1")
    assert issued.findings == ()
    (answered,) = issued.answered
    assert answered.question == f'{ASKED} "Yes"?'
    assert set(answered.pages) == {"imperial", "metric"}
    assert [each.document()["published"] for each in list_questions(released, SET)[0] or ()] == ["1.1"]
    log = (released / "versions" / SET / "1.1" / "CHANGES.md").read_text(encoding="utf-8")
    assert f'“{ASKED} "Yes"?”: answered' in log
    draft = draft_set(Door(released), SET, released / "out", "metric")
    assert draft.answered == ()
    (drawn,) = report_questions(released, SET)[0] or ()
    assert (drawn.title, drawn.count, drawn.about) == ("Part 1, End (sheet 1)", 1, ((ABOUT, 1),))


def _headings(root: Path) -> list[str]:
    compared, findings = compare_set(root, SET, "1.0")
    assert compared, findings
    return [heading.title for heading in compared.headings]


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("1.0", None, "end/scews", DAY, ASKED), "end/scews"),
        (("1.0", "metrik", ABOUT, DAY, ASKED), "metrik"),
        (("1.0", None, ABOUT, "October", ASKED), "no day"),
        (("1.0", None, ABOUT, "20261004", ASKED), "no day"),
        (("1.0", None, ABOUT, "1999-10-04", ASKED), "before version 1.0 was issued"),
        (("1.0", None, ABOUT, DAY, " "), "says nothing"),
        (("1.0", None, ABOUT, DAY, "Write to jo.smith@example.org please"), "address"),
        (("3.0", None, ABOUT, DAY, ASKED), "3.0"),
    ],
)
def test_one_that_fits_nothing_is_refused_and_nothing_is_written(
    released: Path, arguments: tuple[str, str | None, str, str, str], said: str
) -> None:
    before = questions(released)
    path, findings = add_question(released, SET, *arguments)
    assert path is None
    assert any(said in each.message for each in findings)
    assert questions(released) == before


def test_a_name_that_the_plan_has_not_is_told_at_its_place(tmp_path: Path) -> None:
    start_workspace(tmp_path / "shop")
    folder = tmp_path / "shop" / "content" / SET / "questions"
    folder.mkdir()
    (folder / "q001.md").write_text(
        f'---\nasked: {DAY}\nversion: "1.0"\nabout: end/screw/pitch\nquestion: Why?\n---\n', encoding="utf-8"
    )
    issued = draft_set(Door(tmp_path / "shop"), SET, tmp_path / "out", "metric")
    (finding,) = (each for each in issued.findings if each.code == "question-unknown-name")
    assert str(finding.place) == f"content/{SET}/questions/q001.md:4:8"
    assert finding.remedy == "Did you mean `end/screws/pitch`?"
    assert issued.editions == ()


def test_a_file_may_not_name_a_person_either(tmp_path: Path) -> None:
    start_workspace(tmp_path / "shop")
    folder = tmp_path / "shop" / "content" / SET / "questions"
    folder.mkdir()
    (folder / "q001.md").write_text(
        f'---\nasked: {DAY}\nversion: "1.0"\nabout: end\nquestion: Call 0123 456 7890\n---\n', encoding="utf-8"
    )
    _, findings = load(Door(tmp_path / "shop"), SET)
    assert any("telephone" in each.message for each in findings)


@pytest.mark.parametrize("text", ["jo@example.org", "+44 1234 567 890", "0123-456-7890"])
def test_what_reads_as_an_address_is_known(text: str) -> None:
    assert names_somebody(f"Please answer to {text} soon")


@pytest.mark.parametrize("text", ["1220 x 2440 mm", "5 3/8", "page 12 of 1.1", "4x 1/4-20 x 3 1/2", "12 500 mm"])
def test_measures_are_no_telephone_numbers(text: str) -> None:
    assert not names_somebody(f"What about the {text} here?")


@pytest.mark.parametrize(
    ("text", "quote"),
    [
        ("5 3/8", Quote("5 3/8")),
        ("the 5 3/8 on page 12 of 1.1", Quote("5 3/8", 12, "", "1.1")),
        ("137 mm on sheet 12a", Quote("137 mm", None, "12a")),
        ("The 137 of version 2.0", Quote("137", None, "", "2.0")),
        ("137 on p. 7", Quote("137", 7)),
    ],
)
def test_a_quotation_says_where_the_measure_stands(text: str, quote: Quote) -> None:
    assert read_quote(text) == quote


def test_find_looks_only_where_the_quotation_says(released: Path) -> None:
    everywhere, _ = find(released, SET, "3/4", version="1.0")
    assert everywhere
    page = next(one.page for one in everywhere if one.page)
    there, _ = find(released, SET, f"the 3/4 on page {page} of 1.0")
    assert there
    assert {one.page for one in there} == {page}
    assert {one.version for one in there} == {"1.0"}


def test_what_stands_elsewhere_than_a_buyer_says_is_told_with_a_warning(released: Path) -> None:
    everywhere, _ = find(released, SET, "3/4", version="1.0")
    elsewhere, findings = find(released, SET, "the 3/4 on page 999 of 1.0")
    assert elsewhere == everywhere
    assert [each.code for each in findings] == ["quoted-elsewhere"]
    nowhere, findings = find(released, SET, "the 77 5/8 on page 999 of 1.0")
    assert (nowhere, findings) == ((), ())
