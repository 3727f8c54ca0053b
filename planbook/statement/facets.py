"""How things of a statement are compared: by facets, which are fields in groups with the words for a change of them."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from planbook.statement.comparison import Kind, Touch
from planbook.statement.extents import as_it_looked

T_contra = TypeVar("T_contra", contravariant=True)
_DIGITS = re.compile(r"\d+")
NOT_RECORDED = "not recorded"
"""What a release says of something that its file form did not hold yet."""
TOO_FINE = " (changed by less than these numbers show)"
"""Stands after the newer text of a shape that reads alike and is not the same, as far as anybody sees."""
REDRAWN = " (drawn anew)"
"""Stands after the newer text of a shape that has the same extents and visibly another form."""


@dataclass(frozen=True, slots=True)
class Facet(Generic[T_contra]):
    """A side of a thing: the fields that it speaks of and how it reads.

    With `leads`, a change of it makes those that `follows` go without saying. With `counts`, a change of words in
    which a digit changed touches a number. With `quiet`, one that reads alike is kept on record only. With `later`,
    releases before it was recorded have None: that reads as not recorded, and what is nothing now is no news. `shown`
    is what of it stands on a sheet: where that is the same, only tables read otherwise.
    """

    touch: Touch
    fields: tuple[str, ...]
    text: Callable[[T_contra], str]
    words: str = ""
    leads: bool = False
    follows: bool = False
    counts: bool = False
    quiet: bool = False
    later: bool = False
    shown: Callable[[T_contra], object] | None = None


@dataclass(frozen=True, slots=True)
class Thing(Generic[T_contra]):
    """A sort of thing: its facets, how one reads that is new or gone, which part it concerns, how much that touches."""

    kind: Kind
    facets: tuple[Facet[T_contra], ...]
    read: Callable[[T_contra], str]
    part_of: Callable[[T_contra], str] = lambda _: ""
    coming: Touch = Touch.TEXT


@dataclass(frozen=True, slots=True)
class Difference:
    """A facet that reads otherwise; `side` is what it is called, "" where the thing is named by itself."""

    touch: Touch
    fields: tuple[str, ...]
    side: str
    old: str
    new: str


def differences(facets: Iterable[Facet[T_contra]], old: T_contra, new: T_contra) -> Iterator[Difference]:
    """The facets in which two things differ, in order. Both texts of a difference are never the same."""
    led = False
    for facet in facets:
        before, after = ([getattr(each, name) for name in facet.fields] for each in (old, new))
        if before == after or (led and facet.follows):
            continue
        led = led or facet.leads
        if facet.later and None in (*before, *after):
            yield _unrecorded(facet, old, new, None in before)
            continue
        texts = facet.text(old) or "none", facet.text(new) or "none"
        touch = _touch(facet, old, new, texts)
        if texts[0] == texts[1]:
            touch = Touch.RECORD if facet.quiet else touch
            texts = _told_apart(facet, texts[0], before, after)
        yield Difference(touch, facet.fields, facet.words, *texts)


def _touch(facet: Facet[T_contra], old: T_contra, new: T_contra, texts: tuple[str, str]) -> Touch:
    if facet.shown is not None and facet.shown(old) == facet.shown(new):
        return Touch.TABLE
    return Touch.NUMBER if facet.counts and digits_differ(*texts) else facet.touch


def _unrecorded(facet: Facet[T_contra], old: T_contra, new: T_contra, was: bool) -> Difference:
    text = facet.text(new if was else old)
    texts = (NOT_RECORDED, text or "none") if was else (text or "none", NOT_RECORDED)
    return Difference(facet.touch if text else Touch.RECORD, facet.fields, facet.words, *texts)


def _told_apart(facet: Facet[T_contra], text: str, old: Sequence[object], new: Sequence[object]) -> tuple[str, str]:
    if facet.touch is Touch.SHAPE:
        return text, f"{text}{TOO_FINE if as_it_looked(old, new) else REDRAWN}"
    return f"{text} (exactly {_exact(old)})", f"{text} (exactly {_exact(new)})"


def digits_differ(old: str, new: str) -> bool:
    """Whether two texts state different numbers."""
    return _DIGITS.findall(old) != _DIGITS.findall(new)


def _exact(values: Iterable[object]) -> str:
    return ", ".join(str(value) for value in values)
