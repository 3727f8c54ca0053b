"""A new workspace: the packaged small plan set with the shared tables, ready to compile."""

from __future__ import annotations

import shutil
from pathlib import Path

from planbook.source import packaged_defaults

FIRST_SET = "tool-tote"
_FIRST_NOTES = """\
# What you say about each version; planbook works out by itself what changed.
"1.0":
  issued: {issued}
  summary: The first edition of the plan.
"""


def start_workspace(folder: Path) -> str:
    """Make a workspace in a folder that is missing or empty; returns the key of its plan set.

    Raises FileExistsError when something is there, OSError when it cannot be written.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise FileExistsError(17, "not an empty folder", str(folder))
    packaged = packaged_defaults()
    unseen = shutil.ignore_patterns(".*")
    shutil.copytree(packaged / "shared", folder / "shared", ignore=unseen, dirs_exist_ok=True)
    home = folder / "content" / FIRST_SET
    shutil.copytree(packaged / "content" / FIRST_SET, home, ignore=unseen)
    # The packaged set has a history of its own; a new workspace begins with its first version.
    issued = _issue_date((home / "set.yaml").read_text(encoding="utf-8"))
    (home / "changes.yaml").write_text(_FIRST_NOTES.format(issued=issued), encoding="utf-8")
    return FIRST_SET


def _issue_date(set_yaml: str) -> str:
    """The date on the line `issued: 2026-03-02` of a set.yaml."""
    line = next(line for line in set_yaml.splitlines() if line.startswith("issued:"))
    return line.split()[1]
