"""Caution panels in build steps: in full where a step names one first, in brief after that."""

from __future__ import annotations

import re
from collections.abc import Set as AbstractSet
from typing import Final

_PANEL: Final = re.compile(r'<aside class="caution caution-(\w+)" data-caution="([^"]+)"[^>]*>(.*?)</aside>', re.DOTALL)
_TEXT: Final = re.compile(r'<p class="caution-text">.*?</p>', re.DOTALL)


def anchor(caution: str) -> str:
    """What links to a panel of the cautions page aim at."""
    return f"caution.{caution}"


def with_anchor(panel: str) -> str:
    """A panel of the cautions page with its anchor."""
    return _PANEL.sub(lambda match: match[0].replace("<aside", f'<aside id="{anchor(match[2])}"', 1), panel)


def shorten(panels: str, told: AbstractSet[str]) -> str:
    """The panels, those of `told` without their text: they say where it stands.

    A hazard that every step repeats in full is soon read in none; its word and name stay where it threatens.
    """

    def short(match: re.Match[str]) -> str:
        if match[2] not in told:
            return match[0]
        see = f'<p class="caution-see"><a class="ref paged" href="#{anchor(match[2])}">As told before</a></p>'
        panel = _TEXT.sub(see, match[0], count=1)
        return panel.replace('<aside class="caution ', '<aside class="caution caution-brief ', 1)

    return _PANEL.sub(short, panels)


def named_in(panels: str) -> frozenset[str]:
    """The cautions that panels name."""
    return frozenset(match[2] for match in _PANEL.finditer(panels))
