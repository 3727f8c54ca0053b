"""Loading a plan set: every file of its folder, through the door, to one `Content`."""

from __future__ import annotations

import re

from planbook.source.content import Content
from planbook.source.door import Door, Refused
from planbook.source.expected import whole_file
from planbook.source.findings import Finding, Place, Severity, stops
from planbook.source.forms import SET, SET_FILE_NAMES
from planbook.source.names import choice_remedy, proposed_name, spelled_alike
from planbook.source.reading import Reading
from planbook.source.references import check_references
from planbook.source.strays import find_strays
from planbook.source.translating import check_translations

CONTENT = "content"
SET_NAME = r"[a-z][a-z0-9-]*"
"""The set's folder names its published files too, on any system."""


def list_sets(door: Door) -> tuple[str, ...]:
    """Keys of the plan sets: the folders of content/ that hold a set.yaml, sorted."""
    return tuple(
        folder.rsplit("/", 1)[-1] for folder in door.list_folders(CONTENT) if door.exists(f"{folder}/set.yaml")
    )


def load(door: Door, set_key: str) -> tuple[Content | None, tuple[Finding, ...]]:
    """The content of a plan set, all its names resolved, or None and everything that is wrong with it.

    Names that lead from one file to another are checked once all files can be read: a name that is missing because
    its file is broken is no fault of the file that uses it.
    """
    try:
        sets = list_sets(door)
        if set_key not in sets:
            return None, (_no_set_file(door, set_key) or _unknown_set(set_key, sets),)
        if not re.fullmatch(SET_NAME, set_key):
            return None, (_bad_set_name(set_key),)
        reading = Reading(door, set_key)
        content = reading.read_content()
        findings = (*reading.findings, *find_strays(door, f"{CONTENT}/{set_key}"))
        if content is not None and not stops(findings):
            findings += (*check_references(content, door), *check_translations(content))
    except Refused as refused:
        return None, (refused.finding,)
    return (None if stops(findings) else content), findings


def _no_set_file(door: Door, set_key: str) -> Finding | None:
    """For a folder of content without the file that makes it a plan set."""
    folder = f"{CONTENT}/{set_key}"
    if folder not in door.list_folders(CONTENT):
        return None
    names = {path.rsplit("/", 1)[-1] for path in door.list_files(folder)}
    near = spelled_alike("set.yaml", names - SET_FILE_NAMES, 1)
    write = f"Write it, {whole_file(SET)}; `planbook start DIR` makes one to copy from."
    return Finding(
        "file-missing",
        Severity.STOP,
        f"The folder `{folder}` has no set.yaml, which says what the plan set is and in which editions it is sold.",
        f"Rename `{near[0]}` to `set.yaml`." if near else write,
        Place(f"{folder}/set.yaml", 1, 1),
    )


def _unknown_set(set_key: str, sets: tuple[str, ...]) -> Finding:
    none = f"There is none in {CONTENT}/ yet; `planbook start DIR` makes a workspace with one that compiles."
    return Finding(
        "set-unknown",
        Severity.STOP,
        f"There is no plan set `{set_key}`.",
        choice_remedy(set_key, sets, f"{CONTENT}/") if sets else none,
        Place(f"{CONTENT}/{set_key}/set.yaml", 1, 1),
    )


def _bad_set_name(set_key: str) -> Finding:
    return Finding(
        "set-name",
        Severity.STOP,
        f"`{set_key}` cannot name a plan set: its folder names the published files.",
        f"Rename the folder to `{proposed_name(set_key).replace('_', '-')}`: lower-case letters, digits and hyphens.",
        Place(f"{CONTENT}/{set_key}/set.yaml", 1, 1),
    )
