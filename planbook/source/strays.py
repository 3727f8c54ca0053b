"""Files that nothing reads, most likely because their name is misspelt: in a plan set's folder, or a market's table."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator

from planbook.source.door import Door, Refused
from planbook.source.findings import Finding, Place, Severity
from planbook.source.forms import SET_FILE_NAMES, SET_FOLDERS, SHARED_CAUTIONS, SHARED_HANDBOOK, SHARED_MARKETS
from planbook.source.names import spelled_alike
from planbook.source.text import Text
from planbook.source.translating import FOLDER as TRANSLATIONS
from planbook.source.tree import Group
from planbook.source.yaml_tree import read_tree

YAML_ENDINGS = (".yaml", ".yml")
_CONTENT = (*YAML_ENDINGS, ".md")
_SLIP = 0.75
"""So like is a folder's name to one of ours that was mistyped; `notes` is less like `steps`."""


def find_strays(door: Door, folder: str) -> tuple[Finding, ...]:
    """A warning for each YAML file with an unknown name, each file with a wrong ending or in a folder that is none of
    content's, and each market's table that no edition asks for."""
    return (*_misnamed(door, folder), *_misplaced(door, folder), *_idle_markets(door, folder))


def _misnamed(door: Door, folder: str) -> Iterator[Finding]:
    yield from _unknown(door.list_files(folder), SET_FILE_NAMES, "a plan set")
    shared = Door(door.root, defaults=None).list_files("shared")
    yield from _unknown(shared, {path.rsplit("/", 1)[-1] for path in (SHARED_CAUTIONS, SHARED_HANDBOOK)}, "shared/")
    folders = {f"{folder}/{inner}": ending for inner, ending in SET_FOLDERS.items()}
    for inner, ending in {**folders, SHARED_MARKETS: ".yaml"}.items():
        for path in door.list_files(inner):
            name = path.rsplit("/", 1)[-1]
            if not name.endswith(ending):
                near = (f"{name.rsplit('.', 1)[0]}{ending}",)
                yield _stray(path, f"the files of this folder end in {ending}", near)


def _unknown(paths: Iterable[str], known: Collection[str], where: str) -> Iterator[Finding]:
    for path in paths:
        if (name := path.rsplit("/", 1)[-1]).endswith(YAML_ENDINGS) and name not in known:
            yield _stray(path, f"no file of {where} has this name", spelled_alike(name, known, 1))


def _misplaced(door: Door, folder: str) -> Iterator[Finding]:
    """Prose and tables in a folder with an unknown name, or in one that stands inside a folder of content.

    Whoever keeps notes beside content may: prose in a folder of the set counts only if its name is nearly one of ours.
    """
    for inner in door.list_folders(folder):
        name = inner.rsplit("/", 1)[-1]
        if name == TRANSLATIONS:
            for language in door.list_folders(inner):
                for each in door.list_folders(language):
                    known = each.rsplit("/", 1)[-1] in SET_FOLDERS
                    yield from _within(door, each) if known else _in_folder(door, each, _meant(each), _CONTENT)
        elif name in SET_FOLDERS:
            yield from _within(door, inner)
        else:
            near = _meant(inner)
            yield from _in_folder(door, inner, near, _CONTENT if near else YAML_ENDINGS)


def _within(door: Door, folder: str) -> Iterator[Finding]:
    for inner in door.list_folders(folder):
        for path in door.list_files(inner):
            if path.endswith(_CONTENT):
                yield _stray(path, f"`{folder}/` has no folders of its own", (f"{folder}/{path.rsplit('/', 1)[-1]}",))


def _in_folder(door: Door, folder: str, near: tuple[str, ...], endings: tuple[str, ...]) -> Iterator[Finding]:
    for path in door.list_files(folder):
        if path.endswith(endings):
            yield _stray(path, f"content has no folder `{folder.rsplit('/', 1)[-1]}/`", near)


def _meant(folder: str) -> tuple[str, ...]:
    """The folder of content that the name of an unknown one is nearly."""
    above, _, name = folder.rpartition("/")
    return tuple(f"{above}/{each}/" for each in spelled_alike(name, SET_FOLDERS, 1, _SLIP))


def _idle_markets(door: Door, folder: str) -> Iterator[Finding]:
    """Of the workspace's own tables: those that come with planbook may well be idle.

    Other plan sets are read through a door of their own, so that they are no part of what this one is made of. As long
    as one of them cannot be read, or asks for a market that there is not, nobody knows which table it means.
    """
    own = Door(door.root, defaults=None)
    asked = {each: _asked(own, each) for each in own.list_folders("content")}
    if all(_known(door, each, names) for each, names in asked.items()):
        every = {name for names in asked.values() for name in names or ()}
        yield from _idle(own.list_files(SHARED_MARKETS, ".yaml"), every, "plan set")
        for inner in ("markets", "prices"):
            yield from _idle(own.list_files(f"{folder}/{inner}", ".yaml"), asked[folder] or (), "edition")


def _asked(door: Door, folder: str) -> frozenset[str] | None:
    """The markets of a plan set's editions; none of a folder without set.yaml; None when it cannot be read."""
    path = f"{folder}/set.yaml"
    if not door.exists(path):
        return frozenset()
    try:
        tree, _ = read_tree(door.read_text(path), path)
    except Refused:
        return None
    editions = tree.get(Text("editions")) if isinstance(tree, Group) else None
    if not isinstance(editions, Group):
        return None
    return frozenset(str(each.get(Text("market"))) for each in editions.values() if isinstance(each, Group))


def _known(door: Door, folder: str, markets: frozenset[str] | None) -> bool:
    return markets is not None and all(
        door.exists(f"{SHARED_MARKETS}/{name}.yaml") or door.exists(f"{folder}/markets/{name}.yaml") for name in markets
    )


def _idle(paths: Iterable[str], markets: Iterable[str], asker: str) -> Iterator[Finding]:
    names = {f"{name}.yaml" for name in markets}
    for path in paths:
        if (name := path.rsplit("/", 1)[-1]) not in names:
            yield _stray(path, f"no {asker} asks for this market", spelled_alike(name, names, 1))


def _stray(path: str, why: str, near: tuple[str, ...]) -> Finding:
    remedy = f"Did you mean `{near[0]}`?" if near else "Delete it, or move it elsewhere."
    return Finding("file-stray", Severity.WARN, f"`{path}` is not read: {why}.", remedy, Place(path, 1, 1))
