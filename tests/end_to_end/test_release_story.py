"""The whole path on the small plan set: start, release, change, compare, release again, find and trace."""

from __future__ import annotations

import hashlib
import json
import re
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner
from pypdf import PdfReader

from planbook.cli import main

SET = "tool-tote"


def edit(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text, old
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def text_of(pdf: Path) -> str:
    return "\n".join(page.extract_text() for page in PdfReader(pdf).pages)


def note_version(content: Path, version: str) -> None:
    """What the author says of a version, as changes.yaml wants it."""
    changes = content / "changes.yaml"
    changes.write_text(
        f'"{version}":\n  issued: 2026-05-04\n  summary: For the test of version {version}.\n', encoding="utf-8"
    )


def add_version(content: Path, version: str) -> None:
    changes = content / "changes.yaml"
    text = changes.read_text(encoding="utf-8")
    changes.write_text(
        text + f'"{version}":\n  issued: 2026-06-05\n  summary: For the test of version {version}.\n', encoding="utf-8"
    )


@pytest.fixture(scope="module")
def story(tmp_path_factory):
    """A workspace with 1.0 released, then the handle made wider, and not yet released again."""
    folder = tmp_path_factory.mktemp("story") / "workshop"
    assert CliRunner().invoke(main, ["start", str(folder)]).exit_code == 0
    content = folder / "content" / SET
    note_version(content, "1.0")
    released = CliRunner().invoke(main, ["release", SET, "1.0", "--workspace", str(folder)])
    assert released.exit_code == 0, released.output
    return folder


def test_a_release_freezes_all_that_was_told(story: Path) -> None:
    folder = story / "versions" / SET / "1.0"
    record = json.loads((folder / "record.json").read_text(encoding="utf-8"))
    assert record["version"] == "1.0"
    names = {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}
    for edition in ("imperial", "metric"):
        assert f"{edition}/statement.json" in names
        assert f"{edition}/places.json" in names
        assert f"{edition}/{SET}-{edition}-1.0.pdf" in names
        assert {f"{edition}/sheets/1.svg", f"{edition}/sheets/1.dxf", f"{edition}/parts/1-end.dxf"} <= names
    assert f"inputs/content/{SET}/parameters.yaml" in names
    assert any(name.startswith("inputs/templates/") for name in names)
    assert any(name.startswith("inputs/shared/markets/") for name in names)


def test_nothing_changed_says_so(story: Path, planbook) -> None:
    outcome = planbook(story, ["compare", SET, "1.0"])
    assert outcome.code == 0
    for edition in outcome.document["editions"]:
        assert edition["changes"] == []
        assert {part["impact"] for part in edition["parts"]} == {"unchanged"}


@pytest.mark.parametrize(
    ("old", "new", "redrawn"),
    [
        (
            "north_america: 1/4 in, europe: 6 mm}, means: depth of the housings",
            "north_america: 5/16 in, europe: 8 mm}, means: depth of the housings",
            {"side_face", "box"},
        ),
        (
            "north_america: 1 3/4 in, europe: 45 mm}, means: height of",
            "north_america: 2 in, europe: 50 mm}, means: height of",
            {"tote", "box", "end_face"},
        ),
    ],
)
def test_a_figure_is_redrawn_when_a_reader_sees_it(old, new, redrawn, story: Path, planbook, tmp_path: Path) -> None:
    """Sides that reach deeper into their housings are hidden there, but where one is shown by itself or its hidden
    edges are dashed; a handle that is higher is seen.
    """
    folder = tmp_path / "copy"
    shutil.copytree(story, folder)
    edit(folder / "content" / SET / "parameters.yaml", old, new)
    outcome = planbook(folder, ["compare", SET, "1.0"])
    for edition in outcome.document["editions"]:
        told = {change["id"] for change in edition["changes"] if change["kind"] == "figure"}
        assert told == redrawn, edition["name"]
        assert any(change["kind"] == "dimension" for change in edition["changes"])


def test_a_changed_measure_reaches_every_dimension_that_hangs_on_it(story: Path, planbook, tmp_path: Path) -> None:
    folder = tmp_path / "copy"
    shutil.copytree(story, folder)
    edit(
        folder / "content" / SET / "parameters.yaml",
        "north_america: 1 3/4 in, europe: 45 mm}, means: height of",
        "north_america: 2 in, europe: 50 mm}, means: height of",
    )
    outcome = planbook(folder, ["compare", SET, "1.0"])
    assert outcome.code == 0
    imperial = next(edition for edition in outcome.document["editions"] if edition["name"] == "imperial")
    changes = {change["id"]: change for change in imperial["changes"] if change["kind"] == "dimension"}
    width = changes["handle/blank/width"]
    assert "1 3/4" in json.dumps(width["old"])
    assert re.search(r"\b2\b", json.dumps(width["new"]))
    impacts = {part["number"]: part["impact"] for part in imperial["parts"]}
    assert impacts[6] == "recut"
    assert impacts[3] == "unchanged"


def test_a_dishonest_number_is_refused_and_an_honest_one_is_kept(story: Path, planbook, tmp_path: Path) -> None:
    folder = tmp_path / "copy"
    shutil.copytree(story, folder)
    content = folder / "content" / SET
    edit(
        content / "parameters.yaml",
        "north_america: 1 3/4 in, europe: 45 mm}, means: height of",
        "north_america: 2 in, europe: 50 mm}, means: height of",
    )
    add_version(content, "1.1")
    refused = planbook(folder, ["release", SET, "1.1"])
    assert refused.code == 1
    assert "2.0" in refused.stdout
    assert not (folder / "versions" / SET / "1.1").exists()
    edit(content / "changes.yaml", '"1.1"', '"3.0"')
    skipping = planbook(folder, ["release", SET, "3.0"])
    assert [each["code"] for each in skipping.document["findings"]] == ["version-dishonest"]
    edit(content / "changes.yaml", '"3.0"', '"2.0"')
    unreasoned = planbook(folder, ["release", SET, "2.0"]).document["findings"]
    assert [each["code"] for each in unreasoned] == ["reason-missing"]
    assert "about: handle.width" in unreasoned[0]["remedy"]
    with (content / "changes.yaml").open("a", encoding="utf-8") as notes:
        notes.write("  reasons:\n    - {about: handle.width, why: Two builders found it thin.}\n")
    assert planbook(folder, ["release", SET, "2.0"]).code == 0
    first = (folder / "versions" / SET / "1.0" / "record.json").read_bytes()
    second = json.loads((folder / "versions" / SET / "2.0" / "record.json").read_text(encoding="utf-8"))
    assert hashlib.sha256(first).hexdigest() in json.dumps(second)
    log = (folder / "versions" / SET / "2.0" / "CHANGES.md").read_text(encoding="utf-8")
    assert "Handle" in log
    notices = folder / "versions" / SET / "2.0" / "metric" / "notices"
    assert "Part 6, Handle" in (notices / "from-1.0.txt").read_text(encoding="utf-8")
    page = (notices / "from-1.0.html").read_text(encoding="utf-8")
    assert "<h3>Recut</h3>" in page
    assert "Part 6, Handle" in page
    for edition in ("imperial", "metric"):
        names = {f"{edition}/{SET}-{edition}-2.0-{what}.pdf" for what in ("supplement", "from-1.0")}
        assert names <= second["files"].keys()
    supplement = " ".join(text_of(folder / f"versions/{SET}/2.0/metric/{SET}-metric-2.0-supplement.pdf").split())
    assert "Bench Tote: what changed since version 1.0" in supplement
    assert "45 mm Two builders found it thin." in supplement
    catch_up = " ".join(text_of(folder / f"versions/{SET}/2.0/imperial/{SET}-imperial-2.0-from-1.0.pdf").split())
    assert {"Recut", "Handle"} <= set(catch_up.split())
    assert planbook(folder, ["archive", SET, "verify"]).code == 0
    for number in ("2.0", "2.1"):
        again = planbook(folder, ["release", SET, number])
        assert again.code == 1
        assert [each["code"] for each in again.document["findings"]] == ["nothing-changed"]
    # A copy of a template with another word in it is another look, and the paper alone has changed.
    template = folder / "templates" / "versions.html"
    template.parent.mkdir()
    template.write_bytes((folder / f"versions/{SET}/2.0/inputs/templates/versions.html").read_bytes() + b"\n")
    restyled = planbook(folder, ["release", SET, "2.1"])
    assert [each["code"] for each in restyled.document["findings"]] == ["notes-missing"]


def test_find_says_where_a_number_is_printed(story: Path, planbook) -> None:
    outcome = planbook(story, ["find", SET, "11 1/2", "--version", "1.0", "--edition", "imperial"])
    assert outcome.code == 0
    hits = {hit["id"]: hit for hit in outcome.document}
    height = hits["end/blank/width"]
    assert height["sheet"] == "1"
    assert isinstance(height["page"], int)
    assert height["edition"] == "imperial"


def test_trace_goes_from_a_name_to_its_prints(story: Path, planbook) -> None:
    outcome = planbook(story, ["trace", SET, "end.height"])
    assert outcome.code == 0
    assert "end/blank/width" in outcome.stdout


@pytest.mark.parametrize("name", ["rack.breadth", "rack.width", "shelf/blank/width", "tool_rack/blank/width"])
def test_trace_follows_what_was_renamed_through_all_releases(name: str, story: Path, planbook, tmp_path: Path) -> None:
    """Asked by the new name or by the old one."""
    folder = tmp_path / "copy"
    shutil.copytree(story, folder)
    content = folder / "content" / SET
    parameters = content / "parameters.yaml"
    values = "by_market: {north_america: 1 1/2 in, europe: 38 mm}"
    edit(parameters, f"  width: {{{values}", f"  breadth: {{was: [rack.width], {values}")
    (content / "parts/tool-rack.yaml").rename(content / "parts/shelf.yaml")
    with (content / "parts/shelf.yaml").open("a", encoding="utf-8") as part:
        part.write("\nwas: [tool_rack]\n")
    for file in content.rglob("*.*"):
        text = file.read_text(encoding="utf-8")
        renamed = re.sub(r"(?<!was: \[)\brack\.width\b", "rack.breadth", text)
        file.write_text(re.sub(r"(?<!was: \[)\btool_rack\b", "shelf", renamed), encoding="utf-8")
    outcome = planbook(folder, ["trace", SET, name])
    assert outcome.code == 0, outcome.stderr
    metric = next(one for one in outcome.document if one["edition"] == "metric")
    assert metric["id"] in ("rack.breadth", "shelf/blank/width")
    assert metric["history"] == [{"version": "1.0", "text": metric["text"]}]
    assert metric["text"].startswith("38 mm")


def test_trace_tells_a_table_of_planbook_s_own_from_one_of_the_workspace(workspace: Path, planbook) -> None:
    (workspace / "shared/markets/europe.yaml").unlink()
    outcome = planbook(workspace, ["trace", SET, "stock.sheet_19.thickness"])
    assert [(one["edition"], one["packaged"]) for one in outcome.document] == [("imperial", False), ("metric", True)]
