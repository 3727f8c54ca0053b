"""The words in content that a builder reads: every one of them found, and put in the place of others."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass, replace
from typing import Any, TypeVar

from planbook.source.findings import Place
from planbook.source.models.base import ContentModel
from planbook.source.text import Text, Words

T = TypeVar("T")


def words_of(value: Any) -> Iterator[Words]:
    """Those that were typed, in content, a model, a mapping or a tuple; what stands there by default is none."""
    if isinstance(value, Words):
        yield from (value,) if value.place.file else ()
    else:
        for each in _inner(value).values():
            yield from words_of(each)


def in_words(value: T, told: Mapping[Place, Text]) -> T:
    """The same with other words in the places of those that stand in a file there."""
    if isinstance(value, Words):
        text = told.get(value.place)
        return value if text is None else type(value)(text, text.place)
    inner = {name: (each, in_words(each, told)) for name, each in _inner(value).items()}
    changed = {name: now for name, (was, now) in inner.items() if now is not was}
    return _with(value, changed, inner) if changed else value


def _inner(value: Any) -> Mapping[Any, Any]:
    if isinstance(value, ContentModel):
        return {name: getattr(value, name) for name in type(value).model_fields}
    if is_dataclass(value) and not isinstance(value, type):
        return {each.name: getattr(value, each.name) for each in fields(value)}
    if isinstance(value, Mapping):
        return value
    return dict(enumerate(value)) if isinstance(value, tuple) else {}


def _with(value: Any, changed: Mapping[Any, Any], inner: Mapping[Any, tuple[Any, Any]]) -> Any:
    if isinstance(value, ContentModel):
        return value.model_copy(update=dict(changed))
    if is_dataclass(value) and not isinstance(value, type):
        return replace(value, **changed)
    now = {name: after for name, (_, after) in inner.items()}
    return now if isinstance(value, Mapping) else tuple(now.values())
