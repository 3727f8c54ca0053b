"""Steps that somebody may have done, and what of them is no longer as it was."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from planbook.impact.model import Impact, PartImpact, StepImpact
from planbook.impact.tokens import is_remeasured, printed_measures, without_measures
from planbook.statement.changes_words import Titles
from planbook.statement.model import Statement, StepStated
from planbook.statement.referring import NewNumbers

_AS_IT_WAS = (Impact.UNCHANGED, Impact.REPRINT)


def steps(old: Statement, new: Statement, parts: Iterable[PartImpact]) -> tuple[StepImpact, ...]:
    """Those of the newer version that ask to be looked at, then those that are gone.

    A part that is as it was and only meets one that is not was made rightly: the other's step is told.
    """
    touched = {each.key for each in parts if each.impact not in _AS_IT_WAS and not each.mates}
    return tuple(
        each for each in _every(old, new, touched) if each.parts or each.reworded or each.cautions or each.gone
    )


def _every(old: Statement, new: Statement, touched: set[str]) -> Iterator[StepImpact]:
    before = {step.key: step for step in old.steps}
    told = printed_measures(
        each for name, each in old.dimensions.items()
        if name not in new.dimensions or each.printed != new.dimensions[name].printed
    )  # fmt: skip
    numbers, titles = NewNumbers(old, new), Titles(old, new)
    for step in new.steps:
        was = before.get(step.key)
        if was is None:
            continue
        texts = [numbers.of(text) for text in _texts(old, was)], _texts(new, step)
        yield StepImpact(
            key=step.key,
            number=step.number,
            title=step.title,
            parts=tuple(part for part in dict.fromkeys((*step.parts, *was.parts)) if part in touched),
            reworded=texts[0] != texts[1] or was.glue_order != step.glue_order,
            renumbered=without_measures(texts[0]) == without_measures(texts[1]) and was.glue_order == step.glue_order,
            remeasured=is_remeasured(*texts, told),
            cautions=tuple(titles.cautions(key) for key in step.cautions if key not in was.cautions),
        )
    kept = {step.key for step in new.steps}
    yield from (StepImpact(each.key, each.number, each.title, gone=True) for each in old.steps if each.key not in kept)


def _texts(statement: Statement, step: StepStated) -> list[str]:
    """What a builder works by: not what is written under its pictures."""
    blocks = [block.text for block in statement.blocks if block.page == step.key and block.kind != "caption"]
    return [*blocks, step.hold, step.dry_fit, step.open_time]
