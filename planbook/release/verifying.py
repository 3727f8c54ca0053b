"""Proving the archive: every file as it was frozen, and on demand every release compiled again from its own inputs."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from functools import partial
from pathlib import Path
from typing import Any

from planbook.release.archive.advisories import read_advisories
from planbook.release.archive.reader import FOLDER, RECORD, Release, check_chain, list_versions, read_release
from planbook.release.archive.record import digest
from planbook.release.editions import read_named
from planbook.release.looks import compare_seen
from planbook.release.publishing import release_set
from planbook.release.reports.findings import finding_document
from planbook.release.tools import tool_versions
from planbook.release.version import Version
from planbook.release.watching import UNWATCHED, Watcher
from planbook.source.findings import Finding, Place, Severity, stops


@dataclass(frozen=True, slots=True)
class Difference:
    """What a statement tells otherwise when it is made again; `seen` says whether a builder sees it on the pages."""

    edition: str
    kind: str
    id: str
    seen: bool


@dataclass(frozen=True, slots=True)
class Again:
    """A release compiled again from its own inputs.

    `files` are those whose bytes came out otherwise, or not at all; `tools` the programs that have another version
    today; `refused` why it could not be compiled.
    """

    files: tuple[str, ...] = ()
    differences: tuple[Difference, ...] = ()
    tools: tuple[str, ...] = ()
    refused: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ReleaseVerified:
    """One release: how many files it holds, and what compiling it again gave, where that was asked for."""

    version: str
    issued: str
    files: int
    again: Again | None = None


@dataclass(frozen=True, slots=True)
class Verified:
    """The archive of a set. What is damaged is among the findings."""

    set: str
    releases: tuple[ReleaseVerified, ...]
    advisories: int
    findings: tuple[Finding, ...]

    def document(self) -> dict[str, Any]:
        """For --json."""
        return {
            "set": self.set,
            "releases": [_document(each) for each in self.releases],
            "advisories": self.advisories,
            "findings": [finding_document(finding) for finding in self.findings],
        }


def _document(release: ReleaseVerified) -> dict[str, Any]:
    told: dict[str, Any] = {"version": release.version, "issued": release.issued, "files": release.files}
    if release.again is not None:
        again = release.again
        told["again"] = {
            "files": list(again.files),
            "differences": [asdict(each) for each in again.differences],
            "tools": list(again.tools),
            "refused": list(again.refused),
        }
    return told


def verify_set(
    root: Path, set_key: str, version: str | None = None, *, again: bool = False, watcher: Watcher = UNWATCHED
) -> Verified:
    """Check the whole archive of a set; compile one release or all of them `again`, in a folder of its own."""
    known = list_versions(root, set_key)
    named, findings = read_named(root, set_key, version or str(known[-1] if known else "1.0"))
    if named is None and not known:
        return Verified(set_key, (), 0, findings)
    advisories, spoiled = read_advisories(root, set_key)
    findings = tuple(dict.fromkeys((*findings, *check_chain(root, set_key), *spoiled)))
    if stops(findings):
        return Verified(set_key, (), len(advisories), findings)
    wanted = [each for each in known if version is None or each == (named and named.version)]
    releases = tuple(_verify(root, set_key, each, watcher, again=again) for each in wanted)
    findings += tuple(finding for each in wanted for finding in _added(root, set_key, each))
    return Verified(set_key, releases, len(advisories), findings)


def _added(root: Path, set_key: str, version: Version) -> Iterator[Finding]:
    """Files that lie in a release's folder and are not the release's."""
    release, _ = read_release(root, set_key, version)
    assert release is not None, "the chain was checked"
    home = root / FOLDER / set_key / str(version)
    found = sorted(path.relative_to(home).as_posix() for path in home.rglob("*") if not path.is_dir())
    for path in found:
        if path != RECORD and path not in release.record.files:
            yield Finding(
                code="archive-added",
                severity=Severity.WARN,
                message=f"This file lies among those of release {version} and is none of them.",
                remedy="Keep it elsewhere: what buyers are sent from this folder should be what was released.",
                place=Place(f"{FOLDER}/{set_key}/{version}/{path}", 0, 0),
            )


def _verify(root: Path, set_key: str, version: Version, watcher: Watcher, *, again: bool) -> ReleaseVerified:
    release, _ = read_release(root, set_key, version)
    assert release is not None, "the chain was checked"
    record = release.record
    compiled = _again(root, set_key, release, watcher) if again else None
    return ReleaseVerified(str(version), record.issued, len(record.files), compiled)


def _again(root: Path, set_key: str, release: Release, watcher: Watcher) -> Again:
    """In a temporary workspace of the release's own inputs, with the versions before it beside them."""
    watcher.tell(f"Compiling {release.version} again")
    tools = tuple(_other_tools(release))
    with tempfile.TemporaryDirectory(prefix="planbook-") as folder:
        workspace = Path(folder)
        _lay_out(root, workspace, set_key, release.version)
        issued = release_set(workspace, set_key, str(release.version), watcher, again=True)
        if not issued.editions:
            refused = tuple(f"{each.code}: {each.message}" for each in issued.findings)
            return Again(tools=tools, refused=refused)
        made, _ = read_release(workspace, set_key, release.version)
        assert made is not None, "it was just written"
        home = workspace / FOLDER / set_key / str(release.version)
        files = tuple(path for path, sha256 in sorted(release.record.files.items()) if _differs(home / path, sha256))
        return Again(files, tuple(_differences(release, made)), tools)


def _lay_out(root: Path, workspace: Path, set_key: str, version: Version) -> None:
    ours = root / FOLDER / set_key
    shutil.copytree(ours / str(version) / "inputs", workspace, dirs_exist_ok=True)
    for before in (each for each in list_versions(root, set_key) if each < version):
        shutil.copytree(ours / str(before), workspace / FOLDER / set_key / str(before))
    for advisory in read_advisories(root, set_key)[0]:
        if (workspace / FOLDER / set_key / advisory.version).is_dir():
            kept = workspace / FOLDER / set_key / "advisories"
            kept.mkdir(exist_ok=True)
            name = f"{advisory.number:03}.json"
            shutil.copyfile(ours / "advisories" / name, kept / name)


def _differs(path: Path, sha256: str) -> bool:
    return not path.is_file() or digest(path.read_bytes()) != sha256


def _differences(frozen: Release, made: Release) -> Iterator[Difference]:
    for edition, was in frozen.statements.items():
        now = made.statements.get(edition)
        if now is None:
            yield Difference(edition, "edition", edition, seen=True)
            continue
        comparison = compare_seen(was, now, partial(frozen.figure, edition), partial(made.figure, edition))
        seen = frozenset(comparison.told)
        for change in comparison.changes:
            yield Difference(edition, change.kind.value, change.id, seen=change in seen)


def _other_tools(release: Release) -> Iterator[str]:
    today = tool_versions()
    for name, then in sorted(release.record.tools.items()):
        if today.get(name) != then:
            yield f"{name} {then}, now {today.get(name, 'missing')}"
