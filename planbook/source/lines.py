"""A text and the places of its characters, as an editor counts them."""

from __future__ import annotations

import re
from bisect import bisect_right
from itertools import accumulate

from planbook.source.findings import Place

LONGEST_FORMULA = 300
SPACES = re.compile(r"\s*")


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

    def word_after(self, index: int) -> int:
        """The index of the first character at or after `index` that is not a space, or the end of the text."""
        match = SPACES.match(self.text, index)
        return match.end() if match else index

    def balanced(self, index: int) -> str:
        """From `index` to where as many parentheses are closed as opened, or to the end of the line."""
        depth = 0
        for position in range(index, min(index + LONGEST_FORMULA, len(self.text))):
            char = self.text[position]
            depth += (char == "(") - (char == ")")
            if char == "\n" or (char == ")" and depth == 0):
                return self.text[index : position + (char == ")")]
        return self.text[index : index + LONGEST_FORMULA]
