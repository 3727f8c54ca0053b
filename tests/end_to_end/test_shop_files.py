"""Files for the shop as a person gets them: beside the draft, named in its report, renewed whole, frozen by release."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import ezdxf
import openpyxl
import pytest
from pypdf import PdfReader

from tests.end_to_end.conftest import run_planbook

SET = "tool-tote"


@pytest.fixture
def marked(workspace: Path) -> Path:
    """The packaged set, its end marked to be printed at full size."""
    file = workspace / "content" / SET / "parts" / "end.yaml"
    text = file.read_text(encoding="utf-8")
    if "template:" not in text:
        file.write_text(text.replace("\nsize:", "\ntemplate: true\nsize:", 1), encoding="utf-8")
    return workspace


def test_a_draft_writes_names_and_renews_them(marked: Path) -> None:
    out = marked / "out"
    folder = out / f"{SET}-metric"
    (folder / "parts").mkdir(parents=True)
    (folder / "parts" / "99-gone.dxf").write_bytes(b"of a part that is no longer made")
    (folder / "mine.txt").write_bytes(b"a note of the author's")
    outcome = run_planbook(marked, ["draft", SET, "--edition", "metric", "--out", str(out)])
    assert outcome.code == 0, outcome.stdout
    (edition,) = outcome.document["editions"]
    written = {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}
    assert written - {"mine.txt"} == {Path(file).relative_to(folder).as_posix() for file in edition["files"]}
    assert {"sheets/1.svg", "sheets/1.dxf", "parts/1-end.dxf", "templates/1-end.pdf", "mine.txt"} <= written
    assert any(name.startswith("figures/") for name in written)
    assert "parts/6-handle.dxf" not in written, "a part with tenons is not flat"
    report = json.loads((out / "report.json").read_text(encoding="utf-8"))
    assert report["editions"][0]["files"] == edition["files"]
    for name in written:
        if name.endswith(".dxf"):
            document = ezdxf.read(io.StringIO((folder / name).read_text(encoding="utf-8")))
            assert not document.audit().has_issues


def test_the_lists_are_read_back_from_csv_xlsx_and_pdf(workspace: Path) -> None:
    out = workspace / "out"
    outcome = run_planbook(workspace, ["draft", SET, "--edition", "metric", "--out", str(out), "--pieces", "2"])
    assert outcome.code == 0, outcome.stdout
    folder = out / f"{SET}-metric" / "lists"
    with (folder / "cutting.csv").open(encoding="utf-8", newline="") as file:
        read = list(csv.DictReader(file))
    # The packaged tote has six parts, its ends and sides twice: eight pieces, and two totes are made.
    assert [(row["part"], row["quantity"]) for row in read] == [
        ("1", "4"), ("2", "4"), ("3", "2"), ("4", "2"), ("6", "2"), ("5", "2")
    ]  # fmt: skip
    assert all(float(row["finished length mm"]) == pytest.approx(float(row["finished length in"]) * 25.4, abs=0.01)
               for row in read)  # fmt: skip
    book = openpyxl.load_workbook(folder / "lists.xlsx")
    assert book.sheetnames == ["Cutting", "Hardware", "Shopping", "Weight"]
    head, *rows = book["Cutting"].iter_rows(values_only=True)
    assert [dict(zip(head, row, strict=True))["rough length mm"] for row in rows] == [
        float(row["rough length mm"]) for row in read
    ]
    (edition,) = outcome.document["editions"]
    assert outcome.document["version"] == "one-off"
    pages = [page.extract_text().replace("\N{NO-BREAK SPACE}", " ") for page in PdfReader(edition["pdf"]).pages]
    (bought,) = [page for page in pages if "What to buy" in page and "Sheets, boards and rods" in page]
    assert "for 2 pieces" in bought
    assert "the lists and layouts are for 2 pieces" in pages[0]
    for row in read:
        assert any(row["description"] in page and "Cut list" in page for page in pages)
    with (folder / "shopping.csv").open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            assert row["item"].split(",")[0] in bought.replace("\n", " ")


def test_the_same_draft_gives_the_same_lists(workspace: Path) -> None:
    read = []
    for name in ("one", "two"):
        out = workspace / name
        assert run_planbook(workspace, ["draft", SET, "--edition", "metric", "--out", str(out)]).code == 0
        read.append({path.name: path.read_bytes() for path in (out / f"{SET}-metric" / "lists").iterdir()})
    assert read[0] == read[1]
    assert set(read[0]) == {"cutting.csv", "hardware.csv", "shopping.csv", "weight.csv", "lists.xlsx"}
