"""What a supposed change moves in one edition: rules, fits, clearances along the travels, and printed dimensions."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from planbook.measure import CALIPER_TOLERANCE, MILLIMETRE, Units
from planbook.motion import Nearest, Travel
from planbook.motion.sweep import REACH
from planbook.source.text import Text
from planbook.statement.audit_findings import gap_text, length
from planbook.statement.model import DimensionStated, RuleStated
from planbook.statement.stated import Stated

_DECIMALS: Final = 2
"""Of a millimetre: as fine as a least gap is found."""


class Kind(StrEnum):
    """In the order in which they are told."""

    RULE = "rule"
    FIT = "fit"
    CLEARANCE = "clearance"
    DIMENSION = "dimension"


class Turn(StrEnum):
    """What became of a demand."""

    BROKEN = "broken"
    MENDED = "mended"
    MOVED = "moved"


@dataclass(frozen=True, slots=True)
class Effect:
    """One thing that moved, as printed before and now; "" where there is none. `part` is the key of a dimension's."""

    kind: Kind
    id: str
    old: str
    new: str
    turn: Turn = Turn.MOVED
    part: str = ""


def effects(before: Stated, now: Stated) -> tuple[Effect, ...]:
    """All that moved, of one edition stated as content has it and stated with the change."""
    units = Units(now.statement.edition.units)
    return (
        *_rules(before.statement.rules, now.statement.rules),
        *_fits(before, now, units),
        *_clearances(before, now, units),
        *_dimensions(before.statement.dimensions, now.statement.dimensions),
    )


def _rules(before: Mapping[str, RuleStated], now: Mapping[str, RuleStated]) -> Iterator[Effect]:
    """Those that newly fail or newly hold, then those that do as before, by another margin."""
    for name, rule in now.items():
        former = before.get(name, rule)
        if former.holds != rule.holds:
            yield Effect(Kind.RULE, name, former.stated, rule.stated, _turn(rule.holds))
    for name, rule in now.items():
        former = before.get(name, rule)
        if former.holds == rule.holds and former.stated != rule.stated:
            yield Effect(Kind.RULE, name, former.stated, rule.stated)


def _turn(holds: bool) -> Turn:
    return Turn.MENDED if holds else Turn.BROKEN


def _fits(before: Stated, now: Stated, units: Units) -> Iterator[Effect]:
    former = {audited.fit.name: audited for audited in before.audit.fits}
    for audited in now.audit.fits:
        name = audited.fit.name
        old, new = (gap_text(each.gap, units) for each in (former.get(name, audited), audited))
        turned = name in former and former[name].holds != audited.holds
        if turned or old != new:
            yield Effect(Kind.FIT, name, old, new, _turn(audited.holds) if turned else Turn.MOVED)


def _clearances(before: Stated, now: Stated, units: Units) -> Iterator[Effect]:
    """The least gap of each pair that comes within reach in a travel, before or now: where it changes by what caliper
    work is good for, or turns a rule.
    """
    far = f"over {length(REACH * MILLIMETRE, units)}"
    turned = {_asked(now, name) for name in now.statement.rules if _turns(before, now, name)}
    for name in dict.fromkeys((*before.travels, *now.travels)):
        old, new = (_nearest(each.travels.get(name)) for each in (before, now))
        for pair in dict.fromkeys((*old, *new)):
            was, becomes = (each[pair].gap if pair in each else REACH for each in (old, new))
            seen = round(abs(becomes - was), _DECIMALS) * MILLIMETRE >= CALIPER_TOLERANCE[units]
            if seen or (name, frozenset(pair)) in turned:
                former, present = (_gap(each[pair], units) if pair in each else far for each in (old, new))
                yield Effect(Kind.CLEARANCE, f"{name}: {', '.join(pair)}", former, present)


def _turns(before: Stated, now: Stated, rule: str) -> bool:
    former = before.statement.rules.get(rule)
    return former is not None and former.holds != now.statement.rules[rule].holds


def _asked(stated: Stated, rule: str) -> tuple[str, frozenset[str]] | None:
    """The travel and the two components of a rule that asks a clearance."""
    model = stated.content.rules[Text(rule)]
    return None if model.clearance is None else (str(model.over), frozenset(map(str, model.clearance.between)))


def _nearest(travel: Travel | None) -> dict[tuple[str, str], Nearest]:
    every = travel.nearest if travel is not None else ()
    return {(each.one, each.other): each for each in every}


def _gap(nearest: Nearest, units: Units) -> str:
    """To a hundredth of a millimetre, as fine as it is found."""
    found = length(round(abs(nearest.gap), _DECIMALS) * MILLIMETRE, units)
    return f"{found} into one another" if nearest.gap < 0 else found


def _dimensions(before: Mapping[str, DimensionStated], now: Mapping[str, DimensionStated]) -> Iterator[Effect]:
    """By part, as each sheet prints them."""
    for name in dict.fromkeys((*before, *now)):
        old, new = (_printed(each.get(name)) for each in (before, now))
        if old != new:
            part = (now.get(name) or before[name]).part
            yield Effect(Kind.DIMENSION, name, old, new, part=part)


def _printed(stated: DimensionStated | None) -> str:
    if stated is None:
        return ""
    space = "" if stated.printed.unit in ("", "°") else " "
    text = f"{stated.printed.text}{space}{stated.printed.unit}"
    return f"{text} {stated.tolerance}" if stated.tolerance else text
