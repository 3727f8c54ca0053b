"""Reading the archive: whole versions only, and what was altered afterwards is said."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from planbook.release import find, release_set
from planbook.release.archive.reader import check_chain, list_versions, read_latest, read_release
from planbook.release.archive.record import digest, read_record, write_record
from planbook.release.version import Version
from tests.release.stub import SET, make_workspace, ready


@pytest.fixture
def root(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Three releases: 1.0, 1.9 and 1.10."""
    monkeypatch.setattr("planbook.release.publishing._make_ready", ready)
    make_workspace(tmp_path)
    for version in ("1.0", "1.9", "1.10"):
        assert release_set(tmp_path, SET, version).editions
    return tmp_path


def test_versions_come_in_the_order_of_their_numbers(root: Path) -> None:
    assert list_versions(root, SET) == (Version(1, 0), Version(1, 9), Version(1, 10))
    latest, findings = read_latest(root, SET)
    assert findings == ()
    assert latest is not None
    assert latest.version == Version(1, 10)


def test_what_is_no_finished_release_is_passed_over(root: Path) -> None:
    (root / "versions" / SET / "2.0").mkdir()
    (root / "versions" / SET / "notes").mkdir()
    (root / "versions" / SET / "README").write_text("mine", encoding="utf-8")
    (root / "versions" / ".incoming-tote-3.0").mkdir()
    assert list_versions(root, SET)[-1] == Version(1, 10)
    assert list_versions(root, "other") == ()
    assert list_versions(root, "../versions/tote") == ()


def test_each_record_holds_the_hash_of_the_record_before(root: Path) -> None:
    folders = [root / "versions" / SET / version for version in ("1.0", "1.9", "1.10")]
    records = [read_record((folder / "record.json").read_bytes()) for folder in folders]
    assert records[0].previous is None
    for before, folder, after in zip(records, folders, records[1:], strict=False):
        assert after.previous is not None
        assert (after.previous.version, after.previous.sha256) == (
            before.version,
            digest((folder / "record.json").read_bytes()),
        )
    assert check_chain(root, SET) == ()


def test_a_record_names_every_file_with_its_hash(root: Path) -> None:
    folder = root / "versions" / SET / "1.0"
    record = read_record((folder / "record.json").read_bytes())
    files = {path.relative_to(folder).as_posix(): path for path in folder.rglob("*") if path.is_file()}
    assert set(record.files) == set(files) - {"record.json"}
    assert all(sha256 == digest(files[name].read_bytes()) for name, sha256 in record.files.items())
    assert (folder / "inputs/content/tote/set.yaml").read_text(encoding="utf-8") == "title: Tote\n"
    assert write_record(record) == (folder / "record.json").read_bytes()


@pytest.mark.parametrize(
    "path",
    ["metric/statement.json", "metric/places.json", "metric/tote-metric-1.9.pdf", "inputs/content/tote/set.yaml"],
)
def test_an_altered_file_is_named(root: Path, path: str) -> None:
    file = root / "versions" / SET / "1.9" / path
    file.write_bytes(file.read_bytes() + b" ")
    [finding] = check_chain(root, SET)
    assert finding.code == "archive-damaged"
    assert str(finding.place) == f"versions/{SET}/1.9/{path}"
    assert finding.message == "This released file is not as it was: it was altered after the release."
    assert f"versions/{SET}/1.9/" in finding.remedy


def test_every_altered_or_missing_file_is_named_at_once(root: Path) -> None:
    folder = root / "versions" / SET / "1.0"
    (folder / "metric" / "places.json").unlink()
    (folder / "CHANGES.md").write_text("nothing", encoding="utf-8")
    found = {str(each.place): each.message for each in check_chain(root, SET)}
    assert set(found) == {f"versions/{SET}/1.0/{name}" for name in ("metric/places.json", "CHANGES.md")}
    assert found[f"versions/{SET}/1.0/metric/places.json"].endswith("it is missing.")


def test_a_release_that_was_taken_away_is_missed_by_the_one_after_it(root: Path) -> None:
    (root / "versions" / SET / "1.0" / "record.json").unlink()
    [finding] = check_chain(root, SET)
    assert str(finding.place) == f"versions/{SET}/1.0/record.json"
    assert "it is missing, and release 1.9 follows it" in finding.message
    assert f"versions/{SET}/1.0/" in finding.remedy


def test_an_altered_or_missing_statement_is_not_read(root: Path) -> None:
    file = root / "versions" / SET / "1.9" / "metric" / "statement.json"
    file.unlink()
    release, [finding] = read_release(root, SET, Version(1, 9))
    assert release is None
    assert finding.place is not None
    assert finding.place.file.endswith("1.9/metric/statement.json")
    assert read_release(root, SET, Version(1, 0))[0] is not None


