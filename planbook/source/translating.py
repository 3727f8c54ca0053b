"""Content in the language of an edition: its translations in the place of the words that have one."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace

from planbook.source.content import Content, Page, Path, Question, Step, Translation, Wording
from planbook.source.findings import Finding, Place, Severity
from planbook.source.names import in_row
from planbook.source.text import Text
from planbook.source.words import in_words, words_of

FOLDER = "translations"
"""Of a plan set: a folder for each language, in which files are named as the originals."""
PROSE_FOLDERS = ("pages", "steps", "questions")
_SHOWN = 4
"""So many texts of a file are named where some have no translation."""


def in_language(content: Content, language: str) -> Content:
    """The same with the words of a language; as it is where nothing is translated into that one."""
    ours = {each.original: each for each in content.translations if each.language == language}
    told = {
        original.place: text
        for each in content.wordings
        if each.language == language
        for path, text in each.texts.items()
        if (original := original_of(content, each, path)) is not None
    }
    if not ours and not told:
        return content
    content = in_words(content, told)
    pages = tuple(_page(page, ours[page.file]) if page.file in ours else page for page in content.pages)
    steps = tuple(_step(step, ours[step.file]) if step.file in ours else step for step in content.steps)
    questions = tuple(_question(each, ours[each.file]) if each.file in ours else each for each in content.questions)
    return replace(content, pages=pages, steps=steps, questions=questions)


def original_of(content: Content, wording: Wording, path: Path) -> Text | None:
    """The text whose words these are: of the set's own file, else of the shared one."""
    found = (content.written.get(file, {}).get(path) for file in wording.originals)
    return next((each for each in found if each is not None), None)


def _page(page: Page, told: Translation) -> Page:
    return replace(page, file=told.file, head=page.head.model_copy(update={"title": told.head.title}), body=told.body)


def _step(step: Step, told: Translation) -> Step:
    tools = told.head.tools or step.head.tools
    words = {"title": told.head.title, "dry_fit": told.head.dry_fit, "hold": told.head.hold, "tools": tools}
    return replace(step, file=told.file, head=step.head.model_copy(update=words), body=told.body)


def _question(question: Question, told: Translation) -> Question:
    head = question.head.model_copy(update={"question": told.head.question})
    return replace(question, file=told.file, head=head, body=told.body)


def check_translations(content: Content) -> Iterator[Finding]:
    """A translation that nobody reads, or of nothing; an original without one; a hold without words."""
    asked = {str(edition.language) for edition in content.plan_set.editions.values()}
    originals = content.bodies
    for each in content.translations:
        if each.original not in originals:
            yield _strayed(each)
        elif each.language not in asked:
            yield _unread(each)
        else:
            yield from _wordless(each, originals[each.original])
    read = {words.place for words in words_of(content)}
    for wording in content.wordings:
        yield from _mistaken(content, wording, read) if wording.language in asked else (_unread(wording),)
    languages = {each.language for each in content.translations} | {each.language for each in content.wordings}
    for language in sorted(languages & asked):
        yield from _missing_prose(content, language)
        yield from _missing_words(content, language)


def _unread(translation: Translation | Wording) -> Finding:
    message = f"No edition is in the language `{translation.language}`, so nobody reads this translation."
    remedy = f"Give an edition `language: {translation.language}` in set.yaml, or delete the folder."
    return Finding("translation-unread", Severity.WARN, message, remedy, Place(translation.file, 1, 1))


def _wordless(translation: Translation, original: Page | Step | Question) -> Iterator[Finding]:
    """Words in the head that the original has and its translation has not, or the other way about."""
    place = Place(translation.file, 1, 1)
    for name in ("title", "question", "dry_fit", "hold"):
        ours = bool(str(getattr(translation.head, name)))
        theirs = bool(str(getattr(original.head, name, "")))
        if ours != theirs:
            there, here = ("the translation", "the original") if ours else ("the original", "the translation")
            message = f"There is a `{name}` in the head of {there}, and none in that of {here}."
            remedy = f"Translate it: `{name}: ...`." if theirs else f"Delete `{name}` here."
            yield Finding("translation-wanting", Severity.STOP, message, remedy, place)
    tools, those = translation.head.tools, original.head.tools if isinstance(original, Step) else ()
    if tools and len(tools) != len(those):
        message = f"The head of the translation names {len(tools)} `tools`, and that of the original {len(those)}."
        remedy = "Name the same tools in the same order."
        yield Finding("translation-wanting", Severity.STOP, message, remedy, tools[0].place)
    elif those and not tools:
        message = "The `tools` in the head of the step have no translation; the edition prints them as they are."
        yield Finding("translation-missing", Severity.WARN, message, "Write them in this head: `tools: [...]`.", place)


