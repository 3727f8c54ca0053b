"""Advisories: dated notes that are laid beside a released version and never change it.

Each is one file, versions/<set>/advisories/<number>.json. It holds its own SHA-256, and repeats that of the one before
it and that of the record of the version that it speaks of.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from planbook.release.archive import disk
from planbook.release.archive.reader import FOLDER, RECORD, damaged, list_versions
from planbook.release.archive.record import canonical, digest
from planbook.source.findings import Finding

_OURS = "advisories"
_FILE = re.compile(r"\d{3,}\.json", re.ASCII)
FORM = 1


@dataclass(frozen=True, slots=True)
class Advisory:
    """What a builder who holds a version is told before there is a better one."""

    number: int
    """Counts from 1 within a plan set."""
    version: str
    part: int | None
    """The number of the part that it is about; None where it is about the whole version."""
    editions: tuple[str, ...]
    """Those that it holds for."""
    dated: str
    """ISO 8601 date, as given."""
    text: str
    record: str
    """SHA-256 of that version's record.json."""
    previous: str = ""
    """SHA-256 of the advisory before it, "" for the first."""
    form: int = FORM


def read_advisories(root: Path, set_key: str) -> tuple[tuple[Advisory, ...], tuple[Finding, ...]]:
    """All of a set, oldest first, and what is wrong with them. One that was altered is the last that is read."""
    advisories: list[Advisory] = []
    before = ""
    for number, path in enumerate(_paths(root, set_key), 1):
        here = path.relative_to(root).as_posix()
        try:
            data = path.read_bytes()
            advisory = _read(data)
            _check(advisory, number, before, root / FOLDER / set_key / advisory.version / RECORD)
        except (OSError, ValueError) as fault:
            return tuple(advisories), (damaged(here, fault),)
        advisories.append(advisory)
        before = digest(data)
    return tuple(advisories), ()


def append_advisory(root: Path, set_key: str, advisory: Advisory) -> Path:
    """Write the next advisory, whole or not at all. Raises OSError. Call it with the archive open."""
    folder = root / FOLDER / set_key / _OURS
    final = folder / f"{advisory.number:03}.json"
    aside = folder / f".{final.name}.part"
    if final.exists():
        raise FileExistsError(17, "this advisory is in the archive already", str(final))
    disk.make_folder(folder)
    aside.unlink(missing_ok=True)
    told = asdict(advisory)
    disk.write_file(aside, canonical({"advisory": told, "sha256": digest(canonical(told))}))
    disk.rename(aside, final)
    disk.sync(folder)
    disk.sync(folder.parent)
    return final


def last_hash(root: Path, set_key: str) -> str:
    """SHA-256 of the newest advisory, "" where there is none."""
    paths = list(_paths(root, set_key))
    return digest(paths[-1].read_bytes()) if paths else ""


def _paths(root: Path, set_key: str) -> Iterator[Path]:
    if list_versions(root, set_key):
        folder = root / FOLDER / set_key / _OURS
        yield from sorted(path for path in folder.glob("*.json") if _FILE.fullmatch(path.name))


def _read(data: bytes) -> Advisory:
    try:
        sealed: dict[str, Any] = json.loads(data)
        fields = sealed["advisory"]
        if digest(canonical(fields)) != sealed["sha256"]:
            raise ValueError("it was altered after it was written")
        if fields["form"] > FORM:
            raise ValueError(f"its form is {fields['form']}, and this planbook reads forms up to {FORM}")
        return Advisory(**{**fields, "editions": tuple(fields["editions"])})
    except (KeyError, TypeError, AttributeError, UnicodeDecodeError, json.JSONDecodeError) as fault:
        raise ValueError("it does not read as an advisory") from fault


def _check(advisory: Advisory, number: int, before: str, record: Path) -> None:
    """Raises ValueError where it is not the next one, or no longer stands beside the version that it was written to."""
    if advisory.number != number:
        raise ValueError(f"it is advisory {advisory.number}, and number {number} is missing")
    if advisory.previous != before:
        raise ValueError("it follows an advisory that was altered since")
    if not record.is_file() or digest(record.read_bytes()) != advisory.record:
        raise ValueError(f"it speaks of release {advisory.version}, which is not as it was then")
