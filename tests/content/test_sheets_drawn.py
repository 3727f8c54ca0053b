"""Every sheet of every plan set as drawn, read back from its SVG: nothing touches, lines and lettering as the standards
have them."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest
from ruamel.yaml import YAML

from planbook.drawing import draw_sheet, to_svg
from tests.content.sets import EDITIONS, statement
from tests.drawing.checker import faults, font, read

REFERENCE: dict[str, Any] = {
    entry["id"]: entry["expected"]
    for entry in YAML(typ="safe").load(Path(__file__).parents[1] / "reference" / "drawing.yaml")
}
LEAST_LETTERING = 2.5
"""Millimetres of a capital; the captions in the title block are one step of ISO 3098-1 smaller."""
each_edition = pytest.mark.parametrize(("key", "edition"), EDITIONS)


@lru_cache
def pages(key: str, edition: str) -> dict[str, str]:
    """SVG by sheet and page."""
    told = statement(key, edition)
    drawn = {number: draw_sheet(told, number) for number in told.sheets}
    assert [finding for _, findings in drawn.values() for finding in findings] == []
    return {
        f"{number}, page {place}": to_svg(drawing, "s")
        for number, (drawings, _) in drawn.items()
        for place, drawing in enumerate(drawings, start=1)
    }


def widths(svg: str) -> set[float]:
    """Of all strokes, in millimetres: a sheet is drawn in millimetres of paper."""
    return {float(each.get("stroke-width", "0")) for each in ElementTree.fromstring(svg) if each.get("stroke")}


@each_edition
def test_nothing_touches(key: str, edition: str) -> None:
    found = {page: faults(svg) for page, svg in pages(key, edition).items()}
    assert {page: each for page, each in found.items() if each} == {}


@each_edition
def test_line_widths_are_those_of_iso_128(key: str, edition: str) -> None:
    """ISO 128-2:2020 (from memory): widths of one series, visible edges twice as wide as dimension lines."""
    series, ratio = set(REFERENCE["line-widths"]["mm"]), REFERENCE["line-widths"]["wide_to_narrow"]
    for page, svg in pages(key, edition).items():
        used = widths(svg)
        assert used <= series, page
        assert {0.25, 0.25 * ratio} <= used or "table of holes" in svg, page


@each_edition
def test_lettering_heights_are_those_of_iso_3098(key: str, edition: str) -> None:
    """ISO 3098-1 (from memory): nominal height is that of the capitals, here as the font file has it."""
    source, series = font(False), REFERENCE["lettering-heights"]["mm"]
    capital = source["OS/2"].sCapHeight / source["head"].unitsPerEm
    for page, svg in pages(key, edition).items():
        for text in read(svg).texts:
            height = text.size * capital
            assert min(abs(height - nominal) for nominal in series) < 0.005, (page, text.words)
            assert height > LEAST_LETTERING - 0.005 or text.words.isupper(), (page, text.words)


def test_a_line_of_another_width_would_be_noticed() -> None:
    svg = '<svg xmlns="http://www.w3.org/2000/svg"><path d="M0 0L9 0" stroke="#000" stroke-width="0.3"/></svg>'
    assert not widths(svg) <= set(REFERENCE["line-widths"]["mm"])
