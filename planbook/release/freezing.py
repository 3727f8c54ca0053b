"""All files of a release, as bytes by path: what was published, what it told, what it was made from."""

from __future__ import annotations

from collections.abc import Mapping

from planbook.release.archive import prints
from planbook.release.archive.reader import Release
from planbook.release.archive.record import Previous, Record, digest, write_record
from planbook.release.changelog import write_changelog
from planbook.release.compilation import Compiled
from planbook.release.tools import tool_versions
from planbook.source import Door
from planbook.source.models.changes import VersionNotesModel
from planbook.statement.files import write_places, write_statement

FONTS = "fonts/"


def freeze(
    door: Door,
    set_key: str,
    compiled: Mapping[str, Compiled],
    former: Release | None,
    notes: VersionNotesModel,
    dropped: Mapping[str, bytes],
) -> Mapping[str, bytes]:
    """The files of one release. The door's log says what was read; a file read twice is the same both times.

    `dropped` are notices of editions that it has no longer, by path.
    """
    version = next(iter(compiled.values())).statement.version
    told = {edition: one.told for edition, one in compiled.items()}
    log = write_changelog(told, former, notes)
    files = {"CHANGES.md": log.encode(), **_inputs(door), **_editions(set_key, version, compiled), **dropped}
    record = Record(
        set=set_key,
        version=version,
        issued=notes.issued.isoformat(),
        editions=tuple(compiled),
        files={path: digest(data) for path, data in files.items()},
        fonts={path: sha256 for path, sha256 in door.log.items() if path.startswith(FONTS)},
        tools=tool_versions(),
        previous=Previous(str(former.version), former.record_hash) if former else None,
    )
    return {**files, "record.json": write_record(record)}


def pdf_path(set_key: str, edition: str, version: str) -> str:
    """Where a release keeps an edition's PDF."""
    return f"{edition}/{set_key}-{edition}-{version}.pdf"


def _inputs(door: Door) -> dict[str, bytes]:
    """Content, shared tables and templates as they were read; fonts are kept by hash only."""
    return {f"inputs/{path}": door.read_bytes(path) for path in door.log if not path.startswith(FONTS)}


def _editions(set_key: str, version: str, compiled: Mapping[str, Compiled]) -> dict[str, bytes]:
    files: dict[str, bytes] = {}
    for edition, one in compiled.items():
        files[f"{edition}/statement.json"] = write_statement(one.statement)
        files[f"{edition}/places.json"] = write_places(one.places)
        files[f"{edition}/{prints.FILE}"] = prints.write_prints(one.statement, one.places)
        files[pdf_path(set_key, edition, version)] = one.pdf
        files |= {f"{edition}/{path}": data for path, data in one.files.items()}
    return files
