"""Advisories: laid beside a released version, never touching it, found wherever that version is looked at."""

from __future__ import annotations

import hashlib
import json
from datetime import date
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from planbook.release import add_advisory, compare_set, find, read_advised, release_set, verify_set
from planbook.release.archive.advisories import Advisory, read_advisories
from planbook.release.archive.reader import list_versions
from planbook.release.lifting import check_lifts, lifted_rows
from planbook.source.findings import Place, Severity
from planbook.source.models.changes import VersionNotesModel
from planbook.source.text import Text
from tests.release.stub import SET, make_workspace, ready
from tests.statement.small import STATEMENT

DAY = "2026-05-04"


@pytest.fixture
def root(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Two releases, 1.0 and 1.1."""
    monkeypatch.setattr("planbook.release.publishing._make_ready", ready)
    make_workspace(tmp_path)
    for version in ("1.0", "1.1"):
        assert release_set(tmp_path, SET, version).editions
    return tmp_path


def files(root: Path) -> dict[str, str]:
    every = (path for path in (root / "versions").rglob("*") if path.is_file() and "advisories" not in path.parts)
    return {str(path): hashlib.sha256(path.read_bytes()).hexdigest() for path in every}


def add(
    root: Path, version: str = "1.1", part: int | None = 9, text: str = "Do not cut the handle.", *editions: str
) -> Any:
    return add_advisory(root, SET, version, part, editions, DAY, text)


def test_an_advisory_is_laid_beside_the_version_and_changes_nothing_of_it(root: Path) -> None:
    before = files(root)
    advised, findings = add(root)
    assert findings == ()
    assert [each.number for each in advised.advisories] == [1]
    assert files(root) == before
    assert [str(each) for each in list_versions(root, SET)] == ["1.0", "1.1"]
    verified = verify_set(root, SET)
    assert (verified.findings, verified.advisories) == ((), 1)


def test_a_file_laid_into_a_released_version_is_told_and_spoils_nothing(root: Path) -> None:
    (root / "versions" / SET / "1.0" / "metric" / "photograph.jpg").write_bytes(b"of the tote")
    verified = verify_set(root, SET)
    assert [(each.code, each.severity, each.place and each.place.file) for each in verified.findings] == [
        ("archive-added", Severity.WARN, f"versions/{SET}/1.0/metric/photograph.jpg")
    ]
    assert [each.version for each in verified.releases] == ["1.0", "1.1"]


def test_advisories_are_counted_and_read_in_order(root: Path) -> None:
    add(root, text="First.")
    add(root, "1.0", None, "Second.", "metric")
    advised, _ = read_advised(root, SET)
    assert advised is not None
    assert [(each.number, each.version, each.part, each.editions, each.text) for each in advised.advisories] == [
        (1, "1.1", 9, ("imperial", "metric"), "First."),
        (2, "1.0", None, ("metric",), "Second."),
    ]
    only, _ = read_advised(root, SET, "1.0")
    assert only is not None
    assert [each.number for each in only.advisories] == [2]


def test_find_and_compare_tell_of_it(root: Path) -> None:
    add(root)
    found, _ = find(root, SET, "44 mm", version="1.1")
    assert found
    assert {one.advisories for one in found if one.part == 9} == {(1,)}
    older, _ = find(root, SET, "44 mm", version="1.0")
    assert older
    assert {one.advisories for one in older} == {()}
    compared, _ = compare_set(root, SET, "1.1", "1.0")
    assert compared is not None
    assert [each["text"] for each in compared.document()["advisories"]] == ["Do not cut the handle."]


@pytest.mark.parametrize(
    ("arguments", "code", "said"),
    [
        (("1.1", 7, (), DAY, "Stop."), "advisory-refused", "no part 7"),
        (("1.1", 9, ("metrik",), DAY, "Stop."), "unknown-edition", "metrik"),
        (("1.1", 9, (), "4 May", "Stop."), "advisory-refused", "no day"),
        (("1.1", 9, (), "1999-05-04", "Stop."), "advisory-refused", "before version 1.1 was issued"),
        (("1.1", 9, (), DAY, "  "), "advisory-refused", "says nothing"),
        (("1.2", 9, (), DAY, "Stop."), "unknown-version", "1.2"),
    ],
)
def test_one_that_fits_nothing_is_refused_and_nothing_is_written(
    root: Path, arguments: tuple[str, int, tuple[str, ...], str, str], code: str, said: str
) -> None:
    advised, (finding,) = add_advisory(root, SET, *arguments)
    assert advised is None
    assert finding.code == code
    assert said in finding.message
    assert read_advisories(root, SET) == ((), ())


@pytest.mark.parametrize("number", [1, 2])
def test_one_that_was_altered_or_lost_is_told(root: Path, number: int) -> None:
    add(root, text="First.")
    add(root, text="Second.")
    path = root / "versions" / SET / "advisories" / f"{number:03}.json"
    whole = path.read_text(encoding="utf-8")
    path.write_text(whole.replace("First", "Worst").replace("Second", "Worst"), encoding="utf-8")
    (finding,) = verify_set(root, SET).findings
    assert finding.code == "archive-damaged"
    assert finding.place == Place(f"versions/{SET}/advisories/{number:03}.json", 0, 0)
    assert add(root)[0] is None
    path.write_text(whole, encoding="utf-8")
    assert verify_set(root, SET).findings == ()


def test_a_forged_one_does_not_fit_the_next(root: Path) -> None:
    """Altered, and its own sum made anew: the one after it still knows what it followed."""
    add(root, text="First.")
    add(root, text="Second.")
    folder = root / "versions" / SET / "advisories"
    told = json.loads((folder / "001.json").read_text(encoding="utf-8"))["advisory"] | {"text": "Worst."}
    (folder / "001.json").unlink()
    (folder / "002.json").rename(folder / "kept")
    add(root, text=told["text"])
    (folder / "kept").rename(folder / "002.json")
    (finding,) = verify_set(root, SET).findings
    assert finding.place == Place(f"versions/{SET}/advisories/002.json", 0, 0)


def advisory(number: int) -> Advisory:
    return Advisory(number, "1.1", 9, ("metric",), DAY, "Do not cut the handle.", "")


def content(**lifts: tuple[int, ...]) -> Any:
    notes = {
        Text(version.replace("_", ".").removeprefix("v"), Place("changes.yaml", 1, 1)): VersionNotesModel(
            issued=date(2026, 6, 1), summary=Text("A version."), lifts=numbers
        )
        for version, numbers in lifts.items()
    }
    return SimpleNamespace(changes=notes)


@pytest.mark.parametrize(
    ("lifts", "code", "severity"),
    [
        ({"v1_2": ()}, "advisory-stands", Severity.WARN),
        ({"v1_2": (1,)}, None, None),
        ({"v1_2": (1, 2)}, "advisory-unknown", Severity.STOP),
        ({"v1_2": (1,), "v1_3": (1,)}, "advisory-lifted-twice", Severity.STOP),
    ],
)
def test_what_changes_yaml_says_of_advisories_is_checked(
    lifts: dict[str, tuple[int, ...]], code: str | None, severity: Severity | None
) -> None:
    found = check_lifts(content(**lifts), [advisory(1)])
    assert [(each.code, each.severity) for each in found] == ([(code, severity)] if code else [])


def test_the_version_that_lifts_it_says_so() -> None:
    notes = VersionNotesModel(issued=date(2026, 6, 1), summary=Text("Mended."), lifts=(1,))
    (row,) = lifted_rows(STATEMENT, "1.2", notes, [advisory(1), advisory(2)])
    assert row.cells["what"] == (
        "Advisory 1 is lifted, on part 9 of version 1.1, metric edition: “Do not cut the handle.”"
    )
