"""One real release: the small plan set compiled once, written under faults, and compiled again elsewhere."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from planbook.release import UNWATCHED, publishing, release_set, start_workspace
from planbook.release.archive import disk
from planbook.release.archive.reader import check_chain, list_versions, read_release
from planbook.release.archive.record import read_record
from planbook.release.version import Version
from planbook.source import Door
from planbook.source.findings import Severity

SET = "tool-tote"
ELSEWHERE = """
import sys, time
clock = time.time
time.time = lambda: clock() + 40_000_000
from planbook.cli import main
main(["release", "tool-tote", "1.0", "--workspace", sys.argv[1]])
"""


class Killed(BaseException):
    """In the place of SIGKILL."""


@pytest.fixture(scope="module")
def compiled(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Any]:
    """A new workspace, and its version 1.0 compiled but not written."""
    root = tmp_path_factory.mktemp("real") / "workshop"
    start_workspace(root)
    ready, findings = publishing._make_ready(Door(root), SET, Version(1, 0), Severity.STOP, UNWATCHED)
    assert ready is not None, findings
    return root, ready


@pytest.fixture
def workshop(compiled: tuple[Path, Any], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of the workspace in which compiling gives at once what was compiled."""
    root, ready = compiled
    shutil.copytree(root, tmp_path / "workshop")
    monkeypatch.setattr(publishing, "_make_ready", lambda *_: (ready, ()))
    return tmp_path / "workshop"


def fail_at(monkeypatch: pytest.MonkeyPatch, name: str, error: BaseException) -> None:
    def fail(*_: object) -> None:
        raise error

    monkeypatch.setattr(disk, name, fail)


@pytest.mark.parametrize("name", ["make_folder", "write_file", "sync", "rename", "lock"])
@pytest.mark.parametrize("error", [OSError(5, "Input/output error"), Killed()], ids=["error", "kill"])
def test_a_real_release_is_written_whole_or_not_at_all(workshop: Path, name: str, error: BaseException) -> None:
    with pytest.MonkeyPatch.context() as patch:
        fail_at(patch, name, error)
        if isinstance(error, Killed):
            with pytest.raises(Killed):
                release_set(workshop, SET, "1.0")
        else:
            assert [finding.code for finding in release_set(workshop, SET, "1.0").findings] == ["release-unwritten"]
    assert list_versions(workshop, SET) == ()
    issued = release_set(workshop, SET, "1.0")
    assert [edition.name for edition in issued.editions] == ["imperial", "metric"]
    assert check_chain(workshop, SET) == ()


def test_what_is_frozen_is_what_was_read(workshop: Path) -> None:
    release_set(workshop, SET, "1.0")
    home = workshop / "versions" / SET / "1.0"
    for path in (home / "inputs" / "content").rglob("*.*"):
        assert path.read_bytes() == (workshop / path.relative_to(home / "inputs")).read_bytes()
    read = {path.relative_to(workshop / "content" / SET) for path in (workshop / "content" / SET).rglob("*.*")}
    frozen = {
        path.relative_to(home / "inputs" / "content" / SET) for path in (home / "inputs").rglob("content/*/**/*.*")
    }
    assert frozen == read
    record = read_record((home / "record.json").read_bytes())
    assert record.fonts
    assert all(name.startswith("fonts/") and len(sha256) == 64 for name, sha256 in record.fonts.items())
    assert {"python", "weasyprint", "pango"} <= set(record.tools)


def test_a_release_can_be_compiled_again_from_its_own_inputs(workshop: Path) -> None:
    """Elsewhere, on another day, in another time zone, under another hash seed: the same bytes in every file."""
    release_set(workshop, SET, "1.0")
    home = workshop / "versions" / SET / "1.0"
    elsewhere = workshop.parent / "another folder"
    for path in sorted((home / "inputs").rglob("*.*"), reverse=True):
        copy = elsewhere / path.relative_to(home / "inputs")
        copy.parent.mkdir(parents=True, exist_ok=True)
        copy.write_bytes(path.read_bytes())
    surroundings = {**os.environ, "PYTHONHASHSEED": "4711", "TZ": "Pacific/Kiritimati", "LC_ALL": "C"}
    done = subprocess.run(
        [sys.executable, "-c", ELSEWHERE, str(elsewhere)], env=surroundings, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    again = elsewhere / "versions" / SET / "1.0"
    names = {path.relative_to(home) for path in home.rglob("*.*")}
    assert {path.relative_to(again) for path in again.rglob("*.*")} == names
    differing = [str(name) for name in sorted(names) if (home / name).read_bytes() != (again / name).read_bytes()]
    assert differing == []


def test_a_machine_that_cannot_repeat_the_bytes_is_refused(
    compiled: tuple[Path, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    root, _ = compiled
    monkeypatch.setattr("planbook.release.tools.subsetting_is_reproducible", lambda: False)
    monkeypatch.setattr(publishing, "compose_all", _not_reached)
    refused = release_set(root, SET, "1.0")
    [finding] = refused.findings
    assert finding.code == "pdf-not-reproducible"
    assert "libharfbuzz-subset0" in finding.remedy
    assert not (root / "versions").exists()


def _not_reached(*_: object) -> Any:
    raise AssertionError("pages were set although the release was refused already")


@pytest.mark.parametrize(
    ("spoil", "code"),
    [
        (lambda content: _write(content / "changes.yaml", "{}\n"), "notes-missing"),
        (lambda content: _drop_cautions(content / "set.yaml"), "no-cautions"),
    ],
)
def test_what_is_asked_of_a_release_and_not_of_a_draft(
    compiled: tuple[Path, Any],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    spoil: Callable[[Path], None],
    code: str,
) -> None:
    root = tmp_path / "workshop"
    shutil.copytree(compiled[0], root)
    spoil(root / "content" / SET)
    monkeypatch.setattr(publishing, "compose_all", _not_reached)
    refused = release_set(root, SET, "1.0")
    assert code in {finding.code for finding in refused.findings}
    assert not refused.editions
    assert not (root / "versions").exists()


def _write(path: Path, text: str) -> None:
    path.write_text(text, encoding="utf-8")


def _drop_cautions(path: Path) -> None:
    lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
    _write(path, "".join("cautions: []\n" if line.startswith("cautions:") else line for line in lines))


def test_a_statement_reads_back_as_it_was_compiled(workshop: Path, compiled: tuple[Path, Any]) -> None:
    release_set(workshop, SET, "1.0")
    release, findings = read_release(workshop, SET, Version(1, 0))
    assert findings == ()
    assert release is not None
    for edition, one in compiled[1].compiled.items():
        assert release.statements[edition] == one.statement
        assert release.places[edition] == one.places
    assert json.loads((workshop / "versions" / SET / "1.0" / "record.json").read_bytes())["previous"] is None
