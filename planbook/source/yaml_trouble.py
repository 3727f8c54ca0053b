"""Broken YAML explained in an author's words, from where the parser gave up."""

from __future__ import annotations

from bisect import bisect_right
from itertools import accumulate

from ruamel.yaml.error import MarkedYAMLError
from ruamel.yaml.reader import ReaderError

from planbook.source.findings import Finding, Place, Related, Severity

LONGEST_FORMULA = 300


class Lines:
    """A text with the places of its characters. Lines end at line feeds only, as an editor counts them."""

    def __init__(self, text: str, file: str, first_line: int = 1) -> None:
        self.text = text
        self.file = file
        self._first = first_line
        self._starts = [0, *accumulate(len(line) + 1 for line in text.split("\n"))][:-1]

    def place(self, index: int) -> Place:
        """The place of the character at `index`, counted from 0; the end of the text when there is none."""
        index = min(max(index, 0), len(self.text))
        line = bisect_right(self._starts, index) - 1
        return Place(self.file, line + self._first, index - self._starts[line] + 1)

    def index(self, place: Place) -> int:
        """The other way round."""
        return self._starts[place.line - self._first] + place.column - 1

    def after(self, index: int) -> str:
        """The first character at or after `index` that is not a space; empty at the end of the text."""
        return self.text[index:].lstrip()[:1] if index < len(self.text) else ""

    def balanced(self, index: int) -> str:
        """From `index` to where as many parentheses are closed as opened, or to the end of the line."""
        depth = 0
        for position in range(index, min(index + LONGEST_FORMULA, len(self.text))):
            char = self.text[position]
            depth += (char == "(") - (char == ")")
            if char == "\n" or (char == ")" and depth == 0):
                return self.text[index : position + (char == ")")]
        return self.text[index : index + LONGEST_FORMULA]

    def line_before(self, index: int) -> str:
        """What stands on the line before `index`."""
        return self.text[self.text.rfind("\n", 0, index) + 1 : index]


def explain(error: Exception, lines: Lines) -> Finding:
    """The finding for what the parser raised. The library's own words never reach the author."""
    if isinstance(error, ReaderError):
        return _bad_character(error, lines)
    if not isinstance(error, MarkedYAMLError) or error.problem_mark is None:
        return _broken(
            lines,
            0,
            "The file is not readable as YAML.",
            "Look for an escape after a backslash in quotation marks that is no character.",
        )
    index = error.problem_mark.index
    opened = error.context_mark.index if error.context_mark is not None else index
    context = error.context or ""
    problem = error.problem or ""
    if lines.text[index : index + 1] == "\t":
        return _tab(lines, index)
    if "quoted scalar" in context:
        return _broken_quotes(lines, opened, index, problem)
    if "flow" in context:
        return _unclosed(lines, opened, index)
    if "mapping values" in problem:
        return _second_colon(lines, index)
    if "cannot start any token" in problem:
        return _bad_start(lines, index)
    if "block end" in problem:
        return _bad_indent(lines, index)
    if "could not find expected ':'" in problem:
        return _no_colon(lines, opened)
    if "anchor" in context or "alias" in context or "tag" in context:
        return _broken(
            lines,
            opened,
            "`&`, `*` and `!` have a meaning of their own at the start of a value.",
            "Put the value in quotation marks.",
        )
    return _broken(
        lines,
        index,
        "From here on the file is not readable as YAML.",
        "Compare the line and the one before it with a neighbour that works: indentation, colons, quotation marks.",
    )


def _bad_character(error: ReaderError, lines: Lines) -> Finding:
    char = error.character
    number = char if isinstance(char, int) else ord(str(char)[:1] or "\0")
    index = max(lines.text.find(chr(number)), 0)
    return Finding(
        "yaml-character",
        Severity.STOP,
        f"The file contains the control character U+{number:04X}.",
        "Delete that character.",
        lines.place(index),
    )


def _tab(lines: Lines, index: int) -> Finding:
    return Finding(
        "yaml-tab",
        Severity.STOP,
        "A tab stands here; YAML takes only spaces for indentation.",
        "Replace the tab by spaces, two for each level.",
        lines.place(index),
    )


def _broken_quotes(lines: Lines, opened: int, index: int, problem: str) -> Finding:
    quote = lines.text[opened : opened + 1]
    if "escape" in problem or "expected" in problem:
        return _broken(
            lines,
            index,
            "A backslash in double quotation marks starts an escape, and this one is unknown.",
            "Use single quotation marks, in which a backslash is only a backslash.",
        )
    return _broken(
        lines,
        opened,
        f"The quotation mark {quote} that is opened here is not closed.",
        f"Write {quote} at the end of the value.",
    )


def _unclosed(lines: Lines, opened: int, index: int) -> Finding:
    # The parser's own mark stands behind the bracket.
    start = max(lines.text.rfind("[", 0, opened + 1), lines.text.rfind("{", 0, opened + 1))
    start = start if start >= 0 else opened
    bracket = lines.text[start : start + 1]
    closing = {"[": "]", "{": "}"}.get(bracket, "]")
    return _broken(
        lines,
        start,
        f"The `{bracket}` that is opened here is not closed before line {lines.place(index).line} "
        f"column {lines.place(index).column}, or a comma is missing there.",
        f"Put `{closing}` where it ends, commas between the entries, and quotation marks round a value with `[]{{}},`.",
        Related(lines.place(index), "reading stopped here"),
    )


def _second_colon(lines: Lines, index: int) -> Finding:
    before = lines.line_before(index).strip()
    if ": " in before:
        name, value = before.split(": ", 1)
        return _broken(
            lines,
            index,
            "A second colon on the line would start another name and value.",
            f'Put the value in quotation marks: {name}: "{value}:{_rest(lines, index)}".',
        )
    return _broken(
        lines,
        index,
        f"`{before}` is indented further than the line before, which already has a value.",
        "Indent it like its neighbours, or take the value off the line before if this belongs under it.",
    )


def _rest(lines: Lines, index: int) -> str:
    return lines.text[index + 1 :].split("\n", 1)[0].rstrip()


def _bad_start(lines: Lines, index: int) -> Finding:
    char = lines.text[index : index + 1]
    value = lines.text[index:].split("\n", 1)[0].rstrip()
    return _broken(
        lines, index, f"A value cannot begin with `{char}`.", f"Put the value in quotation marks: '{value}'."
    )


def _bad_indent(lines: Lines, index: int) -> Finding:
    if lines.line_before(index).strip():
        return _broken(
            lines,
            index,
            "Something follows a value that has already ended.",
            "Put the whole value in one pair of quotation marks, or start a new line.",
        )
    return _broken(
        lines,
        index,
        "This line does not line up with the lines above it.",
        "Indent it exactly like the names or list entries it belongs with.",
    )


def _no_colon(lines: Lines, index: int) -> Finding:
    word = lines.text[index:].split("\n", 1)[0].strip()
    return _broken(
        lines,
        index,
        f"`{word[:60]}` stands where a name with a colon is expected.",
        "Write `name: value`; a text that goes on over several lines is indented further than its name.",
    )


def _broken(lines: Lines, index: int, message: str, remedy: str, *related: Related) -> Finding:
    return Finding("yaml-broken", Severity.STOP, message, remedy, lines.place(index), related=related)
