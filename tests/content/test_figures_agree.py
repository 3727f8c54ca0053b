"""A number that is worked out reads alike wherever the plans print it, as planbook promises of every number."""

from __future__ import annotations

import pytest

from .sets import EDITIONS, content, statement


@pytest.mark.parametrize(("key", "edition"), EDITIONS)
def test_a_calculation_reads_alike_among_the_named_dimensions(key: str, edition: str) -> None:
    told = statement(key, edition)
    results = {row.cells["Name"]: row.cells["Result"] for row in told.lists["calculations"] if "Name" in row.cells}
    figures = {str(name) for name in content(key).calculations} & told.parameters.keys() & results.keys()
    assert figures or not content(key).calculations
    for name in figures:
        printed = told.parameters[name].printed
        assert f"{printed.text}{' ' if printed.unit not in ('', '°') else ''}{printed.unit}" in results[name], name
