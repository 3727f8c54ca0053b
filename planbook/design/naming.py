"""Names: which may be given, and which real ones are nearest to a mistyped one."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from difflib import get_close_matches

from planbook.design.faults import Fault
from planbook.source.findings import Finding, Related
from planbook.source.text import Text

RESERVED_ROOTS = frozenset(
    {
        "part",
        "sheet",
        "figure",
        "table",
        "caution",
        "page",
        "step",
        "dim",
        "see",
        "stock",
        "hardware",
        "phase",
        "tally",
        "handbook",
        "mass",
    }
)
"""First words that pages and formulas use for something else."""

_NAME = re.compile(r"[A-Za-z_À-ÖØ-öø-ÿ][A-Za-z0-9_À-ÖØ-öø-ÿ]*(\.[A-Za-z0-9_À-ÖØ-öø-ÿ]+)*")
_NEAREST = 3


def nearest(name: str, names: Iterable[str]) -> tuple[str, ...]:
    """Up to three real names that `name` may stand for: members of a group, the same last word, or much alike."""
    known = list(names)
    group = [other for other in known if other.startswith(f"{name}.")]
    last = name.rpartition(".")[2]
    alike = get_close_matches(name, known, _NEAREST, 0.7)
    same_last = [other for other in known if other.rpartition(".")[2] == last]
    near_last = get_close_matches(name, same_last, _NEAREST, 0.4)
    return tuple(dict.fromkeys([*group, *alike, *near_last]))[:_NEAREST]


def check_names(names: Iterable[Text], taken: Iterable[str]) -> tuple[Finding, ...]:
    """Names of parameters that cannot be used. `taken` are words of the formula language: units and functions."""
    listed = list(names)
    leaves = {str(name): name for name in listed}
    words = set(taken)
    return tuple(fault.found_in(name) for name in listed for fault in _faults_of(name, leaves, words))


def _faults_of(name: Text, leaves: dict[str, Text], taken: set[str]) -> Iterator[Fault]:
    root = name.partition(".")[0]
    if not _NAME.fullmatch(name):
        mended = re.sub(r"[^\w.]+", "_", name)
        remedy = f"Use letters, digits and underscores: `{mended}`."
        yield Fault("bad-name", 0, f"`{name}` cannot be used in a formula.", remedy)
    elif root in RESERVED_ROOTS:
        message = f"`{name}` hides the names that begin with `{root}.`, which mean something else."
        yield Fault("reserved-name", 0, message, f"Choose another first word, such as `{root}_{_rest(name)}`.")
    elif name in taken:
        yield Fault("reserved-name", 0, f"`{name}` is a unit or a function.", f"Choose another, such as `the_{name}`.")
    for group in _groups(name):
        if group in leaves:
            related = (Related(leaves[group].place, f"`{group}` is a value here"),)
            message = f"`{group}` is both a value and the group of `{name}`."
            yield Fault("name-collides", 0, message, f"Rename the value `{group}`.", related)


def _rest(name: str) -> str:
    return name.partition(".")[2] or "own"


def _groups(name: str) -> Iterator[str]:
    words = name.split(".")
    return (".".join(words[:count]) for count in range(1, len(words)))
