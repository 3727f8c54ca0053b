"""A YAML file as a tree of groups, lists and texts, each with its place. Nothing is converted: `1.10` stays `1.10`."""

from __future__ import annotations

from collections.abc import Iterator

from planbook.source.findings import Place
from planbook.source.text import Text


class Group(dict["Text", "Node"]):
    """Names with values, in file order, and where the first of them stands."""

    __slots__ = ("place",)

    def __init__(self, place: Place) -> None:
        super().__init__()
        self.place = place

    def key(self, name: str) -> Text:
        """The name as it stands in the file, with its place. Raises `KeyError`."""
        for key in self:
            if key == name:
                return key
        raise KeyError(name)


class Series(list["Node"]):
    """A list and where it starts."""

    __slots__ = ("place",)

    def __init__(self, place: Place) -> None:
        super().__init__()
        self.place = place


Node = Group | Series | Text


def texts_in(node: Node, path: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], Text]]:
    """Every text with the names that lead to it, and of a list the place in it, from 0."""
    if isinstance(node, Text):
        yield path, node
        return
    inner = node.items() if isinstance(node, Group) else enumerate(node)
    for name, each in inner:
        yield from texts_in(each, (*path, str(name)))
