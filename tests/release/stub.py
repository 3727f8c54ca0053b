"""A release without compiling: statements made by hand, PDFs of a few bytes. For tests of the archive alone."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path
from types import SimpleNamespace
from typing import Any

from planbook.release.archive.reader import Release, read_latest
from planbook.release.compilation import Compiled, Told
from planbook.release.freezing import freeze
from planbook.release.publishing import _Ready
from planbook.release.version import Version
from planbook.source import Door
from planbook.source.models.changes import VersionNotesModel
from planbook.source.text import Text
from planbook.statement.places import PlaceOnPage, Places
from tests.statement.small import STATEMENT

SET = "tote"
PLACES = Places(
    pages=9,
    page_sizes=((210.0, 297.0),) * 9,
    dimensions={"handle/pivot/x": (PlaceOnPage(7, 40.0, 90.0, "44", "9"), PlaceOnPage(7, 41.0, 95.0, "44", "9"))},
    parameters={"tote.length": (PlaceOnPage(3, 20.0, 30.0, "300"), PlaceOnPage(5, 20.0, 30.0, "300"))},
    targets={},
)


def make_workspace(root: Path) -> Path:
    """A folder with one content file, so that there is an input to freeze."""
    folder = root / "content" / SET
    folder.mkdir(parents=True)
    (folder / "set.yaml").write_text("title: Tote\n", encoding="utf-8")
    return root


def compile_stub(version: str) -> dict[str, Compiled]:
    """Two editions of the small statement."""
    compiled = {}
    for name in ("imperial", "metric"):
        edition = replace(STATEMENT.edition, name=name)
        statement = replace(STATEMENT, version=version, edition=edition)
        stated: Any = SimpleNamespace(statement=statement)
        compiled[name] = Compiled(Told(stated, None, 0.0), f"%PDF {name} {version}".encode(), PLACES, 0.0)
    return compiled


def ready(door: Door, set_key: str, wanted: Version, *_: object) -> tuple[_Ready, tuple[()]]:
    """In the place of compiling: a version that may be written."""
    former: Release | None = read_latest(door.root, set_key)[0]
    door.read_text(f"content/{set_key}/set.yaml")
    compiled = compile_stub(str(wanted))
    notes = VersionNotesModel(issued=date(2026, 3, 2), summary=Text("A version."))
    return _Ready(former, compiled, freeze(door, set_key, compiled, former, notes, {})), ()
