"""A tree held against a content model: the typed model, or findings at their places."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache
from typing import Any

from pydantic import TypeAdapter, ValidationError
from pydantic_core import ErrorDetails

from planbook.source.expected import describe, example_line, whole_file
from planbook.source.findings import Finding, Place, Severity
from planbook.source.names import listed, proposed_name, spelled_alike
from planbook.source.spots import Spot, bare, find_spot, known_keys
from planbook.source.text import Text
from planbook.source.tree import Group, Node, Series

Context = Mapping[str, Any]


def validate(annotation: Any, tree: Node) -> tuple[Any | None, tuple[Finding, ...]]:
    """The tree as a value of `annotation` (a content model, or a dict of them), or None and what is wrong with it."""
    try:
        return _adapter(annotation).validate_python(tree), ()
    except ValidationError as error:
        found = [_explain(annotation, tree, fault) for fault in error.errors(include_url=False)]
        return None, tuple(dict.fromkeys(found))


@cache
def _adapter(annotation: Any) -> TypeAdapter[Any]:
    return TypeAdapter(annotation)


def _explain(annotation: Any, tree: Node, error: ErrorDetails) -> Finding:
    path = error["loc"]
    if error["type"] == "missing" and isinstance(path[-1], int):  # a list is too short: a fault of the whole list
        return _wrong_kind(find_spot(annotation, tree, path[:-1]), {})
    spot = find_spot(annotation, tree, path)
    explanation = EXPLANATIONS.get(error["type"], _wrong_kind)
    return explanation(spot, error.get("ctx", {}) | {"step": path[-1] if path else ""})


def _missing(spot: Spot, context: Context) -> Finding:
    step = context["step"]
    field = known_keys(spot.owner)[step] if spot.owner else None
    line = example_line(field.annotation, step) if field else f"{step}: ..."
    return _finding("key-missing", f"`{step}` is missing here.", f"Add it, for example `{line}`.", spot.place)


def _unknown_key(spot: Spot, context: Context) -> Finding:
    step = str(context["step"])
    known = known_keys(spot.owner) if spot.owner else {}
    place = spot.key.place if spot.key is not None else spot.place
    near = spelled_alike(step, known, 1)
    value = f"{near[0]}: {spot.node}" if near and isinstance(spot.node, Text) else ""
    remedy = f"Did you mean `{value or near[0]}`?" if near else f"What can stand here: {listed(known, 'and')}."
    return _finding("key-unknown", f"`{step}` is not known here.", remedy, place)


def _unrecognised(spot: Spot, context: Context) -> Finding:
    what, keys, found = context["what"], context["keys"], context["found"]
    if found:
        return _finding(
            "kind-double",
            f"{spot.name} is {listed(found, 'and')} at once; a {what} is one of them.",
            f"Keep one, and make a {what} of its own of the other.",
            _holder(spot),
        )
    tried = [near for key in spot.node if (near := spelled_alike(key, keys, 1))] if isinstance(spot.node, Group) else []
    remedy = f"Did you mean `{tried[0][0]}`?" if tried else f"Give it one of {listed(keys, 'and')}, with its value."
    return _finding("kind-missing", f"{spot.name} does not say what {what} it is.", remedy, _holder(spot))


def _bad_name(spot: Spot, _: Context) -> Finding:
    text = str(spot.key if spot.key is not None else spot.node)
    proposed = ".".join(proposed_name(part) for part in text.split("."))
    return _finding(
        "name-form",
        f"`{text}` cannot be a name: names are lower-case letters, digits and underscores.",
        f"Write `{proposed}`.",
        spot.key.place if spot.key is not None else spot.place,
    )


def _bad_choice(spot: Spot, _: Context) -> Finding:
    choices = [member.value for member in bare(spot.annotation)]
    near = spelled_alike(str(spot.node), choices)
    meant = f"Did you mean {listed(near, 'or')}? " if near else ""
    return _finding(
        "value-choice",
        f"{spot.name} cannot be `{spot.node}`.",
        f"{meant}Possible: {listed(choices, 'and')}.",
        spot.place,
    )


def _out_of_range(spot: Spot, context: Context) -> Finding:
    limit = f"at least {context['ge']}" if "ge" in context else f"at most {context['le']}"
    return _finding(
        "value-range",
        f"{spot.name} is {spot.node}; it must be {limit}.",
        f"Write a number that is {limit}.",
        spot.place,
    )


def _wrong_kind(spot: Spot, _: Context) -> Finding:
    shown = f", for example, `{example_line(spot.annotation, spot.key)}`" if spot.key is not None else ""
    return _finding(
        "value-kind",
        f"{spot.name} has {_what(spot.node)}; expected is {describe(spot.annotation)}.",
        f"Write{shown or f' {whole_file(spot.annotation)}'}.",
        spot.place,
    )


def _together(spot: Spot, context: Context) -> Finding:
    return _finding("values-together", context["message"], context["remedy"], _holder(spot))


def _bad_form(spot: Spot, context: Context) -> Finding:
    text, place = (spot.node, spot.place) if isinstance(spot.node, Text) else (spot.key, _holder(spot))
    message = f"`{text}` is not {context['what']}."
    return _finding("value-form", message, f"Write one like `{context['sample']}`.", place)


def _empty(spot: Spot, _: Context) -> Finding:
    remedy = f"Add one, for example `{example_line(spot.annotation, str(spot.key))}`."
    return _finding("value-empty", f"{spot.name} has no entry.", remedy, _holder(spot))


def _what(node: Node) -> str:
    if isinstance(node, Group):
        return "a group of names with values"
    if isinstance(node, Series):
        return f"a list of {len(node)}" if node else "an empty list"
    return f"the value `{node}`" if len(node) <= 60 else "a long text"


def _holder(spot: Spot) -> Place:
    """The name of a thing as a whole, or where the thing starts when it has no name."""
    return spot.key.place if spot.key is not None else spot.place


def _finding(code: str, message: str, remedy: str, place: Place) -> Finding:
    return Finding(code, Severity.STOP, message, remedy, place)


EXPLANATIONS: dict[str, Callable[[Spot, Context], Finding]] = {
    "missing": _missing,
    "extra_forbidden": _unknown_key,
    "unrecognised": _unrecognised,
    "together": _together,
    "name": _bad_name,
    "form": _bad_form,
    "too_short": _empty,
    "enum": _bad_choice,
    "greater_than_equal": _out_of_range,
    "less_than_equal": _out_of_range,
}
"""By the type of a pydantic error or of our own; all other errors say that the value is of the wrong kind."""
