"""The chapter of questions and answers: by part, in the order of the sheets, then those about the whole plan."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from markupsafe import Markup

from planbook.source.content import Question
from planbook.source.sentences import capital
from planbook.statement import part_about, question_page
from planbook.statement.naming import dimension_words
from planbook.statement.stated import Stated


@dataclass(frozen=True, slots=True)
class Asked:
    """One question with its answer; `of` says of which version it was asked, and about what."""

    target: str
    title_block: str
    title: str
    of: str
    answer: Markup


@dataclass(frozen=True, slots=True)
class AskedGroup:
    """What was asked about one part, or about the whole plan."""

    title: str
    part: str
    asked: tuple[Asked, ...]


def questions_of(stated: Stated, filled: Mapping[str, str]) -> tuple[AskedGroup, ...]:
    """All that have an answer; groups that hold nothing are left out."""
    statement = stated.statement
    asked = {prose.target: prose for prose in stated.prose if prose.slot == "question"}
    heads = [each for each in stated.content.questions if question_page(each.key) in asked]

    def group(title: str, part: str) -> AskedGroup:
        ours = (each for each in heads if part_about(str(each.head.about), statement) == part)
        return AskedGroup(title, part, tuple(_asked(ours)))

    def _asked(ours: Iterator[Question]) -> Iterator[Asked]:
        for each in ours:
            prose = asked[question_page(each.key)]
            yield Asked(prose.target, prose.title_block, prose.title, _of(stated, each), Markup(filled[prose.target]))

    by_number = sorted(statement.parts.items(), key=lambda item: item[1].number)
    groups = [group(f"Part {part.number}, {part.title}", key) for key, part in by_number]
    return tuple(each for each in (*groups, group("The whole plan", "")) if each.asked)


def _of(stated: Stated, question: Question) -> str:
    head = question.head
    edition = stated.content.plan_set.editions.get(head.edition) if head.edition is not None else None
    of = f"Asked of version {head.version}" + (f", {str(edition.title).lower()}" if edition is not None else "")
    about = str(head.about)
    if about in stated.statement.dimensions:
        return f"{of}. {capital(dimension_words(about))}."
    return f"{of}."
