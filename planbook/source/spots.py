"""From the path of a validation error to the spot in the tree: which node, under which key, of which model."""

from __future__ import annotations

import types
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated, Any, Union, get_args, get_origin

from pydantic import Tag
from pydantic.fields import FieldInfo

from planbook.source.findings import Place
from planbook.source.models.base import ContentModel
from planbook.source.text import Text
from planbook.source.tree import Group, Node, Series


@dataclass(frozen=True, slots=True)
class Spot:
    """Where an error path leads. `key` is the last name on the way, `owner` the model whose field it is."""

    annotation: Any
    node: Node
    key: Text | None = None
    owner: type[ContentModel] | None = None
    field: FieldInfo | None = None

    @property
    def name(self) -> str:
        """How to call the spot in a message."""
        return f"`{self.key}`" if self.key is not None else "the file"

    @property
    def place(self) -> Place:
        """Where the value stands."""
        return self.node.place


def find_spot(annotation: Any, node: Node, path: Sequence[str | int]) -> Spot:
    """Follows a pydantic error path through the annotation and the tree side by side.

    Steps that have no node of their own (the tag of a union, the fields behind a short form) leave the node alone.
    """
    spot = Spot(annotation, node)
    for step in path:
        if step == "[key]":
            break
        spot = _step(spot, step)
    return spot


def bare(annotation: Any) -> Any:
    """The annotation without `Annotated` and without `| None`."""
    while True:
        origin = get_origin(annotation)
        if origin is Annotated:
            annotation = get_args(annotation)[0]
        elif _is_union(annotation) and type(None) in get_args(annotation):
            rest = [arm for arm in get_args(annotation) if arm is not type(None)]
            annotation = Union[tuple(rest)]  # noqa: UP007, the arms are known at run time only
        else:
            return annotation


def known_keys(model: type[ContentModel]) -> dict[str, FieldInfo]:
    """The model's fields by the key that stands in the file."""
    return {field.alias or name: field for name, field in model.model_fields.items()}


def _step(spot: Spot, step: str | int) -> Spot:
    kind = bare(spot.annotation)
    if _is_union(kind):
        return Spot(_arm(kind, str(step)), spot.node, spot.key, spot.owner, spot.field)
    if isinstance(kind, type) and issubclass(kind, ContentModel):
        key, node = _child(spot, step)
        field = known_keys(kind).get(str(step))
        return Spot(field.annotation if field else None, node, key, kind, field)
    arguments = get_args(kind)
    if get_origin(kind) is dict:
        key, node = _child(spot, step)
        return Spot(arguments[1], node, key)
    if get_origin(kind) is tuple and isinstance(step, int):
        _, node = _child(spot, step)
        inner = arguments[0] if arguments[-1] is Ellipsis else arguments[min(step, len(arguments) - 1)]
        return Spot(inner, node, spot.key, spot.owner, spot.field)
    return spot


def _child(spot: Spot, step: str | int) -> tuple[Text | None, Node]:
    node = spot.node
    if isinstance(node, Group) and step in node:
        key = node.key(str(step))
        return key, node[key]
    if isinstance(node, Series) and isinstance(step, int) and step < len(node):
        return spot.key, node[step]
    return spot.key, node


def _arm(union: Any, tag: str) -> Any:
    for arm in get_args(union):
        if any(isinstance(mark, Tag) and mark.tag == tag for mark in getattr(arm, "__metadata__", ())):
            return arm
    return None


def _is_union(annotation: Any) -> bool:
    return get_origin(annotation) in (Union, types.UnionType)
