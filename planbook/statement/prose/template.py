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
from planbook.statement.prose.names import Named, Names
from planbook.statement.prose.spots import place_of
from planbook.statement.prose.tokens import PRIVATE, write_token

LONGEST = 100_000
"""Characters in one page: some thirty printed pages."""
DEEPEST = 5
"""Conditions inside conditions."""
_MASK = "\ue000"
_JINJA = ImmutableSandboxedEnvironment(undefined=StrictUndefined, keep_trailing_newline=True, autoescape=False)
_ARITHMETIC = (nodes.BinExpr, nodes.UnaryExpr, nodes.Concat)
_LOGIC = (nodes.And, nodes.Or, nodes.Not)
_CALLED = {
    nodes.For: "a loop", nodes.Call: "a call", nodes.Filter: "a filter", nodes.Include: "include",
    nodes.Import: "import", nodes.FromImport: "import", nodes.Extends: "extends", nodes.Block: "block",
    nodes.Macro: "a macro", nodes.Assign: "set", nodes.AssignBlock: "set", nodes.Getitem: "a value in [ ]",
    nodes.Const: "a value", nodes.TemplateData: "a value", nodes.CondExpr: "if ... else inside {{ }}",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Use:
    """A name as used in a text, at an offset of it. `named` is None for a name that does not exist."""

    named: Named | None
    offset: int


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
        tree = _parse(pieces)
    except TemplateSyntaxError as error:
        return Filled("", (), ""), (_syntax(source, error),)
    except RecursionError:
        return Filled("", (), ""), (
            _finding(
                source,
                0,
                "template-syntax",
                "this text is nested too deep to be read",
                "take some of its brackets away",
            ),
        )
    reader = _Reader(source, names)
    body = list(reader.statements(tree.body, 0))
    filled = _JINJA.from_string(nodes.Template(body, lineno=1)).render()
    return Filled(filled, tuple(reader.uses), _masked(source, pieces)), tuple(reader.findings)


def _unreadable(text: Text) -> Finding | None:
    if len(text) > LONGEST:
        return _finding(
            text,
            0,
            "page-too-long",
            f"this text has {len(text)} characters; at most {LONGEST} are read",
            "divide it into several pages",
        )
    private = PRIVATE.search(text)
    if private is None:
        return None
    return _finding(
        text,
        private.start(),
        "private-character",
        f"the character U+{ord(private[0]):04X} has no meaning",
        "delete it, or use the letter or sign that it was meant to be",
    )


def _positioned(source: str) -> Iterator[tuple[int, str, str]]:
    """Jinja's own tokens with the offset of each in place of its line number, so that findings have columns."""
    offset = 0
    for _, kind, piece in _JINJA.lex(source):
        offset = source.index(piece, offset)
        yield offset, kind, piece
        offset += len(piece)


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
    # Raised by the lexer, the number is a line; raised by the parser, it is the offset that stood in for the line.
    offset = error.lineno
    if error.name is None and error.source is not None:
        lines = source.split("\n")
        offset = sum(len(line) + 1 for line in lines[: error.lineno - 1])
    message = (error.message or "this is not a template").rstrip(".")
    return _finding(
        source,
        min(offset, len(source)),
        "template-syntax",
        f"the template cannot be read: {message}",
        "a name stands in {{ }}, as in {{ top.length }}; a condition is {% if edition.units == 'inch' %} "
        "... {% else %} ... {% endif %}",
    )


class _Reader:
    """Checks a syntax tree against what prose may say and puts tokens in the place of names."""

    def __init__(self, source: Text, names: Names) -> None:
        self.source = source
        self.names = names
        self.uses: list[Use] = []
        self.findings: list[Finding] = []

    def statements(self, body: Iterable[nodes.Node], depth: int) -> Iterator[nodes.Node]:
        for node in body:
            if isinstance(node, nodes.Output):
                yield nodes.Output([self.output(child) for child in node.nodes], lineno=node.lineno)
            elif isinstance(node, nodes.If) and depth < DEEPEST:
                yield self.condition(node, depth)
            else:
                self.refuse(node)

    def condition(self, node: nodes.If, depth: int) -> nodes.If:
        return nodes.If(
            self.test(node.test),
            list(self.statements(node.body, depth + 1)),
            [self.condition(branch, depth) for branch in node.elif_],
            list(self.statements(node.else_, depth + 1)),
            lineno=node.lineno,
        )

    def output(self, node: nodes.Expr) -> nodes.Expr:
        if isinstance(node, nodes.TemplateData):
            return node
        path = _path(node)
        if path is None or _reaches_inside(path):
            self.refuse(node)
            return nodes.TemplateData("", lineno=node.lineno)
        named = self.names.find(path)
        if named is None:
            self.unknown(path, _start(node))
        self.uses.append(Use(named, _start(node)))
        return nodes.TemplateData(write_token(len(self.uses) - 1), lineno=node.lineno)

    def test(self, node: nodes.Node) -> nodes.Expr:
        """An expression of a condition: the edition's words compared with texts, joined by and, or, not."""
        if isinstance(node, nodes.Compare):
            operands = [nodes.Operand(each.op, self.test(each.expr)) for each in node.ops]
            return nodes.Compare(self.test(node.expr), operands, lineno=node.lineno)
        if isinstance(node, nodes.Not):
            return nodes.Not(self.test(node.node), lineno=node.lineno)
        if isinstance(node, nodes.And | nodes.Or):
            return type(node)(self.test(node.left), self.test(node.right), lineno=node.lineno)
        if isinstance(node, nodes.Const) and isinstance(node.value, str):
            return node
        path = _path(node)
        if path is None or _reaches_inside(path):
            self.refuse(node)
            return nodes.Const("", lineno=node.lineno)
        if path not in self.names.edition:
            self.not_of_edition(path, _start(node))
        return nodes.Const(self.names.edition.get(path, ""), lineno=node.lineno)

    def unknown(self, path: str, offset: int) -> None:
        follow = self.names.groups.get(path)
        if follow is not None:
            self.find(
                offset,
                "unknown-name",
                f"{path} is a group of names, not a value",
                f"go on with one of its names: {_listed(f'{path}.{name}' for name in follow[:6])}",
            )
            return
        near = self.names.nearest(path)
        remedy = f"did you mean {_listed(near)}?" if near else "name it in parameters.yaml first"
        self.find(offset, "unknown-name", f"there is no {path}", remedy)

    def not_of_edition(self, path: str, offset: int) -> None:
        words = _listed(self.names.edition)
        self.find(
            offset,
            "not-in-prose",
            f"a condition cannot ask for {path}",
            f"a condition may compare {words} with a text in quotes",
        )

    def refuse(self, node: nodes.Node) -> None:
        inside = next((each for each in (node, *node.find_all(nodes.Node)) if _is_inside(each)), None)
        if inside is not None:
            self.find(
                _start(node),
                "forbidden",
                "this reaches for the insides of the program",
                "prose prints names and nothing else: write the name of a parameter, part, page or figure",
            )
        elif isinstance(node, _ARITHMETIC) and not isinstance(node, _LOGIC):
            self.find(
                _start(node),
                "arithmetic-in-prose",
                "a page prints values and does not reckon with them",
                "give the result a name in parameters.yaml, where it is checked and rounded, and write the name",
            )
        elif isinstance(node, nodes.If):
            self.find(
                _start(node),
                "not-in-prose",
                f"conditions are nested more than {DEEPEST} deep",
                "write separate paragraphs",
            )
        else:
            what = _CALLED.get(type(node), "this")
            self.find(
                _start(node),
                "not-in-prose",
                f"{what} cannot be used in prose",
                "write the name of a value in {{ }}, and the rest as plain words",
            )

    def find(self, offset: int, code: str, message: str, remedy: str) -> None:
        self.findings.append(_finding(self.source, offset, code, message, remedy))


def _path(node: nodes.Node) -> str | None:
    """The dotted path of a chain of names, None for anything else."""
    if isinstance(node, nodes.Name):
        return node.name
    if isinstance(node, nodes.Getattr):
        head = _path(node.node)
        return None if head is None else f"{head}.{node.attr}"
    return None


def _start(node: nodes.Node) -> int:
    """The offset where an expression starts. Jinja notes the spot after the name for a chain, so go to its head."""
    while isinstance(node, nodes.Getattr | nodes.Getitem | nodes.Call | nodes.Filter | nodes.Test):
        if node.node is None:
            break
        node = node.node
    return node.lineno


def _reaches_inside(path: str) -> bool:
    return any(name.startswith("_") for name in path.split("."))


def _is_inside(node: nodes.Node) -> bool:
    if isinstance(node, nodes.Getattr):
        return node.attr.startswith("_")
    if isinstance(node, nodes.Getitem):
        return isinstance(node.arg, nodes.Const) and str(node.arg.value).startswith("_")
    return isinstance(node, nodes.Name) and node.name.startswith("_")


def _listed(names: Iterable[str]) -> str:
    return ", ".join(names)
