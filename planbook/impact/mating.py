"""Parts that are as they were, and meet one that is not: by a fit, or because they are drilled or marked together."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from planbook.impact.limits import TOGETHER
from planbook.impact.model import Impact, PartImpact
from planbook.statement.model import PartStated, Statement

_BORDERS = ("blank", "outline")
_AS_IT_WAS = (Impact.UNCHANGED, Impact.REPRINT)
_OTHERWISE = (Impact.CHECK, Impact.REWORK, Impact.RECUT)


def with_mates(parts: Iterable[PartImpact], old: Statement, new: Statement) -> tuple[PartImpact, ...]:
    """The same, and those whose mate is not as it was: check the fit."""
    every = tuple(parts)
    meeting = _meetings(every, old, new)
    return tuple(_checked(each, meeting.get(each.key, ())) for each in every)


def _checked(part: PartImpact, mates: Iterable[PartImpact]) -> PartImpact:
    if part.impact not in _AS_IT_WAS or not mates:
        return part
    named = sorted({(each.number, each.key, each.title) for each in mates})
    told = [f"part {number} ({title[:1].lower()}{title[1:]})" for number, _, title in named]
    listed = " and ".join(filter(None, (", ".join(told[:-1]), told[-1])))
    because = f"try it with {listed}, which {'have' if len(told) > 1 else 'has'} changed"
    return replace(part, impact=Impact.CHECK, because=because, mates=tuple(key for _, key, _ in named))


def _meetings(parts: tuple[PartImpact, ...], old: Statement, new: Statement) -> Mapping[str, list[PartImpact]]:
    """By part: those that it meets and that are not as they were."""
    otherwise = {each.key: each for each in parts if each.impact in _OTHERWISE}
    meeting: dict[str, list[PartImpact]] = {}
    for fit in (new.fits or old.fits or {}).values():
        members = dict.fromkeys(name.split("/")[0] for name in fit.dimensions)
        moved = [otherwise[key] for key in members if key in otherwise and _in(fit.dimensions, otherwise[key])]
        for key in members:
            meeting.setdefault(key, []).extend(each for each in moved if each.key != key)
    for key, others in _together(new.parts).items():
        meeting.setdefault(key, []).extend(otherwise[other] for other in others if _is_bored(otherwise.get(other)))
    return meeting


def _in(dimensions: Iterable[str], part: PartImpact) -> bool:
    """Whether one of the dimensions of a fit is one that the part may not meet."""
    return not set(part.dimensions).isdisjoint(dimensions)


def _is_bored(part: PartImpact | None) -> bool:
    """Whether a feature of it is not as it was, and not only its blank or its outline."""
    return part is not None and any(name.split("/")[1].partition(".")[0] not in _BORDERS for name in part.dimensions)


def _together(parts: Mapping[str, PartStated]) -> Mapping[str, set[str]]:
    """By part: those that it is drilled with or marked from, and those that are with it."""
    keys = {part.number: key for key, part in parts.items()}
    pairs: dict[str, set[str]] = {}
    for key, part in parts.items():
        for feature in part.features.values():
            for found in TOGETHER.finditer(feature.method):
                if (other := keys.get(int(found["number"]))) is not None:
                    pairs.setdefault(key, set()).add(other)
                    pairs.setdefault(other, set()).add(key)
    return pairs
