"""Honest version numbers: a new first number when a builder may have to rework, recut or buy, the second otherwise."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from planbook.impact import ORDER, Impact, say_part
from planbook.release.across import PartAcross, parts_across
from planbook.release.since import Since
from planbook.release.version import Version
from planbook.source.findings import Finding, Severity

Compared = Mapping[str, Since | None]
"""By edition; None for one that is new, or no longer made."""
_PARTS = 3
"""So many parts are named; of the others it is said how many they are."""
_VERBS: Mapping[Impact, str] = {
    Impact.RECUT: "recut",
    Impact.REWORK: "rework",
    Impact.CHECK: "measure",
    Impact.NEW: "make",
    Impact.WITHDRAWN: "do without",
    Impact.REPRINT: "make more of",
    Impact.UNCHANGED: "make more of",
}


@dataclass(frozen=True, slots=True)
class Due:
    """The one number that may follow a release, and why, as the rest of a sentence; None when nothing changed."""

    version: Version | None
    why: str


def number_due(former: Version, compared: Compared, *, same_look: bool) -> Due:
    """What follows `former`. `same_look` says whether what is told is set as it was."""
    since = {edition: each for edition, each in compared.items() if each is not None}
    if any(each.impact.asks for each in since.values()):
        return Due(former.next_major(), _why_major(former, since))
    nothing = f"no builder of {former} has to rework, recut or buy anything"
    if len(since) < len(compared):
        return Due(former.next_minor(), f"{nothing}; only which editions there are changed")
    if any(each.comparison.told for each in since.values()):
        return Due(former.next_minor(), f"{nothing}; what changed is how the plan tells it")
    if not same_look:
        return Due(former.next_minor(), f"it tells what {former} told, and only the look of the pages may differ")
    return Due(None, f"it tells the same as {former} in every edition")


def check_number(set_key: str, wanted: Version, former: Version, due: Due) -> tuple[Finding, ...]:
    """A finding with the right number, and why, when `wanted` is any other than the one that is due."""
    if due.version is None:
        message = f"Nothing changed, so there is nothing to release: {due.why}."
        return (
            _refused("nothing-changed", message, f"Whoever has {former} has all there is. Change the content first."),
        )
    if wanted == due.version:
        return ()
    taken = f" {former} is the newest release, and versions only go up." if wanted <= former else ""
    return (
        _refused(
            "version-dishonest",
            f"This cannot be version {wanted}.{taken} It is {due.version}: {due.why}.",
            f"Call it {due.version} in changes.yaml, then `planbook release {set_key} {due.version}`.",
        ),
    )


def _why_major(former: Version, since: Mapping[str, Since]) -> str:
    """The parts by what is to be done with them, and one as an example; without parts, what is to be bought or done."""
    asking = sorted(_asking(since), key=lambda each: ORDER.index(each.impact))
    if not asking:
        return f"builders of {former} may have to {_why_other(since)}"
    by_verb: dict[str, list[str]] = {}
    for part in asking:
        by_verb.setdefault(_VERBS[part.impact], []).append(f"part {part.number}, {part.title}")
    verbs = "; ".join(f"{verb} {_some(parts)}" for verb, parts in by_verb.items())
    return f"builders of {former} may have to {verbs}{_example(asking[0])}"


def _asking(since: Mapping[str, Since]) -> Iterator[PartAcross]:
    return (each for each in parts_across(since) if any(one.asks for one in each.impacts.values()))


def _example(part: PartAcross) -> str:
    """What the first edition that asks for something says first."""
    edition, impact = next((name, one) for name, one in part.impacts.items() if one.asks)
    said = say_part(impact).split("; ")[0]
    return f" ({edition} edition, part {part.number}: {said})" if said else ""


def _why_other(since: Mapping[str, Since]) -> str:
    items = [item.words for each in since.values() for item in each.impact.items if item.asks]
    steps = [
        f"look again at step {step.number}, {step.title}, in which a measure is another"
        for each in since.values()
        for step in each.impact.steps
        if step.remeasured
    ]
    return (*items, *steps)[0]


def _some(parts: Sequence[str]) -> str:
    named = list(parts[:_PARTS])
    if len(parts) > _PARTS:
        more = len(parts) - _PARTS
        named.append(f"{more} more part{'s' if more > 1 else ''}")
    return "; ".join(named)


def _refused(code: str, message: str, remedy: str) -> Finding:
    return Finding(code=code, severity=Severity.STOP, message=message, remedy=remedy)
