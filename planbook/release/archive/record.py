"""record.json: what a release is made of, the hash that ties it to the release before it, and its own."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field
from typing import Any

FORM = 2
_SEALED = 2
"""From this form on a record holds its own hash; that of an older one stands in the release after it only."""
ALTERED = "it was altered after the release"
_SEAL = "sha256"


@dataclass(frozen=True, slots=True)
class Previous:
    """The release before: its version and the SHA-256 of its record.json, which holds the hashes of all its files."""

    version: str
    sha256: str


@dataclass(frozen=True, slots=True)
class Record:
    """The whole of record.json. Paths are posix, relative to the release's folder; hashes are SHA-256 in hex."""

    set: str
    version: str
    issued: str
    """ISO 8601 date, as given in changes.yaml."""
    editions: tuple[str, ...]
    files: Mapping[str, str]
    """Every file of the release but record.json itself."""
    fonts: Mapping[str, str]
    """Fonts that were set, by hash only: they are dependencies, not copied."""
    tools: Mapping[str, str]
    """Versions of the programs that made it."""
    previous: Previous | None = None
    form: int = field(default=FORM)


def digest(data: bytes) -> str:
    """SHA-256 in hex."""
    return hashlib.sha256(data).hexdigest()


def write_record(record: Record) -> bytes:
    """Canonical JSON: sorted names, two spaces, one closing newline; with the SHA-256 of all that without itself."""
    told = asdict(record)
    return canonical({**told, _SEAL: digest(canonical(told))})


def read_record(data: bytes) -> Record:
    """The record in a record.json. Raises ValueError when it is none, was altered, or is of a form not known yet."""
    try:
        fields: dict[str, Any] = json.loads(data)
        if fields["form"] > FORM:
            raise ValueError(f"its form is {fields['form']}, and this planbook reads forms up to {FORM}")
        if fields.pop(_SEAL, None) != digest(canonical(fields)) and fields["form"] >= _SEALED:
            raise ValueError(ALTERED)
        previous = fields.pop("previous")
        fields["editions"] = tuple(fields["editions"])
        return Record(**fields, previous=Previous(**previous) if previous else None)
    except (KeyError, TypeError, AttributeError, UnicodeDecodeError, json.JSONDecodeError) as fault:
        raise ValueError("it does not read as a record") from fault


def canonical(value: object) -> bytes:
    """The same value always gives the same bytes."""
    return (json.dumps(value, ensure_ascii=False, sort_keys=True, indent=2) + "\n").encode()
