"""A photograph of what is no longer so is told to its author, from a comparison with the version that it shows."""

from __future__ import annotations

import io
import shutil
from pathlib import Path

import pytest
from PIL import Image

from planbook.release import check_set
from planbook.source import Door
from planbook.source.findings import Finding, Severity

REPOSITORY = Path(__file__).parents[2]
SET = "tool-tote"
FIGURES = f"content/{SET}/figures.yaml"


@pytest.fixture
def root(tmp_path: Path) -> Path:
    """The tote with its kept releases: between 1.0 and 2.0 the holes of the tool rack changed, and nothing else."""
    for path in (f"content/{SET}", f"versions/{SET}"):
        shutil.copytree(REPOSITORY / path, tmp_path / path)
    target = io.BytesIO()
    Image.new("RGB", (8, 8)).save(target, "PNG")
    (tmp_path / f"content/{SET}/bench.png").write_bytes(target.getvalue())
    return tmp_path


def found(root: Path, shows: str) -> tuple[Finding, ...]:
    text = (REPOSITORY / FIGURES).read_text(encoding="utf-8")
    figure = f"\nbench:\n  picture: bench.png\n  shows: {shows}\n  caption: The bench.\n  alt: A bench.\n"
    (root / FIGURES).write_text(text.rstrip() + figure, encoding="utf-8")
    findings = check_set(Door(root), SET).findings
    return tuple(each for each in findings if "bench" in each.message or each.code.startswith(("picture", "part-unk")))


def told(root: Path, shows: str) -> list[tuple[str, Severity]]:
    """Without what any new figure is told for that no page shows and no reason speaks of."""
    others = {"figure-idle", "reason-missing"}
    return [(each.code, each.severity) for each in found(root, shows) if each.code not in others]


def test_one_whose_parts_changed_is_outdated_and_names_them(root: Path) -> None:
    outdated = [each for each in found(root, '{version: "1.0", parts: [tool_rack, side]}') if "outdated" in each.code]
    assert len(outdated) == 1
    assert outdated[0].severity is Severity.WARN
    assert "since then changed: `tool_rack`" in outdated[0].message
    assert "`side`" not in outdated[0].message
    assert outdated[0].place is not None
    assert outdated[0].place.file == FIGURES


def test_one_whose_parts_are_as_they_were_is_not(root: Path) -> None:
    assert told(root, '{version: "1.0", parts: [side]}') == []


def test_one_of_the_version_in_work_is_not(root: Path) -> None:
    assert told(root, '{version: "9.0", parts: [tool_rack]}') == []


def test_one_of_a_version_that_never_was_is_told(root: Path) -> None:
    assert told(root, '{version: "0.9", parts: [side]}') == [("picture-version-unknown", Severity.WARN)]


def test_its_parts_are_real_ones(root: Path) -> None:
    assert told(root, '{version: "1.0", parts: [sied]}') == [("part-unknown", Severity.STOP)]
