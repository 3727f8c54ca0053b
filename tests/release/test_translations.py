"""An edition in another language: its pages and steps, and what is told when their originals change."""

from __future__ import annotations

from collections.abc import Iterator
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
    prose = {file for file in missing if file.endswith(".md") and "/translations/" not in file}
    assert prose == set(content.prose) - {f"{CONTENT}/{STEP}"}
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


WORDS = {
    "set.yaml": "title: Werkzeugkiste\ntools: [Handkreissäge]\neditions: {german: {title: Ausgabe auf Deutsch}}\n",
    "parts/side.yaml": "of: 1.0\ntitle: Seite\nnotes: ['Die Nuten passen zu {{ part.bottom }}.']\n",
    "parts/end.yaml": "features: {handle_mortise: {note: nach dem Zapfen}}\n",
    "parameters.yaml": "tote: {length: {means: Länge über alles}}\n",
    "figures.yaml": "tote: {caption: Die Kiste., alt: Eine offene Kiste.}\n",
    "cautions.yaml": "loads: {title: Tragen}\ndust: {title: Staub, text: Tragen Sie eine Maske.}\n",
    "hardware.yaml": "end_screws: {use: durch die Enden}\n",
    "markets/europe.yaml": "stock: {sheet_12: {title: 12 mm Sperrholz}}\nhardware: {screw_6: {title: Senkschraube}}\n",
    "fits.yaml": "side.in_housing: {because: sie gleitet von Hand hinein}\n",
    "changes.yaml": '"1.0": {summary: Die erste Ausgabe.}\n',
}


@pytest.fixture
def worded(root: Path) -> Iterator[Path]:
    """The same with the words of several tables."""
    folder = root / CONTENT / "translations/de"
    for inner, text in WORDS.items():
        path = folder / inner
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    yield root
    for inner in WORDS:
        (folder / inner).unlink()


def test_all_that_the_author_writes_is_printed_in_the_language_of_an_edition(worded: Path) -> None:
    statements = told(worded)
    german, metric = statements["german"], statements["metric"]
    assert german.plan_set.title == "Werkzeugkiste"
    assert german.edition.title == "Ausgabe auf Deutsch"
    side = german.parts["side"]
    assert (side.title, side.stock_title) == ("Seite", "12 mm Sperrholz")
    assert side.notes[0] == "Die Nuten passen zu bottom (part 3)."
    assert side.notes[1:] == metric.parts["side"].notes[1:]
    assert german.parts["end"].features["handle_mortise"].note == "nach dem Zapfen"
    assert german.figures["tote"].caption == "Die Kiste."
    assert german.lists["hardware"][0].cells["Item"] == "Senkschraube"
    assert german.lists["hardware"][0].cells["Use"] == "durch die Enden"
    assert german.parameters["tote.length"].means == "Länge über alles"
    cautions = {row.id: row.cells["Caution"] for row in german.lists["cautions"]}
    assert "Tragen" in cautions["loads"]
    assert "Tragen Sie eine Maske." in cautions["dust"]
    assert german.fits is not None
    assert german.fits["side.in_housing"].because == "sie gleitet von Hand hinein"


def test_a_translation_changes_no_number_and_no_other_edition(worded: Path) -> None:
    german, metric = (told(worded)[name] for name in ("german", "metric"))
    assert german.dimensions == metric.dimensions
    assert {key: part.outline for key, part in german.parts.items()} == {
        key: part.outline for key, part in metric.parts.items()
    }
    assert metric.parts["side"].title == "Side"
    assert metric.plan_set.title != german.plan_set.title


def test_what_has_no_translation_is_listed_file_by_file(worded: Path) -> None:
    _, findings = load(Door(worded), SET)
    missing = {each.place.file: each for each in findings if each.code == "translation-missing" and each.place}
    side = missing[f"{CONTENT}/parts/side.yaml"]
    assert "2 texts of `parts/side.yaml` have no translation into `de`" in side.message
    assert "`notes.1` and `notes.2`" in side.message
    assert f"`{CONTENT}/translations/de/parts/side.yaml`" in side.remedy
    # Titles of editions in other languages are not among them; of shared tables what this set uses is.
    assert "edition" not in missing[f"{CONTENT}/set.yaml"].message.replace("that edition", "")
    market = missing["shared/markets/europe.yaml"].message
    assert "sheet_12.title" not in market
    assert "hinge" not in market


