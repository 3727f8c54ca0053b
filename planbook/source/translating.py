"""Content in the language of an edition: its translations in the place of the pages and steps that have one."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from planbook.source.content import Content, Page, Step, Translation
from planbook.source.findings import Finding, Place, Severity

FOLDER = "translations"
"""Of a plan set: a folder for each language, in which pages/ and steps/ have files named as the originals."""


def in_language(content: Content, language: str) -> Content:
    """The same with the pages and steps of a language; as it is where nothing is translated into that one."""
    ours = {each.original: each for each in content.translations if each.language == language}
    if not ours:
        return content
    pages = tuple(_page(page, ours[page.file]) if page.file in ours else page for page in content.pages)
    steps = tuple(_step(step, ours[step.file]) if step.file in ours else step for step in content.steps)
    return replace(content, pages=pages, steps=steps)


def _page(page: Page, told: Translation) -> Page:
    return replace(page, file=told.file, head=page.head.model_copy(update={"title": told.head.title}), body=told.body)


def _step(step: Step, told: Translation) -> Step:
    words = {"title": told.head.title, "dry_fit": told.head.dry_fit, "hold": told.head.hold}
    return replace(step, file=told.file, head=step.head.model_copy(update=words), body=told.body)


def check_translations(content: Content) -> Iterator[Finding]:
    """A translation that nobody reads, or of nothing; an original without one; a hold without words."""
    asked = {str(edition.language) for edition in content.plan_set.editions.values()}
    originals = content.prose
    for each in content.translations:
        if each.original not in originals:
            yield _strayed(each)
        elif each.language not in asked:
            message = f"No edition is in the language `{each.language}`, so nobody reads this translation."
            remedy = f"Give an edition `language: {each.language}` in set.yaml, or delete the folder."
            yield Finding("translation-unread", Severity.WARN, message, remedy, Place(each.file, 1, 1))
        else:
            yield from _wordless(each, originals[each.original])
    for language in sorted({each.language for each in content.translations} & asked):
        known = {each.original for each in content.translations if each.language == language}
        for file in originals:
            if file not in known:
                yield _missing(content, language, file)


def _wordless(translation: Translation, original: Page | Step) -> Iterator[Finding]:
    """A hold or dry fit that the original has and its translation has not, or the other way about."""
    for name in ("dry_fit", "hold"):
        ours = bool(str(getattr(translation.head, name)))
        theirs = bool(str(getattr(original.head, name, "")))
        if ours != theirs:
            there, here = ("the translation", "the original") if ours else ("the original", "the translation")
            message = f"There is a `{name}` in the head of {there}, and none in that of {here}."
            remedy = f"Translate it: `{name}: ...`." if theirs else f"Delete `{name}` here."
            yield Finding("translation-wanting", Severity.STOP, message, remedy, translation.head.title.place)


def _strayed(translation: Translation) -> Finding:
    message = f"This is the translation of `{translation.original}`, and there is no such page or step."
    remedy = "Name it as the original is named, or delete it."
    return Finding("translation-strayed", Severity.STOP, message, remedy, Place(translation.file, 1, 1))


def _missing(content: Content, language: str, file: str) -> Finding:
    inner = file.removeprefix(f"{content.folder}/")
    message = f"`{inner}` has no translation into `{language}`; that edition prints it as it is."
    remedy = f"Write `{content.folder}/{FOLDER}/{language}/{inner}`."
    return Finding("translation-missing", Severity.WARN, message, remedy, Place(file, 1, 1))
