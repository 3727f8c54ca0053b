"""What prose may say in its templating, and nothing else: names in {{ }}, conditions on the edition in {% if %}."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from jinja2 import nodes

from planbook.source.findings import Finding, Severity
from planbook.source.names import listed
from planbook.source.sentences import capital
from planbook.source.text import Text
from planbook.statement.prose.names import Named, Names
from planbook.statement.prose.spots import place_of
from planbook.statement.prose.tokens import write_token

DEEPEST = 5
"""Conditions inside conditions."""
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


class Permitted:
    """Checks a syntax tree against what prose may say and puts tokens in the place of names."""

    def __init__(self, source: Text, names: Names) -> None:
        self.source = source
        self.names = names
        self.uses: list[Use] = []
        self.findings: list[Finding] = []

    def statements(self, body: Iterable[nodes.Node], depth: int) -> Iterator[nodes.Node]:
        """The statements of a body with names as tokens; what is refused is left out. `depth` counts conditions."""
        for node in body:
            if isinstance(node, nodes.Output):
                yield nodes.Output([self._output(child) for child in node.nodes], lineno=node.lineno)
            elif isinstance(node, nodes.If) and depth < DEEPEST:
                yield self._condition(node, depth)
            else:
                self._refuse(node)

    def _condition(self, node: nodes.If, depth: int) -> nodes.If:
        return nodes.If(
            self._test(node.test),
            list(self.statements(node.body, depth + 1)),
            [self._condition(branch, depth) for branch in node.elif_],
            list(self.statements(node.else_, depth + 1)),
            lineno=node.lineno,
        )

    def _output(self, node: nodes.Expr) -> nodes.Expr:
        if isinstance(node, nodes.TemplateData):
            return node
        path = _path(node)
        if path is None or _reaches_inside(path):
            self._refuse(node)
            return nodes.TemplateData("", lineno=node.lineno)
        named = self.names.find(path)
        if named is None:
            self._unknown(path, _start(node))
        self.uses.append(Use(named, _start(node)))
        return nodes.TemplateData(write_token(len(self.uses) - 1), lineno=node.lineno)

    def _test(self, node: nodes.Node) -> nodes.Expr:
        """An expression of a condition: the edition's words compared with texts, joined by and, or, not."""
        if isinstance(node, nodes.Compare):
            operands = [nodes.Operand(each.op, self._test(each.expr)) for each in node.ops]
            return nodes.Compare(self._test(node.expr), operands, lineno=node.lineno)
        if isinstance(node, nodes.Not):
            return nodes.Not(self._test(node.node), lineno=node.lineno)
        if isinstance(node, nodes.And | nodes.Or):
            return type(node)(self._test(node.left), self._test(node.right), lineno=node.lineno)
        if isinstance(node, nodes.Const) and isinstance(node.value, str):
            return node
        path = _path(node)
        if path is None or _reaches_inside(path):
            self._refuse(node)
            return nodes.Const("", lineno=node.lineno)
        if path not in self.names.edition:
            self._not_of_edition(path, _start(node))
        return nodes.Const(self.names.edition.get(path, ""), lineno=node.lineno)

    def _unknown(self, path: str, offset: int) -> None:
        follow = self.names.groups.get(path)
        if follow is not None:
            self._find(
                offset,
                "unknown-name",
                f"{path} is a group of names, not a value.",
                f"Go on with one of its names: {_listed(f'{path}.{name}' for name in follow[:6])}.",
            )
            return
        near = self.names.nearest(path)
        remedy = f"Did you mean {listed(near, 'or')}?" if near else self._others(path)
        self._find(offset, "unknown-name", f"There is no `{path}`.", remedy)

    def _others(self, path: str) -> str:
        """What there is in place of a name that is like none: the names of the group in which it was looked for."""
        words = path.split(".")
        starts = (".".join(words[:count]) for count in range(len(words) - 1, 0, -1))
        group = next((start for start in starts if start in self.names.groups), "")
        inside = self.names.groups.get(group, ())
        there = f"{_listed(f'{group}.{name}' for name in inside[:6])}{', ...' if len(inside) > 6 else ''}"
        if words[0] in _MADE_BY:
            needs = _MADE_BY[words[0]]
            if not inside:
                return f"There is none yet; one needs {needs}."
            return f"Names there are: {there}{f'; another needs {needs}' if needs else ''}."
        return f"Name it in parameters.yaml first{f', or take one of {there}' if inside else ''}."

    def _not_of_edition(self, path: str, offset: int) -> None:
        words = _listed(self.names.edition)
        self._find(
            offset,
            "not-in-prose",
            f"A condition cannot ask for {path}.",
            f"A condition may compare {words} with a text in quotes.",
        )

    def _refuse(self, node: nodes.Node) -> None:
        inside = next((each for each in (node, *node.find_all(nodes.Node)) if _is_inside(each)), None)
        self._find(_start(node), *(_FORBIDDEN if inside is not None else _refusal(node)))

    def _find(self, offset: int, code: str, message: str, remedy: str) -> None:
        self.findings.append(Finding(code, Severity.STOP, message, remedy, place_of(self.source, offset)))


_MADE_BY = {
    "part": "a file in parts/", "sheet": "a part in parts/", "dim": "a feature of a part", "page": "a file in pages/",
    "step": "a file in steps/", "figure": "an entry of figures.yaml", "see": "an entry of figures.yaml",
    "caution": "an entry of cautions.yaml", "table": "",
    "stock": "an entry of the market's table", "hardware": "an entry of the market's table",
}  # fmt: skip
"""What it takes to have a name of each group that is none of parameters."""

_FORBIDDEN = (
    "forbidden",
    "this reaches for the insides of the program",
    "prose prints names and nothing else: write the name of a parameter, part, page or figure",
)


def _refusal(node: nodes.Node) -> tuple[str, str, str]:
    """Code, message and remedy for what prose does not do."""
    if isinstance(node, _ARITHMETIC) and not isinstance(node, _LOGIC):
        message = "A page prints values and does not reckon with them."
        remedy = "Give the result a name in parameters.yaml, where it is checked and rounded, and write the name."
        return "arithmetic-in-prose", message, remedy
    if isinstance(node, nodes.If):
        return "not-in-prose", f"Conditions are nested more than {DEEPEST} deep.", "Write separate paragraphs."
    message = f"{capital(_CALLED.get(type(node), 'this'))} cannot be used in prose."
    return "not-in-prose", message, "Write the name of a value in {{ }}, and the rest as plain words."


def _path(node: nodes.Node) -> str | None:
    """The dotted path of a chain of names, None for anything else."""
    words: list[str] = []
    while isinstance(node, nodes.Getattr):
        words.append(node.attr)
        node = node.node
    return ".".join((node.name, *reversed(words))) if isinstance(node, nodes.Name) else None


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
