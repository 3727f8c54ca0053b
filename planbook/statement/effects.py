"""What a supposed change moves in one edition: rules, fits, clearances along the travels, and printed dimensions."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum

from planbook.measure import MILLIMETRE, Units
from planbook.motion import Nearest, Travel
from planbook.motion.sweep import REACH
from planbook.statement.audit_findings import gap_text, length
from planbook.statement.model import DimensionStated, RuleStated
from planbook.statement.stated import Stated


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
        *_clearances(before.travels, now.travels, units),
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


def _clearances(before: Mapping[str, Travel], now: Mapping[str, Travel], units: Units) -> Iterator[Effect]:
    """The least gap of each pair that comes within reach in a travel, before or now."""
    far = f"over {length(REACH * MILLIMETRE, units)}"
    for name in dict.fromkeys((*before, *now)):
        old, new = (_nearest(each.get(name), units) for each in (before, now))
        for pair in dict.fromkeys((*old, *new)):
            if old.get(pair) != new.get(pair):
                yield Effect(Kind.CLEARANCE, f"{name}: {pair}", old.get(pair, far), new.get(pair, far))


def _nearest(travel: Travel | None, units: Units) -> dict[str, str]:
    every = travel.nearest if travel is not None else ()
    return {f"{each.one}, {each.other}": _gap(each, units) for each in every}


def _gap(nearest: Nearest, units: Units) -> str:
    """To a hundredth of a millimetre, as fine as it is found."""
    found = length(round(abs(nearest.gap), 2) * MILLIMETRE, units)
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
