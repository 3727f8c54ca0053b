"""By what names a reason may speak of a change: its own, and those of what it belongs to.

A step, a part and a group of measures may have the same name. So each name stands by itself and with the sort of thing
that bears it, `step:fork` and `parameter:fork`, and a reason may be about either.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from itertools import accumulate, chain
from typing import Final

from planbook.statement.calculations import CALCULATIONS
from planbook.statement.comparison import Change, Kind
from planbook.statement.stacks_told import STACKS

SORTS: Final = {
    "part": "a part",
    "step": "a step",
    "page": "a page",
    "parameter": "a group of named dimensions and rules",
    "figure": "a figure",
    "row": "a row of a list",
}
"""What stands before a colon in front of a name, with its words."""
_SORTED: Final = {Kind.PARAMETER: "parameter", Kind.RULE: "parameter", Kind.FIGURE: "figure"}
_FILE: Final = re.compile(r"(?:(?:.*/)?(?P<folder>[^/]+)/)?(?:\d+-)?(?P<name>[^/]*)\.md")
_FOLDERS: Final = {"pages": "page:", "steps": "step:"}
_MEASURED: Final = frozenset({CALCULATIONS, STACKS})
"""Lists whose rows are called by named dimensions."""
_OF_PARTS: Final = frozenset({"parts", "cutting"})
"""Lists whose rows are called by parts."""


def reason_name(about: str) -> str:
    """What a reason is about: a page or step by its key (`pages/02-how-to.md` is page:how_to), else as written."""
    if file := _FILE.fullmatch(about):
        about = f"{_FOLDERS.get(file['folder'] or '', '')}{file['name']}"
    return about.replace("-", "_")


def names_of(change: Change) -> tuple[str, ...]:
    """By what a reason may name a change, the closest first: its id, its feature or page, a row of a list, a group."""
    owner, _, last = change.id.rpartition("/")
    if change.kind is not Kind.LIST:
        sort = _SORTED.get(change.kind, "")
        return (*with_sort(change.id, sort), owner, *_in_groups(change.id, sort))
    sort = "parameter" if owner in _MEASURED else "part" if owner in _OF_PARTS else "row"
    # A row that is called by several things, as what pinches, is none of them.
    row = () if "/" in owner else (*with_sort(last, sort), *_in_groups(last, sort))
    return (change.id, owner, *row)


def with_sort(name: str, sort: str) -> tuple[str, ...]:
    """A name by itself and with the sort of thing that bears it; a name of no sort by itself."""
    return (f"{sort}:{name}", name) if sort and name else (name,)


def sorts_of(name: str, names: Iterable[str]) -> tuple[str, ...]:
    """The sorts of things that bear a name, among `names` of changes."""
    ends = (each.partition(":") for each in names)
    return tuple(dict.fromkeys(sort for sort, colon, bare in ends if colon and bare == name))


def _in_groups(name: str, sort: str) -> Iterator[str]:
    return chain.from_iterable(with_sort(each, sort) for each in groups_of(name))


def groups_of(name: str) -> tuple[str, ...]:
    """`wood.maple` and `wood` of the measure `wood.maple.along`."""
    return () if "/" in name else tuple(accumulate(name.split(".")[:-1], "{}.{}".format))[::-1]