def _strayed(translation: Translation) -> Finding:
    message = f"This is the translation of `{translation.original}`, and there is no such page, step or answer."
    remedy = "Name it as the original is named, or delete it."
    return Finding("translation-strayed", Severity.STOP, message, remedy, Place(translation.file, 1, 1))


def _mistaken(content: Content, wording: Wording, read: set[Place]) -> Iterator[Finding]:
    """Words of nothing, or in the place of what is no words: a translation never changes the design."""
    for path, text in wording.texts.items():
        original = original_of(content, wording, path)
        if original is not None and original.place in read:
            yield from _blank(path, text, original)
            continue
        named = _name(path)
        message = f"This translates `{named}` of `{_inner(content, wording)}`, and there is no such text."
        remedy = "Let it stand under the names that it has in the original, or delete it."
        if not path:
            message = f"`{text}` stands here under no name, so that nothing tells which text it translates."
        if original is not None:
            message = f"`{named}` is `{original}` in the original, and that is no text for builders to read."
            remedy = "Delete it here: a translation holds words only."
        yield Finding("translation-strayed", Severity.STOP, message, remedy, text.place)


def _blank(path: Path, text: Text, original: Text) -> Iterator[Finding]:
    if original.strip() and not text.strip():
        message = f"`{_name(path)}` is blank, and in the original it is not: the edition would print nothing there."
        yield Finding("translation-wanting", Severity.STOP, message, "Translate it, or delete it here.", text.place)


def _inner(content: Content, wording: Wording) -> str:
    return wording.originals[0].removeprefix(f"{content.folder}/")


def _name(path: Path) -> str:
    return ".".join(path)


def _missing_prose(content: Content, language: str) -> Iterator[Finding]:
    known = {each.original for each in content.translations if each.language == language}
    for file in content.bodies:
        if file not in known:
            inner = file.removeprefix(f"{content.folder}/")
            message = f"`{inner}` has no translation into `{language}`; that edition prints it as it is."
            remedy = f"Write `{content.folder}/{FOLDER}/{language}/{inner}`."
            yield Finding("translation-missing", Severity.WARN, message, remedy, Place(file, 1, 1))


def _missing_words(content: Content, language: str) -> Iterator[Finding]:
    """One for each file, with the first of its texts. Of shared tables only what the set names, without its sources."""
    ours = [each for each in content.wordings if each.language == language]
    told = {original.place for each in ours for path in each.texts if (original := original_of(content, each, path))}
    others = {each.title.place for each in content.plan_set.editions.values() if each.language != language}
    wanting = {words.place for words in words_of(content)} - told - others
    used = _names_used(content)
    for file, texts in content.written.items():
        own = file.startswith(f"{content.folder}/")
        paths = [
            path for path, text in texts.items() if text.place in wanting and (own or _is_used(file, path, used))
        ]  # fmt: skip
        if paths:
            yield _missing(content, language, file, paths, texts)


def _missing(content: Content, language: str, file: str, paths: list[Path], texts: Mapping[Path, Text]) -> Finding:
    inner = file.removeprefix(f"{content.folder}/").removeprefix("shared/")
    several = f"{len(paths)} texts of `{inner}` have" if len(paths) > 1 else f"One text of `{inner}` has"
    more = [f"{len(paths) - _SHOWN} more"] if len(paths) > _SHOWN else []
    named = in_row([*(f"`{_name(each)}`" for each in paths[:_SHOWN]), *more], "and")
    message = f"{several} no translation into `{language}`, and that edition prints the original: {named}."
    remedy = f"Write them in `{content.folder}/{FOLDER}/{language}/{inner}`, under the same names."
    return Finding("translation-missing", Severity.WARN, message, remedy, texts[paths[0]].place)


def _names_used(content: Content) -> frozenset[str]:
    """All names that stand in the set's own files, so that of shared tables what it uses is among them."""
    own = (
        text for file, texts in content.written.items() if file.startswith(content.folder) for text in texts.values()
    )
    bodies = (each.body for each in content.bodies.values())
    heads = (name for step in content.steps for name in step.head.cautions)
    return frozenset(name for text in (*own, *bodies, *heads) for name in re.findall(r"[a-z][a-z0-9_]*", text))


def _is_used(file: str, path: Path, used: frozenset[str]) -> bool:
    key = path[0] if "/markets/" not in file else path[1] if len(path) > 1 else ""
    return path[-1] != "source" and key in used
