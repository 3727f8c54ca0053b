"""Where pages break: no crumbs of a table at the foot or the head of a page, no list of pinch points in two pieces."""

from __future__ import annotations

from itertools import groupby, islice
from pathlib import Path

import pytest

from planbook.document.compose import STYLE
from planbook.document.fetch import FONTS, Fetcher
from planbook.document.fonts import font_faces
from planbook.document.papers import PAPERS, page_rules
from planbook.document.typeset import typeset
from planbook.source import Door

DOOR = Door(Path(__file__).parents[2])


def rows_by_page(body: str) -> list[int]:
    """How many elements with an id stand on each page."""
    style = {"": font_faces(FONTS) + page_rules(PAPERS["a4"]), STYLE: DOOR.read_text(STYLE)}
    html = f'<!DOCTYPE html><html lang="en"><title>t</title><body data-running="t">{body}</body></html>'
    done, _ = typeset(html, style, Fetcher(DOOR, {}, {}))
    assert done is not None
    return [len(page.anchors) for page in done.pages]


def table(groups: list[int]) -> str:
    rows = iter(range(sum(groups)))
    bodies = []
    for k, count in enumerate(groups):
        head = f'<tr class="group"><th colspan="2">Group {k}</th></tr>' if len(groups) > 1 else ""
        lines = (f'<tr id="row.{row}"><th>{row}</th><td>Words</td></tr>' for row in islice(rows, count))
        bodies.append(f"<tbody>{head}{''.join(lines)}</tbody>")
    return f'<table class="list"><thead><tr><th>No</th><th>What</th></tr></thead>{"".join(bodies)}</table>'


@pytest.mark.parametrize("over", range(-1, 7))
def test_no_crumbs_of_a_table_stand_alone(over: int) -> None:
    full, *_ = rows_by_page(table([90]))
    first, *rest = rows_by_page(table([full + over]))
    assert sum([first, *rest]) == full + over
    assert first <= full
    assert len(rest) == (over > 0)
    assert all(count >= 4 for count in rest)


def test_a_group_of_one_row_at_the_end_is_not_alone_on_a_page() -> None:
    full, *_ = rows_by_page(table([90]))
    for count in range(full - 4, full + 1):
        assert all(many >= 3 for many in rows_by_page(table([count, 1])))


def test_what_follows_a_table_does_not_take_its_last_rows_along() -> None:
    """A one-row group may not hold on to the chapter after it."""
    chapter = '<section class="chapter"><div class="head"><h1>Next</h1></div><p>Words.</p></section>'
    assert rows_by_page(f"<section>{table([24, 1])}</section>{chapter}")[0] == 25


def test_pinch_points_of_a_step_stay_together() -> None:
    pinches = "".join(f'<li id="pinch.{k}">One with another, to 3 mm</li>' for k in range(8))
    for lines in range(30, 46):
        words = "<p>Words.</p>" * lines
        pages = rows_by_page(f'{words}<div class="pinches"><p>Fingers are caught here:</p><ul>{pinches}</ul></div>')
        assert [count for count, _ in groupby(filter(None, pages))] == [8]
