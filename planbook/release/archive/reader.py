"""Reading released versions. A release is whole or it is not there; what was altered afterwards is a finding."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from planbook.release.archive.record import Record, digest, read_record
from planbook.release.version import Version, read_version
from planbook.source import SET_NAME
from planbook.source.findings import Finding, Place, Severity
from planbook.statement.files import UnreadableError, read_places, read_statement
from planbook.statement.model import Statement
from planbook.statement.places import Places

FOLDER = "versions"
"""The archive's folder in a workspace."""


@dataclass(frozen=True)
class Release:
    """A released version as frozen: what each edition told, where it was printed, and what it was made of."""

    version: Version
    record: Record
    record_hash: str
    """SHA-256 of record.json, which the next release's record repeats."""
    statements: Mapping[str, Statement]
    places: Mapping[str, Places]


def list_versions(root: Path, set_key: str) -> tuple[Version, ...]:
    """The released versions of a set, oldest first. Folders that are no finished release are passed over."""
    folder = root / FOLDER / set_key
    if not re.fullmatch(SET_NAME, set_key) or not folder.is_dir():
        return ()
    versions = [read_version(path.name) for path in folder.iterdir() if (path / "record.json").is_file()]
    return tuple(sorted(version for version in versions if version))


def read_release(root: Path, set_key: str, version: Version) -> tuple[Release | None, tuple[Finding, ...]]:
    """One release. Its statements and places are checked against the record's hashes before they are read."""
    here = f"{FOLDER}/{set_key}/{version}"
    folder = root / here
    path = "record.json"
    try:
        data = (folder / path).read_bytes()
        record = read_record(data)
        statements, places = {}, {}
        for edition in record.editions:
            path = f"{edition}/statement.json"
            statements[edition] = read_statement(_unaltered(folder, path, record), f"{here}/{path}")
            path = f"{edition}/places.json"
            places[edition] = read_places(_unaltered(folder, path, record), f"{here}/{path}")
    except (OSError, ValueError) as fault:
        return None, (_unreadable(f"{here}/{path}", fault),)
    except UnreadableError as fault:
        return None, (fault.finding,)
    return Release(version, record, digest(data), statements, places), ()


def read_latest(root: Path, set_key: str) -> tuple[Release | None, tuple[Finding, ...]]:
    """The newest release; None without a finding when there is none yet."""
    versions = list_versions(root, set_key)
    return read_release(root, set_key, versions[-1]) if versions else (None, ())


def check_chain(root: Path, set_key: str) -> tuple[Finding, ...]:
    """Whether every file of every release is still as it was frozen, and each release names the one before it."""
    findings: list[Finding] = []
    before: tuple[str, str] | None = None
    for version in list_versions(root, set_key):
        folder = root / FOLDER / set_key / str(version)
        path = "record.json"
        try:
            data = (folder / path).read_bytes()
            record = read_record(data)
            named = (record.previous.version, record.previous.sha256) if record.previous else None
            if named != before:
                raise ValueError("it does not name the release before it as that is now")
            for path in record.files:
                _unaltered(folder, path, record)
        except (OSError, ValueError) as fault:
            findings.append(_unreadable(f"{FOLDER}/{set_key}/{version}/{path}", fault))
            break
        before = (str(version), digest(data))
    return tuple(findings)


def _unaltered(folder: Path, path: str, record: Record) -> bytes:
    data = (folder / path).read_bytes()
    if record.files.get(path) != digest(data):
        raise ValueError("its bytes are not those that were released")
    return data


def _unreadable(path: str, fault: OSError | ValueError) -> Finding:
    what = fault.strerror if isinstance(fault, OSError) else str(fault)
    return Finding(
        code="archive-damaged",
        severity=Severity.STOP,
        message=f"A released file cannot be read: {what}.",
        remedy="Released versions are never edited. Bring versions/ back from your backup or version control.",
        place=Place(path, 1, 1),
    )
