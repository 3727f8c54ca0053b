"""The impact of a new version in one edition: part by part, then what is bought, then steps."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from planbook.impact.buying import items
from planbook.impact.judging import judge
from planbook.impact.mating import with_mates
from planbook.impact.model import EditionImpact, Impact, PartImpact
from planbook.impact.reaching import with_reach
from planbook.impact.sheets import Sheets
from planbook.impact.stepping import steps
from planbook.statement import Comparison, Verdict
from planbook.statement.model import PartStated, Statement
from planbook.statement.renaming import in_new_names


def weigh(comparison: Comparison) -> EditionImpact:
    """What it means for builders of the older version. Pure; of two statements alone."""
    new = comparison.new
    old = in_new_names(comparison.old, new.renamed)
    parts = with_reach(with_mates(_parts(comparison, old, new), old, new), old, new)
    parts = tuple(_with_names(each, new.renamed) for each in parts)
    return EditionImpact(
        old=old.version, new=new.version, parts=parts, items=items(old, new), steps=steps(old, new, parts)
    )


def _with_names(part: PartImpact, renamed: Mapping[str, str]) -> PartImpact:
    """With the names that it and its features had, under which notes of earlier versions speak of them."""
    reach = part.reach and tuple(
        replace(each, was=_earlier("feature", f"{part.key}/{each.feature}", renamed)) for each in part.reach
    )
    return replace(part, was=_earlier("part", part.key, renamed), reach=reach)


def _earlier(sort: str, name: str, renamed: Mapping[str, str]) -> tuple[str, ...]:
    """Of a feature only the last of its name: that of its part is another matter."""
    old = (was.partition(":")[2] for was, new in renamed.items() if new == f"{sort}:{name}" and was.startswith(sort))
    return tuple(each.rpartition("/")[2] for each in old)


def _parts(comparison: Comparison, old: Statement, new: Statement) -> tuple[PartImpact, ...]:
    before, after = (Sheets(each) for each in (old, new))
    return tuple(_part(each.key, each.verdict, before, after) for each in comparison.parts)


def _part(key: str, verdict: Verdict, old: Sheets, new: Sheets) -> PartImpact:
    part = new.parts.get(key) or old.parts[key]
    if verdict is Verdict.CHANGED:
        return judge(old.of(key), new.of(key))
    impact = PartImpact(part.number, key, part.title, _PLAIN[verdict])
    return impact if verdict is not Verdict.NEW else _new(impact, part)


def _new(impact: PartImpact, part: PartStated) -> PartImpact:
    return PartImpact(impact.number, impact.key, impact.title, Impact.NEW, more=(part.as_drawn, part.mirrored))


_PLAIN = {
    Verdict.UNCHANGED: Impact.UNCHANGED,
    Verdict.REPRINT: Impact.REPRINT,
    Verdict.NEW: Impact.NEW,
    Verdict.WITHDRAWN: Impact.WITHDRAWN,
}
