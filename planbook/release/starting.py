"""A new workspace: the packaged small plan set with the shared tables, ready to compile."""

from __future__ import annotations

import shutil
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from planbook.release.archive import disk
from planbook.source import packaged_defaults

FIRST_SET = "tool-tote"
ASIDE = ".incomplete"
"""Where a workspace is written before its folders get their places."""
FOLDERS = ("shared", "content")
"""The content last: without it there is no workspace."""
_FIRST_NOTES = """\
# What you say about each version; planbook works out by itself what changed.
"1.0":
  issued: {issued}
  summary: The first edition of the plan.
"""


def start_workspace(folder: Path) -> str:
    """Make a workspace in a folder that is missing or empty, whole or not at all; returns the key of its plan set.

    Raises FileExistsError when something is there, OSError when it cannot be written; then nothing of it is left. What
    a killed start left aside is cleared by the next.
    """
    new = not folder.exists()
    if not (new or _is_ours(folder)):
        raise FileExistsError(17, "not an empty folder", str(folder))
    try:
        _clear(folder)
        for path, data in _files().items():
            disk.make_folder((folder / ASIDE / path).parent)
            disk.write_file(folder / ASIDE / path, data)
        for name in FOLDERS:
            disk.rename(folder / ASIDE / name, folder / name)
        disk.remove(folder / ASIDE)
    except OSError:
        with suppress(OSError):
            _clear(folder)
            if new:
                folder.rmdir()
        raise
    return FIRST_SET


def _is_ours(folder: Path) -> bool:
    """Whether nothing is in the folder but what a killed start left."""
    if not folder.is_dir():
        return False
    names = {path.name for path in folder.iterdir()}
    return not names or {ASIDE} <= names <= {ASIDE, *FOLDERS[:-1]}


def _clear(folder: Path) -> None:
    for name in (*FOLDERS, ASIDE):
        shutil.rmtree(folder / name, ignore_errors=True)


def _files() -> Mapping[str, bytes]:
    """The files of a new workspace by path; the packaged set has a history of its own, this one begins at 1.0."""
    packaged = packaged_defaults()
    homes = (packaged / "shared", packaged / "content" / FIRST_SET)
    found = sorted(path for home in homes for path in home.rglob("*") if path.is_file())
    names = {path: path.relative_to(packaged) for path in found}
    files = {
        name.as_posix(): path.read_bytes()
        for path, name in names.items()
        if not any(part.startswith(".") for part in name.parts)
    }
    home = f"content/{FIRST_SET}"
    issued = _issue_date(files[f"{home}/set.yaml"].decode())
    return {**files, f"{home}/changes.yaml": _FIRST_NOTES.format(issued=issued).encode()}


def _issue_date(set_yaml: str) -> str:
    """The date on the line `issued: 2026-03-02` of a set.yaml."""
    line = next(line for line in set_yaml.splitlines() if line.startswith("issued:"))
    return line.split()[1]
