"""Broken YAML explained in an author's words, from where the parser gave up."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from ruamel.yaml.error import MarkedYAMLError
from ruamel.yaml.reader import ReaderError

from planbook.source.characters import code_point
from planbook.source.findings import Finding, Related, Severity
from planbook.source.lines import Lines


@dataclass(frozen=True, slots=True)
class Trouble:
    """Where reading stopped, where the thing that was being read began, and the parser's word for it."""

    lines: Lines
    index: int
    opened: int
    problem: str

    @property
    def char(self) -> str:
        """The character at which reading stopped."""
        return self.lines.text[self.index : self.index + 1]

    @property
    def rest(self) -> str:
        """From there to the end of the line."""
        return self.lines.text[self.index :].split("\n", 1)[0].rstrip()

    @property
    def before(self) -> str:
        """What stands before it on the line."""
        return self.lines.text[self.lines.text.rfind("\n", 0, self.index) + 1 : self.index].strip()


def explain(error: Exception, lines: Lines) -> Finding:
    """The finding for what the parser raised. The library's own words never reach the author."""
    if isinstance(error, ReaderError):
        return _bad_character(error, lines)
    if not isinstance(error, MarkedYAMLError) or error.problem_mark is None:
        return _bad_escape(lines)
    trouble = Trouble(
        lines,
        error.problem_mark.index,
        error.context_mark.index if error.context_mark is not None else error.problem_mark.index,
        error.problem or "",
    )
    if trouble.char == "\t":
        return _tab(trouble)
    told = f"{error.context} {error.problem}"
    explanation = next((explanation for sign, explanation in EXPLANATIONS if sign in told), _unreadable)
    return explanation(trouble)


def _bad_character(error: ReaderError, lines: Lines) -> Finding:
    char = chr(error.character) if isinstance(error.character, int) else str(error.character)
    return Finding(
        "yaml-character",
        Severity.STOP,
        f"The file contains the control character {code_point(char)}.",
        "Delete that character.",
        lines.place(lines.text.find(char)),
    )


def _bad_escape(lines: Lines) -> Finding:
    return Finding(
        "yaml-broken",
        Severity.STOP,
        "A value in double quotation marks has an escape that is no character.",
        "Look for a backslash; use single quotation marks, in which it is only a backslash.",
        lines.place(lines.text.find("\\")),
    )


def _tab(trouble: Trouble) -> Finding:
    return Finding(
        "yaml-tab",
        Severity.STOP,
        "A tab stands here; YAML takes only spaces for indentation.",
        "Replace the tab by spaces, two for each level.",
        trouble.lines.place(trouble.index),
    )


def _broken_quotes(trouble: Trouble) -> Finding:
    if "escape" in trouble.problem:
        return _broken(
            trouble,
            trouble.index,
            "A backslash in double quotation marks starts an escape, and this one is unknown.",
            "Use single quotation marks, in which a backslash is only a backslash.",
        )
    quote = trouble.lines.text[trouble.opened : trouble.opened + 1]
    return _broken(
        trouble,
        trouble.opened,
        f"The quotation mark {quote} that is opened here is not closed.",
        f"Write {quote} at the end of the value.",
    )


def _unclosed(trouble: Trouble) -> Finding:
    text, end = trouble.lines.text, trouble.opened + 1
    start = max(text.rfind("[", 0, end), text.rfind("{", 0, end), 0)  # the parser's mark stands behind the bracket
    bracket = text[start : start + 1]
    closing = "}" if bracket == "{" else "]"
    stopped = trouble.lines.place(trouble.index)
    return _broken(
        trouble,
        start,
        f"The `{bracket}` that is opened here is not closed, or a comma is missing in line {stopped.line}.",
        f"Put `{closing}` where it ends, commas between entries, and values with `[ ] {{ }} ,` in quotation marks.",
        Related(stopped, "reading stopped here"),
    )


def _second_colon(trouble: Trouble) -> Finding:
    if ": " in trouble.before:
        name, value = trouble.before.split(": ", 1)
        return _broken(
            trouble,
            trouble.index,
            "A second colon on the line would start another name and value.",
            f'Put the value in quotation marks: {name}: "{value}{trouble.rest}".',
        )
    return _broken(
        trouble,
        trouble.index,
        f"`{trouble.before}` is indented further than the line before, which already has a value.",
        "Indent it like its neighbours, or take the value off the line before if this belongs under it.",
    )


def _bad_start(trouble: Trouble) -> Finding:
    remedy = f"Put the value in quotation marks: '{trouble.rest}'."
    return _broken(trouble, trouble.index, f"A value cannot begin with `{trouble.char}`.", remedy)


def _bad_mark(trouble: Trouble) -> Finding:
    message = "`&`, `*` and `!` have a meaning of their own at the start of a value."
    return _broken(trouble, trouble.opened, message, "Put the value in quotation marks.")


def _bad_indent(trouble: Trouble) -> Finding:
    if trouble.before:
        return _broken(
            trouble,
            trouble.index,
            "Something follows a value that has already ended.",
            "Put the whole value in one pair of quotation marks, or start a new line.",
        )
    return _broken(
        trouble,
        trouble.index,
        "This line does not line up with the lines above it.",
        "Indent it exactly like the names or list entries that it belongs with.",
    )


def _no_colon(trouble: Trouble) -> Finding:
    word = trouble.lines.text[trouble.opened :].split("\n", 1)[0].strip()
    return _broken(
        trouble,
        trouble.opened,
        f"`{word[:60]}` stands where a name with a colon is expected.",
        "Write `name: value`; a text that goes on over several lines is indented further than its name.",
    )


def _unreadable(trouble: Trouble) -> Finding:
    return _broken(
        trouble,
        trouble.index,
        "From here on the file is not readable as YAML.",
        "Compare the line and the one before it with a neighbour: indentation, colons, quotation marks.",
    )


def _broken(trouble: Trouble, index: int, message: str, remedy: str, *related: Related) -> Finding:
    return Finding("yaml-broken", Severity.STOP, message, remedy, trouble.lines.place(index), related=related)


EXPLANATIONS: tuple[tuple[str, Callable[[Trouble], Finding]], ...] = (
    ("quoted scalar", _broken_quotes),
    ("mapping values are not allowed", _second_colon),
    ("flow sequence", _unclosed),
    ("flow mapping", _unclosed),
    ("cannot start any token", _bad_start),
    ("could not find expected ':'", _no_colon),
    ("block end", _bad_indent),
    ("an anchor", _bad_mark),
    ("an alias", _bad_mark),
    ("a tag", _bad_mark),
)
"""Words of the parser by which a kind of trouble is told, first fit first."""


def made_whole(before: str, value: str) -> str:
    """How to mend a value that its own comma ends: with a decimal point where it is one of a number."""
    number = re.fullmatch(r"([0-9]+),([0-9]+[^,]*)", value)
    if number:
        return f"Write a decimal point: {before}{number[1]}.{number[2]}."
    return f'Put the whole value in quotation marks: {before}"{value}".'
