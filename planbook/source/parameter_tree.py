"""parameters.yaml: groups of groups, flattened to dotted names with leaves."""

from __future__ import annotations

from collections.abc import Iterator

from planbook.source.findings import Finding, Severity
from planbook.source.models.parameters import ParameterModel
from planbook.source.names import is_name, proposed_name
from planbook.source.spots import known_keys
from planbook.source.text import Text
from planbook.source.tree import Group, Node, Series
from planbook.source.validation import validate

LEAF_KEYS = frozenset(known_keys(ParameterModel))


def read_parameters(tree: Node) -> tuple[dict[Text, ParameterModel], tuple[Finding, ...]]:
    """Every parameter by its dotted name, which has the place of its last key, in file order.

    A scalar is a leaf; so is a mapping with any of the keys of `ParameterModel`, which therefore name no parameter.
    """
    if not isinstance(tree, Group):
        return {}, (_not_a_group(tree),)
    leaves: dict[Text, ParameterModel] = {}
    findings: list[Finding] = []
    for name, node in _leaves(tree, ""):
        if not is_name(name.rsplit(".", 1)[-1]):
            findings.append(_bad_name(name))
            continue
        if isinstance(node, Series):
            findings.append(_is_list(name, node))
            continue
        leaf, faults = validate(ParameterModel, node)
        findings.extend(faults)
        if leaf is not None:
            leaves[name] = leaf
    return leaves, tuple(findings)


def _leaves(group: Group, prefix: str) -> Iterator[tuple[Text, Node]]:
    for key, node in group.items():
        name = Text(f"{prefix}{key}", key.place)
        if isinstance(node, Group) and is_name(key) and LEAF_KEYS.isdisjoint(node):
            yield from _leaves(node, f"{name}.")
        else:
            yield name, node


def _not_a_group(tree: Node) -> Finding:
    return Finding(
        "parameters-form",
        Severity.STOP,
        "The parameters are names with values.",
        "Write, for example, `top: {length: 1500 mm}`.",
        tree.place,
    )


def _bad_name(name: Text) -> Finding:
    last = name.rsplit(".", 1)[-1]
    return Finding(
        "name-form",
        Severity.STOP,
        f"`{last}` cannot be a name: names are lower-case letters, digits and underscores.",
        f"Write `{proposed_name(last)}`.",
        name.place,
    )


def _is_list(name: Text, node: Series) -> Finding:
    return Finding(
        "parameters-form",
        Severity.STOP,
        f"`{name}` is a list; a parameter has one value.",
        f"Give each value a name of its own: `{name}: {{first: ..., second: ...}}`.",
        node.place,
    )
