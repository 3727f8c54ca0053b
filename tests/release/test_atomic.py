"""A kill or an error of the disk at any call leaves the archive readable and complete: the old state or the new."""

from __future__ import annotations

import errno
import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from planbook.release import release_set
from planbook.release.archive import disk
from planbook.release.archive.reader import check_chain, list_versions, read_release
from planbook.release.version import Version
from tests.release.stub import SET, make_workspace, ready

CALLS = ("make_folder", "write_file", "sync", "rename", "remove", "lock")


class Killed(BaseException):
    """In the place of SIGKILL: nothing of the program runs any more."""


def full_disk() -> OSError:
    return OSError(errno.ENOSPC, "No space left on device")


class Fault:
    """Fails the n-th call that touches the disk: before it does anything, after it did all, or half way."""

    def __init__(self, nth: int, when: str, error: Callable[[], BaseException]) -> None:
        self.left, self.when, self.error = nth, when, error
        self.struck = False

    def wrap(self, name: str, call: Callable[..., Any]) -> Callable[..., Any]:
        def faulty(*arguments: Any) -> Any:
            self.left -= 1
            if self.left != 0:
                return call(*arguments)
            self.struck = True
            if self.when == "after":
                call(*arguments)
            elif self.when == "half":
                _half(name, *arguments)
            raise self.error()

        return faulty


def _half(name: str, *arguments: Any) -> None:
    """What a call may leave behind when it is cut short."""
    if name == "write_file":
        path, data = arguments
        path.write_bytes(data[: len(data) // 2])
    elif name == "remove":
        for path in sorted(arguments[0].rglob("*"))[:1]:
            path.unlink() if path.is_file() else None


@contextmanager
def failing(fault: Fault) -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patch:
        for name in CALLS:
            patch.setattr(disk, name, fault.wrap(name, getattr(disk, name)))
        yield


@pytest.fixture(autouse=True)
def _no_compiling(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("planbook.release.publishing._make_ready", ready)
    # No test can see whether bytes reached the platter, and waiting for it takes most of the time.
    monkeypatch.setattr(os, "fsync", lambda _: None)


def snapshot(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def assert_whole(root: Path) -> tuple[str, ...]:
    versions = list_versions(root, SET)
    for version in versions:
        release, findings = read_release(root, SET, version)
        assert findings == ()
        assert release is not None
        assert set(release.statements) == {"imperial", "metric"}
    assert check_chain(root, SET) == ()
    return tuple(map(str, versions))


def leave_aside(root: Path) -> None:
    """What a release that was killed before leaves."""
    left = root / "versions" / ".incoming-tote-0.9" / "metric"
    left.mkdir(parents=True)
    (left / "statement.json").write_text("{", encoding="utf-8")


@pytest.mark.parametrize("when", ["before", "half", "after"])
@pytest.mark.parametrize("error", [full_disk, Killed])
@pytest.mark.parametrize("first", [True, False], ids=["first version", "second version"])
def test_a_fault_at_each_call_leaves_the_old_state_or_the_new(
    tmp_path: Path, when: str, error: Callable[[], BaseException], first: bool
) -> None:
    calls = 0
    while True:
        calls += 1
        root = make_workspace(tmp_path / str(calls))
        if not first:
            assert release_set(root, SET, "1.0").editions
            leave_aside(root)
        old = assert_whole(root)
        before = snapshot(root / "versions" / SET / "1.0")
        wanted = "1.0" if first else "1.1"
        fault = Fault(calls, when, error)
        with failing(fault):
            try:
                issued = release_set(root, SET, wanted)
            except Killed:
                issued = None
        if not fault.struck:
            break
        now = assert_whole(root)
        assert now in (old, (*old, wanted))
        assert first or snapshot(root / "versions" / SET / "1.0") == before
        if issued is not None:
            assert not issued.editions
            [finding] = issued.findings
            assert finding.code == ("release-unwritten" if now == old else "release-unconfirmed")
            assert "No space left" in finding.message
        if now == old:
            assert release_set(root, SET, wanted).findings == ()
        assert assert_whole(root) == (*old, wanted)
        if now == old:
            assert not list((root / "versions").glob(".incoming-*"))
    assert calls > 20
    assert assert_whole(root) == (*old, wanted)


def test_the_new_state_appears_by_one_rename_after_everything_was_synced(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    root = make_workspace(tmp_path)
    done: list[tuple[str, Path]] = []
    for name in ("make_folder", "write_file", "sync", "rename"):
        call = getattr(disk, name)

        def noted(*arguments: Any, name: str = name, call: Callable[..., Any] = call) -> None:
            done.append((name, arguments[0]))
            call(*arguments)

        monkeypatch.setattr(disk, name, noted)
    release_set(root, SET, "1.0")
    [at] = [count for count, (name, _) in enumerate(done) if name == "rename"]
    aside = done[at][1]
    written = {path for name, path in done[:at] if name == "write_file"}
    folders = {folder for path in written for folder in path.parents if folder.is_relative_to(aside)}
    assert {path for name, path in done[:at] if name == "sync"} >= folders
    assert all(path.is_relative_to(aside) for path in written)
    assert done[at + 1 :] == [("sync", root / "versions" / SET)]


def test_a_version_is_never_overwritten(tmp_path: Path) -> None:
    root = make_workspace(tmp_path)
    release_set(root, SET, "1.0")
    before = snapshot(root / "versions")
    again = release_set(root, SET, "1.0")
    assert not again.editions
    assert [finding.code for finding in again.findings] == ["version-taken"]
    assert snapshot(root / "versions") == before


def test_while_one_process_writes_another_is_refused(tmp_path: Path) -> None:
    root = make_workspace(tmp_path)
    (root / "versions").mkdir()
    with disk.lock(root / "versions") as held:
        assert held
        refused = release_set(root, SET, "1.0")
    assert [finding.code for finding in refused.findings] == ["archive-busy"]
    assert list_versions(root, SET) == ()
    assert release_set(root, SET, "1.0").editions


def test_a_release_that_was_overtaken_while_it_compiled_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    root = make_workspace(tmp_path)

    def overtaken(*arguments: Any) -> Any:
        mine = ready(*arguments)
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr("planbook.release.publishing._make_ready", ready)
            assert release_set(root, SET, "1.0").editions
        return mine

    monkeypatch.setattr("planbook.release.publishing._make_ready", overtaken)
    refused = release_set(root, SET, "1.0")
    assert [finding.code for finding in refused.findings] == ["archive-moved-on"]
    assert list_versions(root, SET) == (Version(1, 0),)
