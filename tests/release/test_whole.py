"""A kill or an error of the disk at any call leaves a new workspace, or the files of a draft, whole or not there."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import pytest

from planbook.release import start_workspace
from planbook.release.archive import disk
from tests.release.test_atomic import Fault, Killed, failing, full_disk, snapshot

OLD = {"a.pdf": b"an old draft", "report.json": b"{}"}
NEW = {"a.pdf": b"a new draft, longer", "b.pdf": b"another edition", "report.json": b'{"new": 1}'}


@pytest.fixture(autouse=True)
def _no_waiting(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "fsync", lambda _: None)


@pytest.fixture(scope="module")
def started(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    folder = tmp_path_factory.mktemp("started") / "w"
    start_workspace(folder)
    return snapshot(folder)


@pytest.mark.parametrize("when", ["before", "half", "after"])
@pytest.mark.parametrize("error", [full_disk, Killed])
@pytest.mark.parametrize("empty", [True, False], ids=["empty folder", "no folder"])
def test_a_workspace_is_started_whole_or_not_at_all(
    tmp_path: Path, started: dict[str, bytes], when: str, error: Callable[[], BaseException], empty: bool
) -> None:
    calls = 0
    while True:
        calls += 1
        folder = tmp_path / str(calls) / "w"
        if empty:
            folder.mkdir(parents=True)
        fault = Fault(calls, when, error)
        whole = failed = False
        with failing(fault):
            try:
                start_workspace(folder)
                whole = True
            except Killed:
                whole = (folder / "content").exists()
            except OSError:
                failed = True
        if failed:
            assert folder.exists() is empty
            assert not folder.exists() or not list(folder.iterdir())
        if not whole:
            start_workspace(folder)
        assert snapshot(folder) == started
        if not fault.struck:
            break
    assert calls > 20


def test_a_folder_with_something_of_ones_own_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / ".incomplete").mkdir()
    (tmp_path / "mine.txt").write_text("mine", encoding="utf-8")
    with pytest.raises(FileExistsError):
        start_workspace(tmp_path)
    assert snapshot(tmp_path) == {"mine.txt": b"mine"}


@pytest.mark.parametrize("when", ["before", "half", "after"])
@pytest.mark.parametrize("error", [full_disk, Killed])
def test_each_file_of_a_draft_is_the_old_one_or_the_new(
    tmp_path: Path, when: str, error: Callable[[], BaseException]
) -> None:
    calls = 0
    while True:
        calls += 1
        folder = tmp_path / str(calls)
        disk.write_together(folder, OLD)
        fault = Fault(calls, when, error)
        with failing(fault):
            try:
                disk.write_together(folder, NEW)
            except (Killed, OSError):
                assert fault.struck
        there = snapshot(folder)
        assert there.keys() <= NEW.keys()
        assert all(data in (OLD.get(name), NEW[name]) for name, data in there.items())
        disk.write_together(folder, NEW)
        assert snapshot(folder) == NEW
        if not fault.struck:
            break
    assert calls > 6


def test_what_a_killed_draft_left_aside_is_no_hindrance(tmp_path: Path) -> None:
    (tmp_path / ".a.pdf.part").write_bytes(b"half")
    disk.write_together(tmp_path, NEW)
    assert snapshot(tmp_path) == NEW
