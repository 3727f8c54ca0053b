"""Reading released versions. A release is whole or it is not there; what was altered afterwards is a finding."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from planbook.release.archive.record import ALTERED, Previous, Record, digest, read_record
from planbook.release.version import Version, read_version
from planbook.source import SET_NAME
from planbook.source.findings import Finding, Place, Severity
from planbook.statement.files import UnreadableError, read_places, read_statement
from planbook.statement.model import Statement
from planbook.statement.places import Places

FOLDER = "versions"
"""The archive's folder in a workspace."""
RECORD = "record.json"


@dataclass(frozen=True)
class Release:
    """A released version as frozen: what each edition told, where it was printed, and what it was made of."""

    version: Version
    record: Record
    record_hash: str
    """SHA-256 of record.json, which the next release's record repeats."""
    statements: Mapping[str, Statement]
    places: Mapping[str, Places]
    home: Path | None = None
    """The folder of its files; None for one that was never written."""

    def figure(self, edition: str, name: str) -> bytes | None:
        """A figure as this release shows it, as SVG; None for a photograph, and for what no page shows."""
        path = f"{edition}/{figure_path(name)}"
        if self.home is None or path not in self.record.files:
            return None
        try:
            return _unaltered(self.home, path, self.record)
        except (OSError, ValueError):
            return None  # which checking the archive reports


def figure_path(name: str) -> str:
    """Where a figure that is drawn lies in the folder of an edition."""
    return f"figures/{name.replace('_', '-')}.svg"


def list_versions(root: Path, set_key: str) -> tuple[Version, ...]:
    """The released versions of a set, oldest first. Folders that are no finished release are passed over."""
    folder = root / FOLDER / set_key
    if not re.fullmatch(SET_NAME, set_key) or not folder.is_dir():
        return ()
    versions = [read_version(path.name) for path in folder.iterdir() if (path / RECORD).is_file()]
    return tuple(sorted(version for version in versions if version))


def read_release(root: Path, set_key: str, version: Version) -> tuple[Release | None, tuple[Finding, ...]]:
    """One release. Its statements and places are checked against the record's hashes before they are read."""
    here = f"{FOLDER}/{set_key}/{version}"
    folder = root / here
    path = RECORD
    try:
        data = (folder / path).read_bytes()
        record = read_record(data)
        statements, places = {}, {}
        for edition in record.editions:
            path = f"{edition}/statement.json"
            statements[edition] = read_statement(_unaltered(folder, path, record), f"{here}/{path}")
            path = f"{edition}/places.json"
            places[edition] = read_places(_unaltered(folder, path, record), f"{here}/{path}")
        path = RECORD
        _check_told(set_key, version, record, statements)
    except (OSError, ValueError) as fault:
        return None, (damaged(f"{here}/{path}", fault),)
    except UnreadableError as fault:
        return None, (fault.finding,)
    return Release(version, record, digest(data), statements, places, folder), ()


def read_all(root: Path, set_key: str) -> tuple[tuple[Release, ...], tuple[Finding, ...]]:
    """Every release that can be read, oldest first, and what is wrong with the others."""
    read = [read_release(root, set_key, version) for version in list_versions(root, set_key)]
    return tuple(release for release, _ in read if release), tuple(found for _, findings in read for found in findings)


def read_latest(root: Path, set_key: str) -> tuple[Release | None, tuple[Finding, ...]]:
    """The newest release; None without a finding when there is none yet."""
    versions = list_versions(root, set_key)
    return read_release(root, set_key, versions[-1]) if versions else (None, ())


def check_chain(root: Path, set_key: str) -> tuple[Finding, ...]:
    """Whether every file of every release is still as it was frozen, and each release names the one before it.

    A release whose record is damaged is the last that is looked at: those after it rest on that record.
    """
    findings: list[Finding] = []
    before: Previous | None = None
    for version in list_versions(root, set_key):
        here = f"{FOLDER}/{set_key}/{version}"
        try:
            data = (root / here / RECORD).read_bytes()
            record = read_record(data)
        except (OSError, ValueError) as fault:
            return (*findings, damaged(f"{here}/{RECORD}", fault))
        if record.previous != before:
            return (*findings, _broken(set_key, version, record.previous, before))
        findings += _altered(root, here, record)
        before = Previous(str(version), digest(data))
    return tuple(findings)


def _altered(root: Path, here: str, record: Record) -> Iterator[Finding]:
    for path in record.files:
        try:
            _unaltered(root / here, path, record)
        except (OSError, ValueError) as fault:
            yield damaged(f"{here}/{path}", fault)


def _broken(set_key: str, version: Version, named: Previous | None, before: Previous | None) -> Finding:
    """How a record fails to name the release before it: by which of the two, where that can be told."""
    home = f"{FOLDER}/{set_key}"
    if named is None:
        told = f"it says that nothing came before it, and {before.version if before else 'a release'} is there"
        return damaged(f"{home}/{version}/{RECORD}", ValueError(told))
    if before is None or named.version != before.version:
        told = f"it is missing, and release {version} follows it"
        return damaged(f"{home}/{named.version}/{RECORD}", ValueError(told))
    return damaged(f"{home}/{named.version}/{RECORD}", ValueError(ALTERED))


def _check_told(set_key: str, version: Version, record: Record, statements: Mapping[str, Statement]) -> None:
    """Raises ValueError for a record that says otherwise than what it holds: one of an old form has no seal."""
    told = {(each.plan_set.key, each.version, each.issued) for each in statements.values()}
    if told != {(set_key, str(version), record.issued)} or (record.set, record.version) != (set_key, str(version)):
        raise ValueError(ALTERED)
    if {path.partition("/")[0] for path in record.files if path.endswith("/statement.json")} != set(record.editions):
        raise ValueError(ALTERED)


def _unaltered(folder: Path, path: str, record: Record) -> bytes:
    data = (folder / path).read_bytes()
    if record.files.get(path) != digest(data):
        raise ValueError(ALTERED)
    return data


def damaged(path: str, fault: OSError | ValueError) -> Finding:
    """What tells of a file of the archive that is missing or was altered; `path` is its workspace path."""
    version = "/".join(PurePosixPath(path).parts[:3])
    if isinstance(fault, FileNotFoundError):
        what = "it is missing"
    elif isinstance(fault, OSError):
        what = f"it cannot be read ({fault.strerror})"
    else:
        what = str(fault)
    return Finding(
        code="archive-damaged",
        severity=Severity.STOP,
        message=f"This released file is not as it was: {what}.",
        remedy=f"Released versions are never edited. Bring {version}/ back from your version control or your backup.",
        place=Place(path, 0, 0),
    )
