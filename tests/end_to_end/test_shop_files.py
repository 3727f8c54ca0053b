"""Files for the shop as a person gets them: beside the draft, named in its report, renewed whole, frozen by release."""

from __future__ import annotations

import io
import json
from pathlib import Path

import ezdxf
import pytest

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
