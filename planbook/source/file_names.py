"""What the names of content files say: the key by which content knows the file, and a number for its order."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from planbook.source.findings import Finding, Place, Related, Severity
from planbook.source.names import is_name, proposed_name

UNNUMBERED = 10_000


@dataclass(frozen=True, slots=True)
class Named:
    """A file by its name: `steps/20-long-slots.md` has number 20 and key `long_slots`."""

    path: str
    stem: str
    ending: str
    number: int

    @property
    def key(self) -> str:
        """The name in content, hyphens as underscores."""
        return self.stem.replace("-", "_")

    @property
    def place(self) -> Place:
        """The start of the file."""
        return Place(self.path, 1, 1)


def key_files(paths: Iterable[str], numbered: bool = False) -> tuple[dict[str, str], tuple[Finding, ...]]:
    """Paths by key, in order of their numbers and then names; a number leads the name only where files are numbered."""
    files = sorted((_named(path, numbered) for path in paths), key=lambda file: (file.number, file.path))
    keyed: dict[str, str] = {}
    findings: list[Finding] = []
    for file in files:
        if not is_name(file.key):
            findings.append(_bad_name(file))
        elif file.key in keyed:
            findings.append(_key_twice(file, keyed[file.key]))
        else:
            keyed[file.key] = file.path
    return keyed, tuple(findings)


def check_step_names(paths: Iterable[str]) -> tuple[Finding, ...]:
    """Findings for steps without a number, or with one that another step has."""
    files = sorted((_named(path, True) for path in paths), key=lambda file: (file.number, file.path))
    bare = [_no_number(file) for file in files if file.number == UNNUMBERED]
    twice = [_number_twice(one, other) for one, other in pairwise(files) if one.number == other.number != UNNUMBERED]
    return (*bare, *twice)


def _named(path: str, numbered: bool) -> Named:
    stem, _, ending = path.rsplit("/", 1)[-1].rpartition(".")
    match = re.match(r"([0-9]{1,4})-(?=.)", stem) if numbered else None
    if match is None:
        return Named(path, stem, ending, UNNUMBERED)
    return Named(path, stem[match.end() :], ending, int(match[1]))


def _bad_name(file: Named) -> Finding:
    proposed = proposed_name(file.stem).replace("_", "-")
    return Finding(
        "file-name",
        Severity.STOP,
        f"The file name `{file.stem}` gives no name that content can use.",
        f"Call it `{proposed}.{file.ending}`: a letter first, then lower-case letters, digits and hyphens.",
        file.place,
    )


def _key_twice(file: Named, first: str) -> Finding:
    return Finding(
        "file-name-twice",
        Severity.STOP,
        f"This file and `{first}` both give the name `{file.key}`.",
        "Rename one of them.",
        file.place,
        related=(Related(Place(first, 1, 1), "gives the name too"),),
    )


def _no_number(file: Named) -> Finding:
    return Finding(
        "step-number-missing",
        Severity.STOP,
        "The name of a step's file starts with its number, and this one does not.",
        f"Call it, for example, `10-{file.stem}.{file.ending}`.",
        file.place,
    )


def _number_twice(one: Named, other: Named) -> Finding:
    return Finding(
        "step-number-twice",
        Severity.STOP,
        f"Two steps have the number {one.number}.",
        "Rename one of the files; numbers may have gaps.",
        other.place,
        related=(Related(one.place, "has the number too"),),
    )
