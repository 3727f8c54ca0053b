"""Writing a release: aside first, flushed, then one rename. A kill at any instant leaves the old state or the new."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path, PurePosixPath

from planbook.release.archive import disk
from planbook.release.archive.reader import FOLDER
from planbook.release.version import Version

_ASIDE = ".incoming-"


@contextmanager
def archive_open(root: Path) -> Iterator[bool]:
    """The archive for one writer at a time; gives False when another process is writing. Raises OSError.

    Whoever gets it first clears what a killed release left aside.
    """
    folder = root / FOLDER
    disk.make_folder(folder)
    with disk.lock(folder) as held:
        if held:
            for left in sorted(folder.glob(f"{_ASIDE}*")):
                disk.remove(left)
        yield held


def write_release(root: Path, set_key: str, version: Version, files: Mapping[str, bytes]) -> None:
    """Put a release in the archive, complete or not at all. Raises OSError; FileExistsError if it is there already.

    `files` are all of its files by posix path. Call it with the archive open.
    """
    home = root / FOLDER / set_key
    final = home / str(version)
    if final.exists():
        raise FileExistsError(17, "this version is in the archive already", str(final))
    aside = root / FOLDER / f"{_ASIDE}{set_key}-{version}"
    folders = _folders(files)
    for folder in folders:
        disk.make_folder(aside / folder)
    for path, data in sorted(files.items()):
        disk.write_file(aside / path, data)
    for folder in reversed(folders):
        disk.sync(aside / folder)
    disk.make_folder(home)
    disk.sync(root / FOLDER)
    disk.rename(aside, final)
    disk.sync(home)


def _folders(files: Mapping[str, bytes]) -> list[str]:
    """Every folder that holds a file or a folder, each after the one that holds it."""
    return sorted({str(folder) for path in files for folder in PurePosixPath(path).parents})
