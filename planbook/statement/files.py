"""The file form of a statement and of a places record: canonical JSON, read for ever.

Canonical: UTF-8, keys sorted, no spaces, numbers in the shortest form that reads back the same, a newline at the end.
An older form is upgraded in memory; its file is not touched. A newer form is refused.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from pydantic import ConfigDict, TypeAdapter, ValidationError

from planbook.source.findings import Finding, Place, Severity
from planbook.statement.model import FORM, Statement
from planbook.statement.places import Places

T = TypeVar("T")
Upgrade = Callable[[dict[str, Any]], dict[str, Any]]
PLACES_FORM = 1
STATEMENT_UPGRADES: tuple[Upgrade, ...] = ()
"""The n-th takes a document of form n to form n + 1. There has been one form only."""
PLACES_UPGRADES: tuple[Upgrade, ...] = ()
_STRICT = ConfigDict(extra="forbid", strict=True, allow_inf_nan=False)


class UnreadableError(Exception):
    """A record that cannot be read. `finding` says why and what to do."""

    def __init__(self, finding: Finding) -> None:
        super().__init__(finding.message)
        self.finding = finding


@dataclass(frozen=True)
class _FileForm(Generic[T]):
    """One kind of record: what it is called, its newest form, how older ones are upgraded, and its fields."""

    title: str
    newest: int
    upgrades: tuple[Upgrade, ...]
    # In a tuple, since pydantic hands a configuration down to dataclasses but not to one at the top.
    fields: TypeAdapter[tuple[T]]

    def write(self, record: T, form: Mapping[str, int]) -> bytes:
        # Read back before it is written: a record that could not be read again must not come into being.
        checked = self.fields.validate_json(self.fields.dump_json((record,)))
        document = {**_settled(self.fields.dump_python(checked, mode="json")[0]), **form}
        text = json.dumps(document, ensure_ascii=False, allow_nan=False, sort_keys=True, separators=(",", ":"))
        return f"{text}\n".encode()

    def read(self, content: bytes, file: str) -> dict[str, Any]:
        """The document in the newest form. Raises UnreadableError."""
        try:
            document = json.loads(content.decode("utf-8"))
        except (UnicodeDecodeError, json.JSONDecodeError, RecursionError) as error:
            raise self._unreadable(file, f"The {self.title} is not whole: {error}.") from error
        form = document.get("form") if isinstance(document, dict) else None
        if type(form) is not int or form < 1:
            raise self._unreadable(file, f"The {self.title} does not say which form it has.")
        if form > self.newest:
            message = f"The {self.title} has form {form}; this planbook reads forms up to {self.newest}."
            raise self._unreadable(file, message, "Read it with the planbook that wrote it, or a later one.")
        for upgrade in self.upgrades[form - 1 :]:
            document = upgrade(document)
        return {**document, "form": self.newest}

    def validate(self, document: Mapping[str, Any], file: str) -> T:
        try:
            return self.fields.validate_json(json.dumps([document]))[0]
        except ValidationError as error:
            first = error.errors(include_url=False)[0]
            where = ".".join(str(name) for name in first["loc"][1:]) or "its top"
            raise self._unreadable(file, f"The {self.title} is damaged at {where}: {first['msg']}.") from error

    def _unreadable(self, file: str, message: str, remedy: str = "Take the file from a backup.") -> UnreadableError:
        place = Place(file, 0, 0) if file else None
        return UnreadableError(Finding("unreadable-record", Severity.STOP, message, remedy, place))


_STATEMENT = _FileForm("statement", FORM, STATEMENT_UPGRADES, TypeAdapter(tuple[Statement], config=_STRICT))
_PLACES = _FileForm("places record", PLACES_FORM, PLACES_UPGRADES, TypeAdapter(tuple[Places], config=_STRICT))


def write_statement(statement: Statement) -> bytes:
    """A statement's file. The same statement gives the same bytes."""
    return _STATEMENT.write(statement, {"form": FORM})


def read_statement(content: bytes, file: str = "") -> Statement:
    """Read a statement's file of any form up to FORM. Raises UnreadableError; `file` is named in its finding."""
    return _STATEMENT.validate(_STATEMENT.read(content, file), file)


def write_places(places: Places) -> bytes:
    """The file of a places record. The same record gives the same bytes."""
    return _PLACES.write(places, {"form": PLACES_FORM})


def read_places(content: bytes, file: str = "") -> Places:
    """Read the file of a places record. Raises UnreadableError; `file` is named in its finding."""
    document = _PLACES.read(content, file)
    return _PLACES.validate({name: value for name, value in document.items() if name != "form"}, file)


def _settled(value: Any) -> Any:
    """The same with no negative zero, which equals zero and would be written otherwise."""
    if isinstance(value, float):
        return value + 0.0
    if isinstance(value, dict):
        return {name: _settled(inner) for name, inner in value.items()}
    return [_settled(inner) for inner in value] if isinstance(value, list) else value
