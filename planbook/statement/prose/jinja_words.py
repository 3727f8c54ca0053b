"""What Jinja says of a text that it cannot read, in words for authors, who know nothing of tokens and tags."""

from __future__ import annotations

import re
from typing import Final

_SAID: Final = (
    (r"unexpected (?:char )?'(.+?)'", "`{}` cannot stand here"),
    (r"unexpected end of template.*needs to be closed is '(\w+)'", "`{{% {0} %}}` is not closed by `{{% end{0} %}}`"),
    (r"unexpected end of template", "what the last `{{{{` or `{{%` opens is not closed"),
    (r"missing end of comment tag", "the comment that `{{#` opens is not closed"),
    (r"encountered unknown tag 'end(\w+)'", "`{{% end{} %}}` closes nothing"),
    (r"encountered unknown tag '(\w+)'", "`{}` is no condition"),
    (r"expected (?:an expression|name)|expected token '.*', got 'end of ", "a name is missing here"),
    (r"expected token '.*', got '(.+)'", "`{}` cannot stand here"),
)
"""Patterns of its messages, and what we say: the first that fits counts."""


def in_our_words(message: str) -> str:
    """A clause, without a full stop; Jinja's own words where they are none of those we know."""
    for pattern, words in _SAID:
        if found := re.match(pattern, message, re.IGNORECASE | re.DOTALL):
            return words.format(*found.groups())
    return message.rstrip(".") or "this is not a template"
