"""Caution panels: told in full once, in the chapter on cautions; elsewhere a sentence that says where that is."""

from __future__ import annotations

import re
from collections.abc import Set as AbstractSet
from typing import Final

_PANEL: Final = re.compile(
    r'<aside class="caution caution-(\w+)"[^>]* data-caution="([^"]+)"[^>]*>(.*?)</aside>', re.DOTALL
)
_TOLD: Final = re.compile(r'<p class="caution-title">(.*?)</p>\s*<p class="caution-text">(.*?)</p>', re.DOTALL)
_SENTENCE_END: Final = re.compile(r"[.!?](?=\s|<|$)")


def anchor(caution: str) -> str:
    """What links to a panel of the cautions chapter aim at."""
    return f"caution.{caution}"


def with_anchor(panel: str) -> str:
    """A panel of the cautions chapter with its anchor."""
    return _PANEL.sub(lambda match: match[0].replace("<aside", f'<aside id="{anchor(match[2])}"', 1), panel)


def shorten(html: str, told: AbstractSet[str]) -> str:
    """The HTML with the panels of `told` in brief: signal word, name, first sentence, and the page of the whole.

    A hazard that every step repeats in full is soon read in none; what it is must still stand where it threatens.
    """

    def short(match: re.Match[str]) -> str:
        if match[2] not in told:
            return match[0]
        panel = _TOLD.sub(lambda words: _brief(words[1], words[2], match[2]), match[0], count=1)
        return panel.replace('<aside class="caution ', '<aside class="caution caution-brief ', 1)

    return _PANEL.sub(short, html)


def _brief(title: str, text: str, caution: str) -> str:
    see = f'<a class="ref paged" href="#{anchor(caution)}">Cautions</a>'
    return f'<p class="caution-text"><strong>{title}.</strong> {_first_sentence(text)} {see}</p>'


def _first_sentence(html: str) -> str:
    """Up to the first end of a sentence where no element is open."""
    for end in _SENTENCE_END.finditer(html):
        sentence = html[: end.end()]
        if sentence.count("<") == 2 * sentence.count("</"):
            return sentence
    return html
