"""Names: the form they may have, and which known names are spelled like one that is not known."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable, Sequence

NAME = r"[a-z][a-z0-9_]*"
"""A name: lower-case letters, digits and underscores, a letter first, so that formulas can use it."""
DOTTED_NAME = rf"{NAME}(\.{NAME})*"
VERSION = r"(0|[1-9][0-9]{0,5})\.(0|[1-9][0-9]{0,5})"
"""Two whole numbers with a dot between: 1.0, 2.11."""
DURATION = r"[1-9][0-9]*( to [1-9][0-9]*)? (s|min|h)"
"""A time or a range of times in one unit: seconds, minutes or hours, by the signs of the SI."""
SHEET = r"[1-9][0-9]*[a-z]?"
VIEW_AXIS = "(face|back)/[xy]|(left_end|right_end)/[yz]|(front_edge|rear_edge)/[xz]"
"""A view of a part and an axis that it shows."""
LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
"""Of sections and details; I and O are left out: they look like 1 and 0."""
LETTER = f"[{LETTERS}]"
DETAILED = f"face|back|left_end|right_end|front_edge|rear_edge|{LETTER}"
"""A view of a part, or the letter of one of its sections."""
RATIO = "[1-9][0-9]?:[1-9][0-9]?"
"""A scale, paper to part."""
DIMENSION = rf"{DOTTED_NAME}/{NAME}(/{NAME})?"
"""A dimension of one part: feature (`outline.<corner>` too), measure, and perhaps the feature it is taken from."""


def sheet_order(number: str) -> tuple[int, str]:
    """Sorts sheets 12, 12a, 13."""
    letters = number.lstrip("0123456789")
    return int(number.removesuffix(letters)), letters


def is_name(text: str) -> bool:
    """Whether the text is a plain name."""
    return re.fullmatch(NAME, text) is not None


def proposed_name(text: str) -> str:
    """The text turned into a name: `Ramp-Bar 2` gives `ramp_bar_2`."""
    lower = re.sub(r"[^a-z0-9]+", "_", text.lower()).strip("_")
    return lower if is_name(lower) else f"n_{lower}".rstrip("_")


def spelled_alike(name: str, names: Iterable[str], most: int = 3, least: float = 0.6) -> tuple[str, ...]:
    """At most `most` of the names that are spelled much like `name`, likest first; from `least` likeness on, of 1."""
    return tuple(difflib.get_close_matches(name, sorted(set(map(str, names))), n=most, cutoff=least))


def choice_remedy(name: str, names: Iterable[str], where: str) -> str:
    """A remedy for an unknown name: the nearest ones, or else some of those there are; `where` says whose names."""
    known = sorted(set(map(str, names)))
    if near := spelled_alike(name, known):
        return f"Did you mean {listed(near, 'or')}?"
    if not known:
        return f"There are no names in {where} yet."
    shown = ", ".join(f"`{each}`" for each in known[:12])
    return f"Names in {where}: {shown}{', ...' if len(known) > 12 else ''}."


def listed(names: Iterable[str], last: str) -> str:
    """`a`, `b` or `c`: the names in back quotes, with `last` before the last one."""
    return in_row([f"`{name}`" for name in names], last)


def in_row(words: Sequence[str], last: str) -> str:
    """a, b or c: with `last` before the last one."""
    return f"{', '.join(words[:-1])} {last} {words[-1]}" if len(words) > 1 else "".join(words)
