"""Why a release that compiled was not written."""

from __future__ import annotations

from pathlib import Path

from planbook.release.archive.reader import Release
from planbook.release.version import Version
from planbook.source.findings import Finding, Severity


def busy() -> Finding:
    """Another process holds the archive."""
    return _refusal("archive-busy", "Another release is being written in this workspace.", "Wait until it has ended.")


def moved_on(now: Release | None) -> Finding:
    """Another version was released while this one was compiled, so that its comparison is out of date."""
    latest = now.version if now else "none"
    return _refusal(
        "archive-moved-on",
        f"The archive changed while this version was compiled; its newest version is now {latest}.",
        "Look at what was released, then release again.",
    )


def taken(set_key: str, version: Version) -> Finding:
    """Something stands where the version would go."""
    return _refusal(
        "version-taken",
        f"versions/{set_key}/{version} is there already, and a released version is never overwritten.",
        "Release under the next number; or, if that folder is no release of yours, move it away.",
    )


def unwritten(fault: OSError) -> Finding:
    """The disk failed before the release was in its place."""
    return _refusal(
        "release-unwritten",
        f"The release could not be written: {fault.strerror or fault}.",
        "The archive is as it was. See to the disk and release again.",
    )


def unconfirmed(version: Version, fault: OSError) -> Finding:
    """The release is in its place, but the disk failed to say that it will stay there."""
    return _refusal(
        "release-unconfirmed",
        f"{version} is whole in the archive, but the disk did not confirm that it keeps it: {fault.strerror or fault}.",
        "See to the disk, and compare the archive with your backup.",
    )


def unwritable(what: str, folder: Path, fault: OSError) -> Finding:
    """A draft, or another thing that is no release, cannot be written where it was to go."""
    return _refusal(
        "folder-unwritable",
        f"The {what} cannot be written to {folder}; the system says: {fault.strerror}.",
        "Name a folder where you may write with --out, or make room in this one.",
    )


def _refusal(code: str, message: str, remedy: str) -> Finding:
    return Finding(code=code, severity=Severity.STOP, message=message, remedy=remedy)
