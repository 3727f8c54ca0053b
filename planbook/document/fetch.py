"""The only addresses a document may read from: packaged fonts, templates, and pictures of its own plan set."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import PurePosixPath
from typing import Final

from planbook.document.fonts import FACES
from planbook.drawing.recording import Drawing
from planbook.source import Door

BASE: Final = "https://planbook.invalid/"
"""A name that is reserved for never existing (RFC 2606): nothing under it can leave the machine."""
FONTS, TEMPLATES, PICTURES = f"{BASE}fonts/", f"{BASE}templates/", f"{BASE}pictures/"
_TYPES: Final = {
    ".ttf": "font/ttf",
    ".css": "text/css",
    ".svg": "image/svg+xml",
    ".png": "image/png",
    ".jpg": "image/jpeg",
}


def content_type(url: str) -> str:
    """The media type of what stands at an address, from the ending of its name."""
    return _TYPES.get(PurePosixPath(url).suffix, "application/octet-stream")


class RefusedError(ValueError):
    """An address outside fonts, templates and pictures."""


@dataclass(frozen=True)
class Fetcher:
    """Serves bytes by address. `pictures` are the plan set's, already cleaned; `drawings` those of them that are."""

    door: Door
    pictures: Mapping[str, bytes] = field(default_factory=dict)
    drawings: Mapping[str, Drawing] = field(default_factory=dict)

    def read(self, url: str) -> bytes:
        """The bytes at an address; raises RefusedError."""
        if url.startswith(FONTS) and url.removeprefix(FONTS) in {face.file for face in FACES}:
            return self.door.read_font(url.removeprefix(FONTS))
        if url.startswith(TEMPLATES) and "/" not in url.removeprefix(TEMPLATES):
            return self.door.read_bytes(f"templates/{url.removeprefix(TEMPLATES)}")
        if url.startswith(PICTURES) and url.removeprefix(PICTURES) in self.pictures:
            return self.pictures[url.removeprefix(PICTURES)]
        raise RefusedError(f"a plan set reads its own fonts, templates and pictures only, not {url}")
