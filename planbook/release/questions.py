"""What buyers asked: writing a question down, where each stands, and where plans draw questions."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from typing import Any

from planbook.release.archive import disk
from planbook.release.archive.reader import Release, read_all
from planbook.release.days import wrong_day
from planbook.release.editions import choose_edition, read_named
from planbook.source import Door, load
from planbook.source.content import Content, Question
from planbook.source.findings import Finding, Severity, stops
from planbook.source.models.question import names_somebody
from planbook.source.names import listed, spelled_alike
from planbook.statement import part_about, prints_question
from planbook.statement.model import Statement


class Stand(StrEnum):
    """How far a question has come."""

    OPEN = "open"
    ANSWERED = "answered in the draft"
    PUBLISHED = "published"


@dataclass(frozen=True, slots=True)
class QuestionStands:
    """A question and where it stands; `published` is the first version that prints its answer."""

    question: Question
    stand: Stand
    published: str

    def document(self) -> dict[str, Any]:
        """For --json."""
        head = self.question.head
        return {
            "id": self.question.key,
            "asked": head.asked.isoformat(),
            "version": str(head.version),
            "edition": str(head.edition or ""),
            "about": str(head.about),
            "question": str(head.question),
            "stand": self.stand.value,
            "published": self.published,
        }


@dataclass(frozen=True, slots=True)
class Drawn:
    """How many questions one thing drew: a part with its sheet, or the plan as a whole; and each of its measures."""

    title: str
    count: int
    about: tuple[tuple[str, int], ...]

    def document(self) -> dict[str, Any]:
        """For --json."""
        return {"title": self.title, "count": self.count, "about": [{"id": id_, "count": n} for id_, n in self.about]}


def list_questions(root: Path, set_key: str) -> tuple[tuple[QuestionStands, ...] | None, tuple[Finding, ...]]:
    """Every question of a set in the order in which they were asked; None when its content cannot be read."""
    content, findings = load(Door(root), set_key)
    if content is None or stops(findings):
        return None, findings
    releases = read_all(root, set_key)[0]
    return tuple(_stands(each, releases) for each in content.questions), findings


def _stands(question: Question, releases: Iterable[Release]) -> QuestionStands:
    told = (
        str(release.version)
        for release in releases
        if any(prints_question(statement, question.key) for statement in release.statements.values())
    )
    published = next(told, "")
    stand = Stand.PUBLISHED if published else Stand.ANSWERED if question.answered else Stand.OPEN
    return QuestionStands(question, stand, published)


def report_questions(root: Path, set_key: str) -> tuple[tuple[Drawn, ...] | None, tuple[Finding, ...]]:
    """Where the plans draw questions, most first: what to draw better."""
    asked, findings = list_questions(root, set_key)
    if asked is None:
        return None, findings
    releases = read_all(root, set_key)[0]
    statement = next(iter(releases[-1].statements.values())) if releases else None
    about: dict[str, Counter[str]] = {}
    for each in asked:
        name = str(each.question.head.about)
        about.setdefault(_title(name, statement), Counter())[name] += 1
    drawn = (Drawn(title, counts.total(), tuple(counts.most_common())) for title, counts in about.items())
    return tuple(sorted(drawn, key=lambda each: -each.count)), findings


def _title(name: str, statement: Statement | None) -> str:
    key = part_about(name, statement) if statement is not None else ""
    if statement is None or not key:
        return "The plan as a whole"
    part = statement.parts[key]
    return f"Part {part.number}, {part.title} (sheet {part.sheet})"


def add_question(
    root: Path, set_key: str, version: str, edition: str | None, about: str, asked: str, text: str
) -> tuple[str | None, tuple[Finding, ...]]:
    """Write a question down in a new file of the set's content; gives its workspace path.

    None with findings when it is refused, and nothing is written then.
    """
    release, findings = read_named(root, set_key, version)
    content, more = load(Door(root), set_key)
    if release is None or content is None or stops((*findings, *more)):
        return None, (*findings, *more)
    findings = (*choose_edition(release.statements, edition), *_refused(release, about, asked, text))
    if findings:
        return None, findings
    path = f"{content.folder}/questions/{_next(content)}.md"
    try:
        disk.make_folder((root / path).parent)
        disk.write_file(root / path, _file(str(release.version), edition, about, asked, text).encode())
    except OSError as fault:
        message = f"The question cannot be written: {fault.strerror or fault}."
        return None, (Finding("folder-unwritable", Severity.STOP, message, "See to the disk, and add it again."),)
    return path, ()


def _next(content: Content) -> str:
    """q001, q002, ...: after the last one, so that a name is never given twice."""
    numbers = [int(match[1]) for each in content.questions if (match := re.fullmatch(r"q(\d+)", each.key))]
    return f"q{max(numbers, default=0) + 1:03}"


def _refused(release: Release, about: str, asked: str, text: str) -> Iterator[Finding]:
    names = {name for told in release.statements.values() for name in _names(told)}
    if about not in names:
        near = spelled_alike(about, names)
        remedy = (
            f"Did you mean {listed(near, 'or')}?"
            if near
            else f'`planbook find SET "5 3/8" --version {release.version}` gives the names of what is printed.'
        )
        yield _fault(f"Version {release.version} has nothing that is called `{about}`.", remedy)
    if wrong := wrong_day(asked, str(release.version), release.record.issued):
        yield _fault(*wrong)
    if not text.strip():
        yield _fault("The question says nothing.", "Write what was asked, as the plan is to print it.")
    if names_somebody(text):
        what = "The question holds what reads as a person's address or telephone number."
        yield _fault(what, "Take it out: a question is kept for years and printed, and it is about the plan.")


def _names(statement: Statement) -> Iterator[str]:
    yield from statement.parts
    yield from statement.dimensions
    yield from statement.parameters
    yield from statement.figures
    yield from (f"{key}/{name}" for key, part in statement.parts.items() for name in part.features)
    yield from dict.fromkeys(block.page for block in statement.blocks)


def _file(version: str, edition: str | None, about: str, asked: str, text: str) -> str:
    lines = [f"asked: {asked}", f'version: "{version}"']
    lines += [f"edition: {edition}"] if edition else []
    told = " ".join(text.split()).replace("\\", "\\\\").replace('"', '\\"')
    return "\n".join(["---", *lines, f"about: {about}", f'question: "{told}"', "---", ""])


def _fault(message: str, remedy: str) -> Finding:
    return Finding("question-refused", Severity.STOP, message, remedy)


def newly_answered(
    former: Mapping[str, Statement], now: Mapping[str, Statement], questions: Iterable[Question]
) -> tuple[Question, ...]:
    """Those that a version answers and the one before it did not, in any edition."""

    def printed(statements: Mapping[str, Statement], key: str) -> bool:
        return any(prints_question(statement, key) for statement in statements.values())

    return tuple(each for each in questions if printed(now, each.key) and not printed(former, each.key))
