"""The one door to files: everything that is read passes here, stays inside the workspace, and is logged by its hash."""

from __future__ import annotations

import hashlib
import importlib
import os
import re
import stat
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from types import MappingProxyType

from planbook.source.characters import find_control
from planbook.source.findings import Finding, Place, Severity

TEXT_LIMIT = 1_000_000
"""Bytes of a text. Nobody writes more by hand in one file, and reading it with all places would take long."""
BINARY_LIMIT = 32_000_000
SHARED_FOLDERS = ("templates", "shared")
FONT_PACKAGES = ("font_source_sans_pro", "font_source_serif_pro")


class Refused(Exception):  # noqa: N818, a name of the house's contract
    """A file that cannot or must not be read; `finding` says why and how to mend it."""

    def __init__(self, finding: Finding) -> None:
        super().__init__(finding.message)
        self.finding = finding


def packaged_defaults() -> Path:
    """The folder with the default `templates/` and `shared/`: in the installed package, or the checkout itself."""
    package = Path(__file__).resolve().parents[1]
    installed = package / "packaged"
    return installed if installed.is_dir() else package.parent


DEFAULTS = packaged_defaults()


class Door:
    """Reads the files of one workspace and remembers each, so that a file read twice is the same both times.

    Paths are relative to `root` with forward slashes, as they stand in findings. What is missing under `templates/`
    and `shared/` is read from `defaults` under the same name; without defaults, as for a frozen release, it is missing.
    """

    def __init__(self, root: Path, defaults: Path | None = DEFAULTS) -> None:
        self.root = root.resolve()
        self._defaults = defaults
        self._contents: dict[str, bytes] = {}
        self._log: dict[str, str] = {}

    @property
    def log(self) -> Mapping[str, str]:
        """Every file read so far, in order of reading: path to SHA-256 in hexadecimal. Fonts are `fonts/<name>`."""
        return MappingProxyType(self._log)

    def read_text(self, path: str) -> str:
        """The file as text: UTF-8, at most 1 MB, lines ending in a bare line feed, without a byte order mark.

        Raises `Refused`.
        """
        try:
            text = self._read(path, TEXT_LIMIT).decode("utf-8")
        except UnicodeDecodeError as error:
            raise Refused(_not_utf8(path, error)) from None
        return text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")

    def read_bytes(self, path: str) -> bytes:
        """The file's bytes, at most 32 MB. Raises `Refused`."""
        return self._read(path, BINARY_LIMIT)

    def read_font(self, name: str) -> bytes:
        """A font file of the packaged families, by its file name such as `SourceSansPro-Regular.otf`.

        Raises `Refused`.
        """
        return self._remember(f"fonts/{name}", lambda: _find_font(name).read_bytes())

    def exists(self, path: str) -> bool:
        """Whether there is such a file, in the workspace or among the defaults, that the door would open."""
        try:
            return os.path.isfile(self._find(path))  # noqa: PTH113, never raises
        except Refused:
            return False

    def is_packaged(self, path: str) -> bool:
        """Whether a path is read from the defaults, because the workspace has no such file."""
        try:
            found = self._find(path)
        except Refused:
            return False
        return self._defaults is not None and not found.is_relative_to(self.root)

    def list_files(self, folder: str, suffix: str = "") -> tuple[str, ...]:
        """Paths of the files right in a folder whose names end in `suffix`, sorted; hidden files are left out.

        A folder that is missing has no files. Raises `Refused` for a folder outside the workspace.
        """
        return self._list(folder, lambda path: path.is_file() and path.name.endswith(suffix))

    def list_folders(self, folder: str) -> tuple[str, ...]:
        """Paths of the folders right in a folder, sorted; hidden ones are left out. Raises `Refused`."""
        return self._list(folder, Path.is_dir)

    def _list(self, folder: str, wanted: Callable[[Path], bool]) -> tuple[str, ...]:
        places = [_inside(base, folder) for base in self._bases(folder)]
        names: set[str] = set()
        for place in places:
            with _readable(folder):
                if place.is_dir():
                    names |= {each.name for each in place.iterdir() if each.name[0] != "." and wanted(each)}
        for name in names:
            if find_control(name) is not None:
                raise Refused(_unprintable(folder, name))
        return tuple(f"{folder}/{name}" for name in sorted(names))

    def _read(self, path: str, limit: int) -> bytes:
        content = self._remember(path, lambda: _read_file(self._find(path), path, limit))
        if len(content) > limit:
            raise Refused(_too_large(path, len(content), limit))
        return content

    def _remember(self, path: str, read: Callable[[], bytes]) -> bytes:
        if path not in self._contents:
            content = read()
            self._contents[path] = content
            self._log[path] = hashlib.sha256(content).hexdigest()
        return self._contents[path]

    def _find(self, path: str) -> Path:
        """The file in the first base that has it; in the workspace when none has."""
        places = [_inside(base, path) for base in self._bases(path)]
        return next((place for place in places if os.path.exists(place)), places[0])  # noqa: PTH110, never raises

    def _bases(self, path: str) -> tuple[Path, ...]:
        if self._defaults and path.split("/", 1)[0] in SHARED_FOLDERS and self._defaults != self.root:
            return self.root, self._defaults
        return (self.root,)


