"""The impact of a new version in one edition: part by part, then what is bought, then steps."""

from __future__ import annotations

from collections.abc import Mapping

from planbook.impact.buying import items
from planbook.impact.judging import judge
from planbook.impact.limits import General, general_of
from planbook.impact.mating import with_mates
from planbook.impact.model import EditionImpact, Impact, PartImpact
from planbook.impact.reaching import with_reach
from planbook.impact.sheets import Sheet
from planbook.impact.stepping import steps
from planbook.statement import Comparison, Verdict
from planbook.statement.model import DimensionStated, PartStated, Statement
from planbook.statement.renaming import in_new_names


def weigh(comparison: Comparison) -> EditionImpact:
    """What it means for builders of the older version. Pure; of two statements alone."""
    new = comparison.new
    old = in_new_names(comparison.old, new.renamed)
    parts = with_reach(with_mates(_parts(comparison, old, new), old, new), old, new)
    return EditionImpact(
        old=old.version, new=new.version, parts=parts, items=items(old, new), steps=steps(old, new, parts)
    )


def _parts(comparison: Comparison, old: Statement, new: Statement) -> tuple[PartImpact, ...]:
    before, after = (_Sheets(each) for each in (old, new))
    return tuple(_part(each.key, each.verdict, before, after) for each in comparison.parts)


def _part(key: str, verdict: Verdict, old: _Sheets, new: _Sheets) -> PartImpact:
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


class _Sheets:
    """The sheets of a statement, by part."""

    def __init__(self, statement: Statement) -> None:
        self.parts: Mapping[str, PartStated] = statement.parts
        self._general: General = general_of(statement.plan_set)
        self._dimensions: dict[str, dict[str, DimensionStated]] = {}
        self._references: dict[str, list[DimensionStated]] = {}
        for name, each in statement.dimensions.items():
            if each.reference:
                self._references.setdefault(each.part, []).append(each)
            else:
                self._dimensions.setdefault(each.part, {})[name] = each

    def of(self, key: str) -> Sheet:
        """That of a part."""
        return Sheet(self.parts[key], self._dimensions.get(key, {}), self._general, self._references.get(key, ()))
