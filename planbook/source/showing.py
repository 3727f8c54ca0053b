"""Sections and details of parts: the features and sections that they name, and a letter for each."""

from __future__ import annotations

from collections.abc import Iterator

from planbook.source.findings import Finding, Related, Severity
from planbook.source.models.part import PartModel
from planbook.source.names import LETTERS, choice_remedy
from planbook.source.text import Text


def check_showing(key: str, part: PartModel) -> Iterator[Finding]:
    """What is wrong with the names and letters in the sections and details of the part `key`."""
    named = [each.through for each in part.sections.values()] + [each.around for each in part.details.values()]
    for name in named:
        if name is not None and name not in part.features:
            remedy = choice_remedy(name, part.features, f"`{key}`")
            yield _stop("feature-unknown", name, f"There is no feature `{name}`.", remedy)
    for letter, detail in part.details.items():
        if detail.view in LETTERS and detail.view not in part.sections:
            message = f"Detail {letter} is taken from section {detail.view}, which is not there."
            remedy = choice_remedy(detail.view, part.sections, f"`sections` of `{key}`")
            yield _stop("section-unknown", detail.view, message, remedy)
    yield from _twice(part)


def _twice(part: PartModel) -> Iterator[Finding]:
    sections = {letter: letter for letter in part.sections}
    for letter in part.details:
        if letter in sections:
            message = f"Both a section and a detail have the letter {letter}."
            free = next(each for each in LETTERS if each not in {*part.sections, *part.details})
            related = (Related(sections[letter].place, f"section {letter}"),)
            remedy = f"Call the detail {free}."
            yield Finding("letter-twice", Severity.STOP, message, remedy, letter.place, related=related)


def _stop(code: str, name: Text, message: str, remedy: str) -> Finding:
    return Finding(code, Severity.STOP, message, remedy, name.place)