def edited(root: Path, of: str, **fields: object) -> Path:
    """A record with other values, and the seal that it had."""
    path = root / "versions" / SET / of / "record.json"
    path.write_text(json.dumps({**json.loads(path.read_bytes()), **fields}), encoding="utf-8")
    return path


@pytest.mark.parametrize("version", ["1.0", "1.10"])
@pytest.mark.parametrize(
    "fields", [{"issued": "2020-01-01"}, {"tools": {}}, {"fonts": {"fonts/other": ""}}, {"editions": ["metric"]}]
)
def test_an_edited_record_is_named(root: Path, version: str, fields: dict[str, object]) -> None:
    """The newest one too, which no other record vouches for."""
    edited(root, version, **fields)
    [finding] = check_chain(root, SET)
    assert str(finding.place) == f"versions/{SET}/{version}/record.json"
    assert "it was altered after the release" in finding.message


def test_a_record_exchanged_for_another_breaks_the_chain(root: Path) -> None:
    path = root / "versions" / SET / "1.0" / "record.json"
    path.write_bytes(write_record(replace(read_record(path.read_bytes()), tools={"python": "2.7"})))
    [finding] = check_chain(root, SET)
    assert str(finding.place) == f"versions/{SET}/1.0/record.json"


@pytest.mark.parametrize("fields", [{"issued": "2020-01-01"}, {"editions": ["metric"]}, {"version": "1.11"}])
def test_a_record_without_a_seal_is_held_to_what_it_holds(root: Path, fields: dict[str, object]) -> None:
    """Those of the first form."""
    path = edited(root, "1.10", form=1, **fields)
    told = {name: value for name, value in json.loads(path.read_bytes()).items() if name != "sha256"}
    path.write_text(json.dumps(told), encoding="utf-8")
    release, [finding] = read_latest(root, SET)
    assert release is None
    assert "it was altered after the release" in finding.message


@pytest.mark.parametrize("data", [b"", b"{", b"[]", b"{}", b'{"form": 1}', b'{"form": 99}', b"\xff", b'{"form": "x"}'])
def test_a_damaged_record_is_a_finding(root: Path, data: bytes) -> None:
    (root / "versions" / SET / "1.10" / "record.json").write_bytes(data)
    release, [finding] = read_latest(root, SET)
    assert release is None
    assert finding.code == "archive-damaged"


def test_find_in_a_release_says_sheet_and_page_of_each_print(root: Path) -> None:
    found, findings = find(root, SET, "44 mm", version="1.0", edition="metric")
    assert findings == ()
    assert found is not None
    assert [(one.id, one.part, one.sheet, one.page, one.edition) for one in found] == [
        ("handle/pivot/x", 9, "9", 7, "metric")
    ]
    found, _ = find(root, SET, "300", version="1.0", edition="metric")
    assert found is not None
    assert [(one.id, one.page) for one in found if one.kind == "parameter"] == [("tote.length", 3), ("tote.length", 5)]
    assert {one.id for one in found if one.page is None} == {"handle/blank/length", "end/blank/length"}
    both, _ = find(root, SET, "44", version="1.0")
    assert both is not None
    assert {one.edition for one in both} == {"imperial", "metric"}


def test_find_in_all_releases_tells_each_version(root: Path) -> None:
    found, findings = find(root, SET, "44 mm", released=True, edition="metric")
    assert findings == ()
    assert found is not None
    assert [one.version for one in found if one.id == "handle/pivot/x"] == ["1.0", "1.9", "1.10"]


def test_a_release_from_before_its_numbers_were_kept_is_read_from_its_statements(root: Path) -> None:
    kept, _ = find(root, SET, "44", released=True)
    for version in list_versions(root, SET):
        home = root / "versions" / SET / str(version)
        record = read_record((home / "record.json").read_bytes())
        files = {path: sha256 for path, sha256 in record.files.items() if not path.endswith("prints.json")}
        (home / "record.json").write_bytes(write_record(replace(record, files=files)))
    assert find(root, SET, "44", released=True) == (kept, ())


def test_a_number_is_not_found_in_a_file_that_was_altered(root: Path) -> None:
    path = root / "versions" / SET / "1.9" / "metric" / "prints.json"
    path.write_bytes(path.read_bytes().replace(b"44", b"45"))
    found, findings = find(root, SET, "45", released=True)
    assert found is None
    assert [(each.code, each.place and each.place.file) for each in findings] == [
        ("archive-damaged", f"versions/{SET}/1.9/metric/prints.json")
    ]
