"""The codes of all findings, read off the program's text.

A code is a literal given as `code` to `Finding`, or to any function or class of planbook with a parameter or field of
that name that passes it on.
"""

import ast
import re
from collections.abc import Iterator, Mapping
from pathlib import Path

PACKAGE = Path(__file__).parents[2] / "planbook"
CODE = re.compile(r"[a-z][a-z0-9]*(-[a-z0-9]+)*")


def finding_codes() -> dict[str, set[str]]:
    """Every code with the files that use it."""
    trees = {path: ast.parse(path.read_text()) for path in sorted(PACKAGE.rglob("*.py"))}
    takers = {name: position for tree in trees.values() for name, position in _takers(tree)}
    codes: dict[str, set[str]] = {}
    for path, tree in trees.items():
        known = takers | dict(_takers(tree))  # a module's own functions go before those of the same name elsewhere
        for call in (node for node in ast.walk(tree) if isinstance(node, ast.Call)):
            for code in _codes_of(call, known):
                codes.setdefault(code, set()).add(str(path.relative_to(PACKAGE.parent)))
    return codes


def literals() -> set[str]:
    """Every text that stands by itself in the program: a code that is no such literal is used nowhere."""
    trees = [ast.parse(path.read_text()) for path in PACKAGE.rglob("*.py")]
    constants = (node for tree in trees for node in ast.walk(tree) if isinstance(node, ast.Constant))
    return {node.value for node in constants if isinstance(node.value, str)}


def _takers(tree: ast.Module) -> Iterator[tuple[str, int]]:
    """Functions and classes that take a code, with its place among their positional arguments."""
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef):
            names = [each.arg for each in node.args.args if each.arg not in ("self", "cls")]
        elif isinstance(node, ast.ClassDef):
            fields = [each.target for each in node.body if isinstance(each, ast.AnnAssign)]
            names = [field.id for field in fields if isinstance(field, ast.Name)]
        else:
            continue
        if "code" in names:
            yield node.name, names.index("code")


def _codes_of(call: ast.Call, takers: Mapping[str, int]) -> Iterator[str]:
    name = call.func.attr if isinstance(call.func, ast.Attribute) else getattr(call.func, "id", "")
    if name not in takers:
        return
    given = [keyword.value for keyword in call.keywords if keyword.arg == "code"]
    given += call.args[takers[name] : takers[name] + 1]
    for value in given:
        for each in (value.body, value.orelse) if isinstance(value, ast.IfExp) else (value,):
            if isinstance(each, ast.Constant) and isinstance(each.value, str) and CODE.fullmatch(each.value):
                yield each.value
