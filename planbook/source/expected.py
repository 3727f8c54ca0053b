"""What a model expects at a spot, in words, and an example of it: read off the annotation."""

from __future__ import annotations

from datetime import date
from enum import StrEnum
from typing import Any, get_args, get_origin

from planbook.source.models.base import ContentModel, ShortModel
from planbook.source.names import listed
from planbook.source.spots import bare, known_keys
from planbook.source.text import Formula, Text


def describe(annotation: Any) -> str:
    """What is expected, to follow "is": `two values in brackets`."""
    kind = bare(annotation)
    arguments = get_args(kind)
    if get_origin(kind) is tuple:
        return "a list in brackets" if arguments[-1] is Ellipsis else f"a list of {len(arguments)} values in brackets"
    if get_origin(kind) is dict or _is(kind, ContentModel) or arguments:
        return "a group of names with values"
    if _is(kind, StrEnum):
        return f"one of {listed([member.value for member in kind], 'and')}"
    if _is(kind, Formula):
        return "a measure or a formula"
    words = {bool: "`true` or `false`", int: "a whole number", date: "a date as year-month-day", Text: "a text"}
    return words.get(kind, "a value")


def example(annotation: Any, key: str = "") -> str:
    """A value that would be accepted, as it is written in a file; `key` makes it apter."""
    kind = bare(annotation)
    arguments = get_args(kind)
    if get_origin(kind) is tuple:
        inner = arguments[:1] if arguments[-1] is Ellipsis else arguments
        return f"[{', '.join(example(each) for each in inner)}]"
    if get_origin(kind) is dict:
        return f"{{name: {example(arguments[1])}}}"
    if arguments:  # kinds told apart by their key: the first stands for all
        return example(arguments[0], key)
    return _example_group(kind) if _is(kind, ContentModel) else _example_value(kind, key)


def example_line(annotation: Any, key: str) -> str:
    """The example with its name: `number: 1`."""
    return f"{key}: {example(annotation, key)}"


def whole_file(annotation: Any) -> str:
    """What a file of this form holds, to follow "write": its keys that must stand, or an entry as an example."""
    kind = bare(annotation)
    if _is(kind, ContentModel) and (keys := _needed_keys(kind)):
        return f"one name with its value to a line: {listed(keys, 'and')} must be among them"
    return f"one name with its value to a line, for example `{example(annotation)[1:-1]}`"


def _needed_keys(model: type[ContentModel]) -> list[str]:
    return [key for key, field in known_keys(model).items() if field.is_required()]


def _example_group(model: type[ContentModel]) -> str:
    fields = known_keys(model)
    if issubclass(model, ShortModel):
        return example(fields[model.short_key].annotation)
    required = [example_line(fields[key].annotation, key) for key in _needed_keys(model)]
    return f"{{{', '.join(required)}}}"


def _example_value(kind: Any, key: str) -> str:
    if _is(kind, StrEnum):
        return str(next(iter(kind)).value)
    if _is(kind, Formula):
        return "90 deg" if "angle" in key or key == "turn" else "18 mm"
    return {bool: "true", int: "1", date: "2026-05-31"}.get(kind, '"..."')


def _is(kind: Any, base: type) -> bool:
    return isinstance(kind, type) and issubclass(kind, base)
