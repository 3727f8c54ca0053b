"""Files in a plan set's folder that nothing reads, most likely because their name is misspelt."""

from __future__ import annotations

from planbook.source.door import Door
from planbook.source.findings import Finding, Place, Severity
from planbook.source.forms import SET_FILES, SET_FOLDERS
from planbook.source.names import spelled_alike

YAML_ENDINGS = (".yaml", ".yml")


def find_strays(door: Door, folder: str) -> tuple[Finding, ...]:
    """A warning for each YAML file with an unknown name, and each file with a wrong ending in a folder of content."""
    known = {f"{name}.yaml" for name in (*SET_FILES, "parameters")}
    strays = [
        _stray(path, spelled_alike(name, known, 1))
        for path in door.list_files(folder)
        if (name := path.rsplit("/", 1)[-1]).endswith(YAML_ENDINGS) and name not in known
    ]
    for inner, ending in SET_FOLDERS.items():
        for path in door.list_files(f"{folder}/{inner}"):
            name = path.rsplit("/", 1)[-1]
            if not name.endswith(ending):
                strays.append(_stray(path, (f"{name.rsplit('.', 1)[0]}{ending}",)))
    return tuple(strays)


def _stray(path: str, near: tuple[str, ...]) -> Finding:
    remedy = f"Did you mean `{near[0]}`?" if near else "Delete it, or move it elsewhere."
    return Finding(
        "file-stray",
        Severity.WARN,
        f"`{path}` is not read: no file of a plan set has this name.",
        remedy,
        Place(path, 1, 1),
    )
