"""The template step: names in {{ }} become tokens, {% if edition... %} chooses; nothing else of Jinja is let in.

Jinja reads the text into its syntax tree; the tree is checked against what prose may say, every name in it is replaced
by a constant, and only then is it rendered, in a sandbox with nothing in it. There are no loops, calls, filters,
imports or attributes left to run: time and size are bounded by the length of the text.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from jinja2 import StrictUndefined, TemplateSyntaxError, nodes
from jinja2.lexer import TokenStream
from jinja2.parser import Parser
from jinja2.sandbox import ImmutableSandboxedEnvironment

from planbook.source.findings import Finding, Severity
from planbook.source.text import Text
from planbook.statement.prose.jinja_words import in_our_words
from planbook.statement.prose.names import Names
from planbook.statement.prose.permitted import Permitted, Use
from planbook.statement.prose.spots import place_of
from planbook.statement.prose.tokens import PRIVATE

LONGEST = 100_000
"""Characters in one page: some thirty printed pages."""
_MASK = "\ue000"
_JINJA = ImmutableSandboxedEnvironment(undefined=StrictUndefined, keep_trailing_newline=True, autoescape=False)


@dataclass(frozen=True, slots=True)
class Filled:
    """A text whose names are tokens: token i stands for `uses[i]`. `words` is the source with all templating masked."""

    text: str
    uses: tuple[Use, ...]
    words: str


def fill(text: Text, names: Names) -> tuple[Filled, tuple[Finding, ...]]:
    """Replace the names in a text by tokens. What is refused is left out; a text that cannot be read is empty."""
    flaw = _unreadable(text)
    if flaw is not None:
        return Filled("", (), ""), (flaw,)
    source = Text(text.replace("\r", " "), text.place)
    try:
        pieces = tuple(_positioned(source))
        reader = Permitted(source, names)
        body = list(reader.statements(_parse(pieces).body, 0))
        filled = _JINJA.from_string(nodes.Template(body, lineno=1)).render()
    except TemplateSyntaxError as error:
        return Filled("", (), ""), (_syntax(source, error),)
    except RecursionError:
        return Filled("", (), ""), (
            _finding(
                source,
                0,
                "template-syntax",
                "This text is nested too deep to be read.",
                "Take some of its brackets away.",
            ),
        )
    return Filled(filled, tuple(reader.uses), _masked(source, pieces)), tuple(reader.findings)


def _unreadable(text: Text) -> Finding | None:
    if len(text) > LONGEST:
        return _finding(
            text,
            0,
            "page-too-long",
            f"This text has {len(text)} characters; at most {LONGEST} are read.",
            "Divide it into several pages.",
        )
    private = PRIVATE.search(text)
    if private is None:
        return None
    return _finding(
        text,
        private.start(),
        "private-character",
        f"The character U+{ord(private[0]):04X} has no meaning.",
        "Delete it, or use the letter or sign that it was meant to be.",
    )


def _positioned(source: str) -> Iterator[tuple[int, str, str]]:
    """Jinja's own tokens with the offset of each in place of its line number, so that findings have columns."""
    offset = 0
    try:
        for _, kind, piece in _JINJA.lex(source):
            offset = source.index(piece, offset)
            yield offset, kind, piece
            offset += len(piece)
    except TemplateSyntaxError as error:
        error.lineno = offset
        raise


def _parse(pieces: Iterable[tuple[int, str, str]]) -> nodes.Template:
    parser = Parser(_JINJA, "")
    parser.stream = TokenStream(_JINJA.lexer.wrap(pieces), None, None)
    return parser.parse()


def _masked(source: str, pieces: Iterable[tuple[int, str, str]]) -> str:
    words = [_MASK if sign != "\n" else sign for sign in source]
    for offset, kind, piece in pieces:
        if kind == "data":
            words[offset : offset + len(piece)] = piece
    return "".join(words)


def _finding(text: Text, offset: int, code: str, message: str, remedy: str) -> Finding:
    return Finding(code, Severity.STOP, message, remedy, place_of(text, offset))


def _syntax(source: Text, error: TemplateSyntaxError) -> Finding:
    """The number of its line is an offset, as in all tokens."""
    return _finding(
        source,
        min(error.lineno, len(source)),
        "template-syntax",
        f"The template cannot be read: {in_our_words(error.message or '')}.",
        "A name stands in {{ }}, as in {{ top.length }}; a condition is {% if edition.units == 'inch' %} "
        "... {% else %} ... {% endif %}.",
    )