def path_fault(path: str) -> Finding | None:
    """Why a path cannot lead to a file inside the workspace, told by its words alone; None when it can."""
    if re.match(r"[A-Za-z][A-Za-z0-9+.-]*:", path):
        return _finding(
            "path-url",
            path,
            f"`{path}` is an address, not a file of the workspace.",
            "Save the file in the plan set's folder, and name it by its path there.",
        )
    if find_control(path) is not None or "\\" in path or any(part in ("", ".", "..") for part in path.split("/")):
        return _outside(path)
    return None


def _inside(base: Path, path: str) -> Path:
    """Where the path leads, symbolic links followed. Raises `Refused` when that is not inside `base`."""
    fault = path_fault(path)
    if fault is not None:
        raise Refused(fault)
    try:
        place = (base / path).resolve()
    except (OSError, RuntimeError):  # a ring of links, or a name that no file system takes
        raise Refused(_outside(path)) from None
    if not place.is_relative_to(base):
        raise Refused(_outside(path))
    return place


def _outside(path: str) -> Finding:
    return _finding(
        "path-outside",
        path,
        f"`{path}` does not stay inside the workspace.",
        "Name a file inside the workspace by its path, with forward slashes and without `..`.",
    )


def _read_file(place: Path, path: str, limit: int) -> bytes:
    """The bytes of a regular file, its size looked at before it is read."""
    with _readable(path):
        state = place.stat()
        if not stat.S_ISREG(state.st_mode):
            raise Refused(_finding("file-kind", path, f"`{path}` is not an ordinary file.", "Put a file in its place."))
        if state.st_size > limit:
            raise Refused(_too_large(path, state.st_size, limit))
        return place.read_bytes()


@contextmanager
def _readable(path: str) -> Iterator[None]:
    """Turns what the operating system says against reading `path` into `Refused`."""
    try:
        yield
    except (FileNotFoundError, NotADirectoryError):
        remedy = "Write the file, or correct the name that leads to it."
        raise Refused(_finding("file-missing", path, f"`{path}` does not exist.", remedy)) from None
    except OSError as error:
        reason = os.strerror(error.errno).lower() if error.errno else "no reason given"
        remedy = "See to it that you may read the file."
        raise Refused(_finding("file-unreadable", path, f"`{path}` cannot be read: {reason}.", remedy)) from None


def _unprintable(folder: str, name: str) -> Finding:
    shown = name.encode("ascii", "backslashreplace").decode("ascii")
    return _finding(
        "file-name-unprintable",
        folder,
        f"The folder `{folder}` holds a file whose name cannot be printed: `{shown}`.",
        "Rename that file with letters, digits and hyphens.",
    )


def _find_font(name: str) -> Path:
    for package in FONT_PACKAGES:
        folder = Path(str(importlib.import_module(package).__file__)).parent / "files"
        if name in {path.name for path in folder.iterdir()}:
            return folder / name
    raise Refused(
        _finding(
            "font-unknown",
            f"fonts/{name}",
            f"There is no font file `{name}`.",
            "Use a font of the families Source Sans Pro and Source Serif Pro.",
        )
    )


def _too_large(path: str, size: int, limit: int) -> Finding:
    return _finding(
        "file-too-large",
        path,
        f"`{path}` has {size / 1e6:.1f} MB; at most {limit / 1e6:.0f} MB are read.",
        "Split the file, or take out what does not belong in it: nobody writes so much by hand.",
    )


def _not_utf8(path: str, error: UnicodeDecodeError) -> Finding:
    before = error.object[: error.start]
    line = before.count(b"\n") + 1
    column = len(before[before.rfind(b"\n") + 1 :].decode("utf-8", "replace")) + 1
    return Finding(
        "file-not-utf8",
        Severity.STOP,
        f"`{path}` is not UTF-8 text from here on.",
        "Save the file in the encoding UTF-8.",
        Place(path, line, column),
    )


def _finding(code: str, path: str, message: str, remedy: str) -> Finding:
    return Finding(code, Severity.STOP, message, remedy, Place(path, 1, 1))
