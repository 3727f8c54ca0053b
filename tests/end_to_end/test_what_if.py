"""What if, through the command line: a change weighed without touching the content, and a set for one builder."""

from __future__ import annotations

import subprocess
from pathlib import Path

from tests.end_to_end.conftest import Run

SET = "tool-tote"
SHEET = "stock.sheet_12.thickness = 11.6 mm"


def tree(folder: Path) -> dict[str, bytes]:
    return {str(path): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


def test_check_says_what_a_change_moves_and_writes_nothing(workspace: Path, planbook: Run) -> None:
    before = tree(workspace)
    done = planbook(workspace, ["check", SET, "--with", "tote.length = 19 in", "--with", "housing.width = 12.5 mm"])
    assert tree(workspace) == before
    assert done.document["with"] == [
        {"name": "tote.length", "formula": "19 in", "replaces": ""},
        {"name": "housing.width", "formula": "12.5 mm", "replaces": "stock.sheet_12.thickness + make.fit"},
    ]
    moved = {each["name"]: {effect["id"]: effect for effect in each["moved"]} for each in done.document["editions"]}
    assert moved["imperial"]["handle/blank/length"] == {
        "kind": "dimension", "id": "handle/blank/length", "part": 6, "old": "18 in", "new": "19 in", "turn": "moved",
    }  # fmt: skip
    assert moved["metric"]["handle/blank/length"]["new"] == "482.5 mm"
    assert moved["metric"]["side.in_housing"]["kind"] == "fit"


def test_a_change_that_names_nothing_stops(workspace: Path, planbook: Run) -> None:
    done = planbook(workspace, ["check", SET, "--with", "tote.lenght = 19 in"])
    assert done.code == 1
    (finding,) = done.findings("unknown-name")
    assert "`tote.length`" in finding["remedy"]
    assert done.document["editions"] == []


def test_a_change_without_a_formula_is_wrong_usage(workspace: Path, planbook: Run) -> None:
    done = planbook(workspace, ["check", SET, "--with", "tote.length 19 in"])
    assert done.code == 2
    assert "write a name, =, and a formula" in done.stderr


def test_a_set_for_one_builder_is_marked_on_every_page_and_is_no_draft(
    workspace: Path, planbook: Run, tmp_path: Path
) -> None:
    out = tmp_path / "own"
    done = planbook(workspace, ["draft", SET, "--edition", "metric", "--with", SHEET, "--out", str(out)])
    assert (done.code, done.document["version"]) == (0, "one-off")
    pdf = out / f"{SET}-metric-one-off.pdf"
    text = subprocess.run(["pdftotext", "-layout", pdf, "-"], check=True, capture_output=True, text=True).stdout
    pages = text.split("\f")[:-1]
    assert len(pages) > 5
    assert [number for number, page in enumerate(pages, 1) if "changed for one builder" not in page] == []
    assert "is 11.6 mm, not 12 mm" in " ".join(pages[0].split())
    sheets = [page for page in pages if "LEGAL OWNER" in page]
    assert all("one-off" in page for page in sheets)
    assert sheets


def test_what_is_supposed_is_never_released(workspace: Path, planbook: Run) -> None:
    done = planbook(workspace, ["release", SET, "1.0", "--with", SHEET])
    assert done.code == 2
    assert not (workspace / "versions").exists()
