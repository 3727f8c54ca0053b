"""An edition in another language: its pages and steps, and what is told when their originals change."""

from __future__ import annotations

from pathlib import Path

import pytest

from planbook.release import check_set, compare_set, release_set, start_workspace
from planbook.release.compilation import prepare, state_all
from planbook.release.occasion import Occasion
from planbook.release.translations import check_translations_kept
from planbook.source import Door, load
from planbook.source.findings import Severity, stops
from planbook.statement.model import Statement

SET = "tool-tote"
CONTENT = f"content/{SET}"
GERMAN = """  german:
    title: Deutsche Ausgabe
    units: millimetre
    paper: a4
    projection: first_angle
    market: europe
    language: de
"""
STEP = "steps/03-grooves-in-the-sides.md"


@pytest.fixture(scope="module")
def started(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The tote with 1.0 released, before anybody translated it."""
    root = tmp_path_factory.mktemp("translated") / "workshop"
    start_workspace(root)
    assert release_set(root, SET, "1.0").editions
    settings = root / CONTENT / "set.yaml"
    text = settings.read_text(encoding="utf-8")
    settings.write_text(text.replace("\neditions:\n", f"\neditions:\n{GERMAN}", 1), encoding="utf-8")
    return root


def translate(root: Path, inner: str, head: str, body: str, language: str = "de") -> None:
    path = root / CONTENT / "translations" / language / inner
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(f"---\n{head}\n---\n{body}\n", encoding="utf-8")


@pytest.fixture
def root(started: Path) -> Path:
    original = load(Door(started), SET)[0]
    assert original is not None
    step = next(each for each in original.steps if each.file.endswith(STEP))
    hold = "hold: Der Boden gleitet." if step.head.hold else ""
    dry = "dry_fit: Alles passt." if step.head.dry_fit else ""
    head = "\n".join(filter(None, ("title: Nuten in die Seiten", "of: 1.0", hold, dry)))
    translate(started, STEP, head, str(step.body).replace(" the ", " die "))
    return started


def told(root: Path) -> dict[str, Statement]:
    door = Door(root)
    prepared, findings = prepare(door, SET)
    assert prepared is not None, findings
    stated, more = state_all(door, prepared, Occasion("", prepared.content.plan_set.issued, None), ("german", "metric"))
    assert not stops(more)
    return {name: one.statement for name, one in stated.items()}


def test_an_edition_prints_the_words_of_its_language(root: Path) -> None:
    statements = told(root)
    titles = {name: [step.title for step in each.steps] for name, each in statements.items()}
    assert titles["german"][2] == "Nuten in die Seiten"
    assert titles["metric"][2] != titles["german"][2]
    assert [step.key for step in statements["german"].steps] == [step.key for step in statements["metric"].steps]
    assert statements["german"].dimensions == statements["metric"].dimensions


def test_a_page_without_a_translation_is_warned_of(root: Path) -> None:
    content, findings = load(Door(root), SET)
    assert content is not None
    missing = {each.place.file for each in findings if each.code == "translation-missing" and each.place}
    assert missing == set(content.prose) - {f"{CONTENT}/{STEP}"}
    assert all(each.severity is Severity.WARN for each in findings)


def test_an_edition_that_is_new_compares_as_new_and_the_others_as_they_were(root: Path) -> None:
    compared, _ = compare_set(root, SET, "1.0")
    assert compared is not None
    by_name = {edition.name: edition for edition in compared.editions}
    [change] = by_name["german"].changes
    assert (change.kind, change.old, change.new) == ("edition", "", "Deutsche Ausgabe")
    assert by_name["metric"].changes == ()
    assert str(compared.due and compared.due.version) == "1.1"


def test_a_block_whose_original_changed_is_flagged(root: Path) -> None:
    content, _ = load(Door(root), SET)
    assert content is not None
    assert check_translations_kept(root, content) == ()
    path = root / CONTENT / STEP
    text = path.read_text(encoding="utf-8")
    word = next(
        line
        for line in str(content.prose[f"{CONTENT}/{STEP}"].body).splitlines()
        if line.startswith(tuple("ABCDEFGHIJKLMNOPQRSTUVWXYZ"))
    )
    path.write_text(text.replace(word, f"Slowly: {word}", 1), encoding="utf-8")
    try:
        [finding] = [each for each in check_set(Door(root), SET).findings if each.code == "translation-stale"]
    finally:
        path.write_text(text, encoding="utf-8")
    assert finding.severity is Severity.WARN
    assert finding.place is not None
    assert finding.place.file == f"{CONTENT}/translations/de/{STEP}"
    [related] = finding.related
    assert related.place.file == f"{CONTENT}/{STEP}"
    assert text.splitlines()[related.place.line - 1].startswith(word[:20])


@pytest.mark.parametrize(
    ("inner", "head", "language", "code"),
    [
        ("steps/99-nothing.md", "title: Nichts", "de", "translation-strayed"),
        (STEP, "title: Rainures", "fr", "translation-unread"),
        (STEP, "title: Nuten\nhold: Er gleitet.\nof: 7.0", "de", "translation-version-unknown"),
        (STEP, "title: Nuten\nhold: Er gleitet.\ndry_fit: Alles passt.", "de", "translation-wanting"),
    ],
)
def test_a_translation_that_cannot_be_is_told(root: Path, inner: str, head: str, language: str, code: str) -> None:
    path = root / CONTENT / "translations" / language / inner
    before = path.read_text(encoding="utf-8") if path.exists() else None
    translate(root, inner, head, "Nuten.", language)
    try:
        content, findings = load(Door(root), SET)
        if content is not None:
            findings += check_translations_kept(root, content)
    finally:
        path.unlink()
        if before is not None:
            path.write_text(before, encoding="utf-8")
    [finding] = [each for each in findings if each.code == code]
    assert finding.place is not None
    assert finding.place.file == f"{CONTENT}/translations/{language}/{inner}"
    assert finding.remedy
