"""Whether a set's pages would look as they did in a release that told the same."""

from __future__ import annotations

from pathlib import Path

from planbook.release.archive.record import Record, digest
from planbook.release.tools import tool_versions
from planbook.source import Door, Refused

_TEMPLATES = "inputs/templates/"


def looks_as_in(root: Path, record: Record) -> bool:
    """Whether the templates that the release was set with, and the programs that set it, are as they were.

    A template of which nothing is left to compare with counts as changed; so do other versions of the programs.
    """
    # A door of its own: what is only looked at here must not count among the inputs of the next release.
    door = Door(root)
    templates = {path: sha256 for path, sha256 in record.files.items() if path.startswith(_TEMPLATES)}
    try:
        return tool_versions() == record.tools and all(
            digest(door.read_bytes(path.removeprefix("inputs/"))) == sha256 for path, sha256 in templates.items()
        )
    except Refused:
        return False