@pytest.mark.parametrize(
    ("inner", "text", "said"),
    [
        ("parts/handle.yaml", "stock: sheet_12\n", "`stock` is `thin_19` in the original"),
        ("parameters.yaml", "make: {angle_tolerance: {is: 5 deg}}\n", "`make.angle_tolerance.is` is `0.5 deg`"),
        ("parts/handle.yaml", "colour: blau\n", "`colour` of `parts/handle.yaml`, and there is no such text"),
        ("parts/knob.yaml", "title: Knauf\n", "`title` of `parts/knob.yaml`, and there is no such text"),
    ],
)
def test_a_translation_holds_words_only(root: Path, inner: str, text: str, said: str) -> None:
    path = root / CONTENT / "translations/de" / inner
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    try:
        content, findings = load(Door(root), SET)
    finally:
        path.unlink()
    assert content is None
    [finding] = [each for each in findings if each.code == "translation-strayed"]
    assert said in finding.message
    assert finding.place is not None
    assert finding.place.file == f"{CONTENT}/translations/de/{inner}"


@pytest.mark.parametrize(
    ("text", "code", "said"),
    [
        ("Werkzeugkasten\n", "translation-strayed", "`Werkzeugkasten` stands here under no name"),
        ('title: ""\n', "translation-wanting", "`title` is blank"),
    ],
)
def test_words_of_nothing_and_no_words_are_told(root: Path, text: str, code: str, said: str) -> None:
    path = root / CONTENT / "translations/de/set.yaml"
    before = path.read_text(encoding="utf-8") if path.exists() else None
    path.write_text(text, encoding="utf-8")
    try:
        content, findings = load(Door(root), SET)
    finally:
        path.unlink() if before is None else path.write_text(before, encoding="utf-8")
    assert content is None
    [finding] = [each for each in findings if each.code == code]
    assert said in finding.message


def test_words_of_a_table_whose_original_changed_are_flagged(worded: Path) -> None:
    content, _ = load(Door(worded), SET)
    assert content is not None
    assert check_translations_kept(worded, content) == ()
    path = worded / CONTENT / "parts/side.yaml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("title: Side", "title: Long side", 1), encoding="utf-8")
    try:
        [finding] = [each for each in check_set(Door(worded), SET).findings if each.code == "translation-stale"]
    finally:
        path.write_text(text, encoding="utf-8")
    assert finding.severity is Severity.WARN
    assert finding.place is not None
    assert finding.place.file == f"{CONTENT}/translations/de/parts/side.yaml"
    [related] = finding.related
    assert (related.place.file, related.place.line) == (f"{CONTENT}/parts/side.yaml", 2)


def test_words_in_the_head_of_a_step_go_stale_too(root: Path) -> None:
    path = root / CONTENT / STEP
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("title: ", "title: Now: ", 1).replace("Now: ", "Now "), encoding="utf-8")
    try:
        [finding] = [each for each in check_set(Door(root), SET).findings if each.code == "translation-stale"]
    finally:
        path.write_text(text, encoding="utf-8")
    assert [each.place.line for each in finding.related] == [1]


def test_a_question_and_its_answer_are_translated(root: Path) -> None:
    question = root / CONTENT / "questions/q001.md"
    question.parent.mkdir(exist_ok=True)
    asked = 'asked: 2026-10-04\nversion: "1.0"\nabout: side\nquestion: "Which way up?"'
    question.write_text(f"---\n{asked}\n---\nGrooves up.\n", encoding="utf-8")
    translate(root, "questions/q001.md", "question: Wie herum?", "Nuten nach oben.")
    try:
        blocks = {name: [block.text for block in each.blocks] for name, each in told(root).items()}
    finally:
        question.unlink()
        (root / CONTENT / "translations/de/questions/q001.md").unlink()
    assert "Nuten nach oben." in blocks["german"]
    assert "Grooves up." in blocks["metric"]
    assert "Grooves up." not in blocks["german"]
