"""From changes to the lines of a change log: several changes that say one thing are told in one breath."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from itertools import chain
from typing import Final

from planbook.design.entries import MASS, TALLY
from planbook.source.names import in_row
from planbook.statement.calculations import CALCULATIONS, RESULT
from planbook.statement.changes_following import PARTS, Following, several
from planbook.statement.changes_names import names_of, with_sort
from planbook.statement.changes_telling import is_working
from planbook.statement.changes_words import Titles, describe, redrawn_figures, renumbered_figures
from planbook.statement.compare import LATER
from planbook.statement.comparison import Change, Kind
from planbook.statement.stacks_told import STACKS
from planbook.statement.things import PICTURE
from planbook.statement.wording import Wording

_LONG = 8
"""Changes to the text of one page or step that are still told one by one."""
_REWRITTEN, _NEW, _GONE, _WORKED = "rewritten", "new", "gone", "worked"
NUMBERS = "numbers"
"""How ids of lines begin that tell of texts in which only numbers are others."""
_REDRAWN, _MOVED, _FOLLOWS = "redrawn", "moved", "follows"
_ALONE = ("", "")
_COMING = frozenset({_NEW, _GONE, _MOVED, _FOLLOWS})
"""What is told by itself when there is but one."""
_FOLLOWING = frozenset({_WORKED, NUMBERS, _REDRAWN, _MOVED})
_FIGURES = frozenset({_REDRAWN, _MOVED})
"""What only follows from other changes."""

_NUMBERED = (Kind.FIGURE, "figure")
"""The number of a figure."""
_WORKED_OUT: Final = LATER | {"materials", STACKS}
"""Lists that planbook works out by itself."""
_PLACING: Final = frozenset(
    {(Kind.STEP, "step"), _NUMBERED, (Kind.FIGURE, "version shown")}
    | {(Kind.DIMENSION, "drawn as"), (Kind.FIT, "gap"), (Kind.FIT, "made of")}
)
"""What moves when something else comes or goes."""


@dataclass(frozen=True, slots=True)
class Line:
    """One change by its stable id, or several that are told together, and the names by which a reason may speak of it.

    `asks` says whether the author has to say why: what follows from other changes goes by their reasons. `grave` says
    whether a builder may have to rework something for it.
    """

    id: str
    what: Wording
    names: tuple[str, ...] = ()
    changes: tuple[Change, ...] = ()
    asks: bool = True

    @property
    def grave(self) -> bool:
        """Whether a builder may have to rework something for it."""
        return any(change.grave for change in self.changes)


def lines_of(
    changes: Sequence[Change],
    titles: Titles,
    about: str,
    given: AbstractSet[str],
    *,
    follow: bool,
    following: Following | None = None,
) -> Iterator[Line]:
    """The lines under one heading, whose own name is `about`; what has a reason of its own (`given`) is told alone.

    With `follow`, texts in which only numbers differ are told once, and not quoted. With `following`, what merely
    follows from other changes is told in one line for each cause.
    """
    names = heading_names(about, titles)
    sort = _Sorting(titles, about, given, follow, _rewritten(changes, titles, about, given), following)
    gathered: dict[tuple[str, str], list[Change]] = {}
    for change in changes:
        gathered.setdefault(sort.of(change), []).append(change)
    alone = gathered.pop(_ALONE, [])
    for key in [key for key, those in gathered.items() if key[0] in _COMING and not several(those)]:
        alone += gathered.pop(key)
    for key in [key for key in gathered if key[0] == _REWRITTEN]:
        yield _together(key, gathered.pop(key), titles, about, names)
    for change in sorted(alone, key=changes.index):
        side = f"/{change.side}" if change.side else ""
        yield Line(
            f"{change.kind}/{change.id}{side}",
            describe(change, titles),
            (*names_of(change), *names),
            (change,),
            _asks(change),
        )
    for key in [key for key in gathered if key[0] == _FOLLOWS]:
        those = gathered.pop(key)
        if following is not None:
            yield _that_follow(those, key[1], following)
    for key in sorted(gathered, key=lambda key: [*_TELLING].index(key[0])):
        yield _together(key, gathered[key], titles, about, names)


def _that_follow(changes: Sequence[Change], cause: str, following: Following) -> Line:
    """A reason is not given here again: it stands with the cause."""
    first = changes[0]
    where = first.id.partition("/")[0] if first.kind is Kind.LIST else str(first.kind)
    asks = first.kind is Kind.PARAMETER and cause != PARTS
    return Line(f"{_FOLLOWS}/{where}/{cause}", following.tell(changes, cause), (), tuple(changes), asks)


def heading_names(about: str, titles: Titles) -> tuple[str, ...]:
    """By what a reason may speak of all that stands under a heading; `about` is its own name, "" for none."""
    sides = (titles.old, titles.new)
    if any(about in side.parts for side in sides):
        return with_sort(about, "part")
    return with_sort(about, "step" if any(step.key == about for side in sides for step in side.steps) else "page")


def _together(
    key: tuple[str, str], changes: Sequence[Change], titles: Titles, about: str, heading: tuple[str, ...]
) -> Line:
    names = tuple(dict.fromkeys(chain(*map(names_of, changes))))
    sort, why = key
    where = "/".join(filter(None, ("figures" if sort in _FIGURES else about, why)))
    wording = _TELLING[sort](changes, titles)
    return Line(f"{sort}/{where}", wording, (*names, *heading), tuple(changes), sort not in _FOLLOWING)


@dataclass(frozen=True)
class _Sorting:
    """Which changes are told together."""

    titles: Titles
    about: str
    given: AbstractSet[str]
    follow: bool
    rewritten: frozenset[Change]
    following: Following | None

    def of(self, change: Change) -> tuple[str, str]:
        """What a change is told with: the sort, and the name of the reason where each has its own."""
        cause = self.following.cause(change) if self.following is not None else ""
        return (_FOLLOWS, cause) if cause else self._by_itself(change)

    def _by_itself(self, change: Change) -> tuple[str, str]:
        if change in self.rewritten:
            return _REWRITTEN, ""
        if (
            self.follow
            and change.kind is Kind.PROSE
            and change.old
            and _no_digits(change.old) == _no_digits(change.new)
        ):
            return NUMBERS, ""
        if change.side == PICTURE and self.given.isdisjoint(names_of(change)):
            return _REDRAWN, ""
        if (change.kind, change.side) == _NUMBERED and "0" not in (change.old, change.new):
            return _MOVED, ""
        if change.kind is Kind.PARAMETER and not (change.old and change.new):
            why = next((name for name in names_of(change) if name in self.given), "")
            return (_NEW if change.new else _GONE), why
        return (_WORKED, "") if is_working(change) else _ALONE


def _rewritten(changes: Sequence[Change], titles: Titles, about: str, given: AbstractSet[str]) -> frozenset[Change]:
    """The changes to a text of which more than half has changed, in many places; none with a reason of its own."""
    prose = [each for each in changes if each.kind is Kind.PROSE and given.isdisjoint(names_of(each))]
    blocks = max(sum(block.page == about for block in side.blocks) for side in (titles.old, titles.new))
    return frozenset(prose if len(prose) > max(_LONG, blocks / 2) else ())


def _asks(change: Change) -> bool:
    """Whether a change that is told alone may want a reason of its own."""
    if change.kind is Kind.LIST:
        return change.id.partition("/")[0] not in _WORKED_OUT and not (
            change.id.startswith(f"{CALCULATIONS}/") and change.side == RESULT
        )
    weighed = change.kind is Kind.PARAMETER and change.id.startswith((MASS, TALLY))
    return (change.kind, change.side) not in _PLACING and not weighed


def _alike(change: Change) -> bool:
    """Whether only numbers in a text are others."""
    return _no_digits(change.old) == _no_digits(change.new)


def _no_digits(text: str) -> str:
    return re.sub(r"[\d./ ]+", "#", text)


def _tell_new(changes: Sequence[Change], _: Titles) -> Wording:
    return Wording("New in the table of dimensions", new=in_row([change.id for change in changes], "and"))


def _tell_gone(changes: Sequence[Change], _: Titles) -> Wording:
    return Wording("No longer in the table of dimensions", new=in_row([change.id for change in changes], "and"))


def _tell_worked(changes: Sequence[Change], titles: Titles) -> Wording:
    rows = dict.fromkeys(change.id for change in changes)
    return Wording("Worked again with the changed numbers", new=in_row([titles.row(name) for name in rows], "and"))


def _tell_redrawn(changes: Sequence[Change], titles: Titles) -> Wording:
    return redrawn_figures(dict.fromkeys(change.id for change in changes), titles)


_TELLING: Final[Mapping[str, Callable[[Sequence[Change], Titles], Wording]]] = {
    _REWRITTEN: lambda *_: Wording("Written anew; please read it again"),
    _NEW: _tell_new,
    _GONE: _tell_gone,
    _WORKED: _tell_worked,
    NUMBERS: lambda *_: Wording("Numbers in the text follow the changes above"),
    _REDRAWN: _tell_redrawn,
    _MOVED: lambda changes, titles: renumbered_figures([change.id for change in changes], titles),
}
"""In the order in which they stand, after what is told alone; what was written anew stands before that."""
