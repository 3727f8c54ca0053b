"""The file form: what is written reads back the same, is written the same again, and nothing else is read."""

import json
import re

import pytest
from hypothesis import given, settings

from planbook.statement.files import UnreadableError, read_places, read_statement, write_places, write_statement
from planbook.statement.model import FORM
from planbook.statement.places import PlaceOnPage, Places

from .random_statements import of_type, statements
from .small import STATEMENT


@given(statements())
@settings(max_examples=60, deadline=None)
def test_a_statement_reads_back_as_it_was(statement):
    written = write_statement(statement)
    assert read_statement(written) == statement
    assert write_statement(read_statement(written)) == written


@given(of_type(Places))
@settings(max_examples=60, deadline=None)
def test_places_read_back_as_they_were(places):
    written = write_places(places)
    assert read_places(written) == places
    assert write_places(read_places(written)) == written


def test_the_file_is_canonical():
    written = write_statement(STATEMENT)
    assert written.endswith(b"}\n")
    document = json.loads(written)
    assert document["form"] == FORM
    again = json.dumps(document, sort_keys=True, ensure_ascii=False, separators=(",", ":"))
    assert again.encode() + b"\n" == written
    assert "±".encode() in written


def test_zero_has_one_form_and_whole_numbers_are_numbers():
    places = Places(1, ((210, -0.0),), {}, {}, {})
    assert b"[[210.0,0.0]]" in write_places(places)


def test_order_of_names_does_not_show():
    a, b = PlaceOnPage(1, 2.0, 3.0, "a"), PlaceOnPage(2, 2.0, 3.0, "b")
    assert write_places(Places(1, (), {}, {}, {"a": a, "b": b})) == write_places(
        Places(1, (), {}, {}, {"b": b, "a": a})
    )


def test_a_newer_form_is_refused_by_number():
    document = json.loads(write_statement(STATEMENT)) | {"form": FORM + 1}
    with pytest.raises(UnreadableError) as refused:
        read_statement(json.dumps(document).encode(), "versions/tote/1.0/metric/statement.json")
    assert refused.value.finding.code == "unreadable-record"
    assert f"form {FORM + 1}" in refused.value.finding.message
    assert refused.value.finding.place.file == "versions/tote/1.0/metric/statement.json"


@pytest.mark.parametrize(
    ("damage", "words"),
    [
        (lambda d: d | {"issued": 3}, "issued"),
        (lambda d: d | {"surplus": 1}, "surplus"),
        (lambda d: {name: value for name, value in d.items() if name != "parts"}, "parts"),
        (lambda d: d | {"form": "1"}, "form"),
        (lambda d: [d], "form"),
    ],
)
def test_a_damaged_statement_is_refused_where_it_is_damaged(damage, words):
    document = damage(json.loads(write_statement(STATEMENT)))
    with pytest.raises(UnreadableError, match=words):
        read_statement(json.dumps(document).encode())


@pytest.mark.parametrize("content", [b"", b"{", b"\xff", b"null", b"NaN", b"[" * 100_000])
def test_what_is_no_json_is_refused(content):
    with pytest.raises(UnreadableError):
        read_statement(content)


def test_a_number_that_is_none_is_refused():
    written = write_statement(STATEMENT)
    broken = re.sub(rb'"nominal":[\d.]+', b'"nominal":NaN', written, count=1)
    assert broken != written
    with pytest.raises(UnreadableError, match="nominal"):
        read_statement(broken)
