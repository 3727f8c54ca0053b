"""What find, trace and compare look into: a released version, or the content as it stands, as the same plain values."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from planbook.release.archive.reader import Release, list_versions, read_release
from planbook.release.compilation import Prepared, Told, compose_all, prepare, state_all
from planbook.release.gathering import settle
from planbook.release.history import DRAFT
from planbook.release.occasion import occasion_of
from planbook.release.version import Version, meant_version, read_version
from planbook.release.watching import Watcher
from planbook.source import Door, list_sets, load
from planbook.source.findings import Finding, Severity, stops
from planbook.source.names import listed, spelled_alike
from planbook.statement.model import Statement
from planbook.statement.places import Places


@dataclass(frozen=True)
class Working:
    """The content as it stands, stated; with its pages only where they were asked for."""

    door: Door
    """What it was read through."""
    prepared: Prepared
    told: Mapping[str, Told]
    places: Mapping[str, Places]

    @property
    def statements(self) -> Mapping[str, Statement]:
        """By edition."""
        return {edition: one.statement for edition, one in self.told.items()}

    def figure(self, edition: str, name: str) -> bytes | None:
        """A figure as it is drawn now, as SVG; None for a photograph, and for what no page shows."""
        return self.told[edition].figure(name)


def read_working(
    root: Path, set_key: str, watcher: Watcher, *, with_pages: bool
) -> tuple[Working | None, tuple[Finding, ...]]:
    """State the content as it stands in every edition; None when something stops it."""
    door = Door(root)
    prepared, findings = prepare(door, set_key, watcher)
    if prepared is None or stops(findings):
        return None, settle(findings)
    occasion, damaged = occasion_of(door.root, prepared.content)
    told, more = state_all(door, prepared, occasion, prepared.editions, watcher)
    findings += damaged + more
    places: dict[str, Places] = {}
    if with_pages and not stops(findings):
        compiled, more = compose_all(door, told, watcher, with_files=False)
        findings += more
        places = {edition: one.places for edition, one in compiled.items()}
    return (None if stops(findings) else Working(door, prepared, told, places)), settle(findings)


def read_named(root: Path, set_key: str, version: str) -> tuple[Release | None, tuple[Finding, ...]]:
    """The release that a person named; a finding with the versions that there are when it is not there."""
    wanted, findings = released_version(root, set_key, version)
    return read_release(root, set_key, wanted) if wanted else (None, findings)


def released_version(root: Path, set_key: str, version: str) -> tuple[Version | None, tuple[Finding, ...]]:
    """The number of a release that a person named; a finding with the versions that there are when it is not there."""
    known = list_versions(root, set_key)
    wanted = read_version(version)
    if wanted in known and wanted:
        return wanted, ()
    door = Door(root)
    if not known and set_key not in list_sets(door):
        return None, load(door, set_key)[1]
    message = f"There is no released version {version} of {set_key}."
    return None, (Finding("unknown-version", Severity.STOP, message, _released(set_key, version, known)),)


def _released(set_key: str, version: str, known: Sequence[Version]) -> str:
    """A remedy: the version that was surely meant, else those that there are."""
    if not known:
        return f"Release one first: `planbook release {set_key} 1.0`."
    if meant_version(version) in known:
        return f"Did you mean `{meant_version(version)}`?"
    stands = " Leave it out for the content as it stands." if version == DRAFT else ""
    return f"Released {'are' if len(known) > 1 else 'is'} {listed(map(str, known), 'and')}.{stands}"


def choose_edition(editions: Collection[str], wanted: str | None) -> tuple[Finding, ...]:
    """A finding when the edition that a person named is not among these."""
    if wanted is None or wanted in editions:
        return ()
    near = spelled_alike(wanted.lower(), editions)
    return (
        Finding(
            code="unknown-edition",
            severity=Severity.STOP,
            message=f"There is no edition `{wanted}`.",
            remedy=f"Did you mean {listed(near, 'or')}?" if near else f"Name {listed(editions, 'or')}.",
        ),
    )
