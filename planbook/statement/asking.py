"""Questions in a statement: each that has an answer is a page of its own among the blocks."""

from __future__ import annotations

from collections.abc import Iterator

from planbook.source.content import Content, Question
from planbook.source.findings import Finding, Severity
from planbook.source.names import spelled_alike
from planbook.source.text import Text
from planbook.statement.model import Statement

_PAGE = "question."


def question_page(key: str) -> str:
    """The page of its blocks, which is also what links aim at."""
    return f"{_PAGE}{key}"


def is_question(page: str) -> bool:
    """Whether a page of blocks is a question and its answer."""
    return page.startswith(_PAGE)


def answered(content: Content) -> tuple[Question, ...]:
    """Those that the plan prints."""
    return tuple(each for each in content.questions if each.answered)


def prints_question(statement: Statement, key: str) -> bool:
    """Whether an edition prints the question and its answer."""
    return any(block.page == question_page(key) for block in statement.blocks)


def part_about(name: str, statement: Statement) -> str:
    """The key of the part that a name is of, "" where it is of none: `link/bores/pitch` is of `link`."""
    part = name.partition("/")[0]
    return part if part in statement.parts else ""


def check_questions(content: Content, statement: Statement) -> Iterator[Finding]:
    """Questions about what the plan has not, or answered by what it has not."""
    known = _known(content, statement)
    for question in content.questions:
        for name in (question.head.about, *question.head.shown):
            if str(name) not in known:
                yield _unknown(name, known)


def _known(content: Content, statement: Statement) -> frozenset[str]:
    """Every name that a question may be about, former ones among them."""
    features = {f"{key}/{name}" for key, part in statement.parts.items() for name in part.features}
    named = (statement.parts, statement.dimensions, statement.parameters, statement.figures, statement.rules, features)
    pages = {page.key for page in content.pages} | {step.key for step in content.steps}
    was = [page.head.was for page in content.pages] + [step.head.was for step in content.steps]
    was += [part.was for part in content.parts.values()]
    former = {str(name) for each in was for name in each}
    return frozenset(former | pages).union(*named)


def _unknown(name: Text, known: frozenset[str]) -> Finding:
    near = spelled_alike(name, known)
    remedy = f"Did you mean `{near[0]}`?" if near else "`planbook find` gives the names of what is printed."
    message = f"The plan has nothing that is called `{name}`."
    return Finding("question-unknown-name", Severity.STOP, message, remedy, name.place)
