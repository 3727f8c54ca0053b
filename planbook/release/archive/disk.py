"""Every call that changes the disk, one function each, so that a test can fail any of them.

A file or folder is on the disk only when it was synced, and a name only when the folder that holds it was synced.
All of these raise OSError.
"""

from __future__ import annotations

import fcntl
import os
import shutil
from collections.abc import Collection, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path


def make_folder(path: Path) -> None:
    """Make a folder and those above it; one that is there already is left alone."""
    path.mkdir(parents=True, exist_ok=True)


def write_file(path: Path, data: bytes) -> None:
    """Write a new file and flush its bytes to the disk; a file that is there already is an error."""
    with path.open("xb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def sync(folder: Path) -> None:
    """Flush a folder's own list of names to the disk."""
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def rename(old: Path, new: Path) -> None:
    """Give a file or folder its new name in one step. A folder never takes the place of one that holds files."""
    old.rename(new)


def write_together(folder: Path, files: Mapping[str, bytes], owned: Collection[str] = ()) -> None:
    """Write files into a folder in the place of those that have their names; none of them is ever half there.

    `files` are by posix path. What else lies in the `owned` folders, which nobody else writes, is then removed.
    """
    aside = {}
    for name in files:
        final = folder / name
        make_folder(final.parent)
        aside[final.with_name(f".{final.name}.part")] = final
    try:
        for part, data in zip(aside, files.values(), strict=True):
            part.unlink(missing_ok=True)
            write_file(part, data)
        for part, final in aside.items():
            rename(part, final)
    finally:
        for part in aside:
            part.unlink(missing_ok=True)
    for left in (path for name in owned for path in (folder / name).glob("*")):
        if left not in aside.values() and left.is_file():
            left.unlink()


def remove(path: Path) -> None:
    """Remove a folder and all in it."""
    shutil.rmtree(path)


@contextmanager
def lock(folder: Path) -> Iterator[bool]:
    """Hold an exclusive lock on a folder; gives False at once when another process holds it.

    The system frees the lock when the process ends, however it ends.
    """
    handle = os.open(folder, os.O_RDONLY)
    try:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            yield False
        else:
            yield True
    finally:
        os.close(handle)
