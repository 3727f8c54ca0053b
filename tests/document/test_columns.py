"""Widths of columns: numbers whole, words broken as little as the paper allows."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.document.columns import Words, share_width

WIDTH = 170.0
texts = st.lists(st.text("abc de", max_size=60), min_size=3, max_size=3)
columns = st.lists(st.builds(Words, st.just("Head"), texts, st.booleans()), min_size=1, max_size=5)


@given(columns)
def test_columns_fill_the_table_whatever_they_hold(made: list[Words]) -> None:
    widths = share_width(made, WIDTH)
    assert sum(widths) == pytest.approx(WIDTH)
    assert all(width > 0 for width in widths)


def test_what_may_not_break_gets_its_room_and_prose_the_rest() -> None:
    size = Words("Size", ["32.875 × 3.875 × 1.000"], breaks=False)
    prose = Words("Use", ["between apron, lever and link, and under the nut of the pivot bolt " * 3], breaks=True)
    first, second = share_width([size, prose], 100.0)
    # 21 signs of 9 pt, about half an em for each: common practice, no source.
    assert 30 < first < 42
    assert second == pytest.approx(100 - first)


def test_room_goes_where_it_saves_most_lines() -> None:
    short = Words("Material", ["3/4 in hardwood plywood"] * 10, breaks=True)
    long = Words(
        "Remark", ["cut it last of all and from the offcut that the well has left over"] + [""] * 9, breaks=True
    )
    first, second = share_width([short, long], 70.0)
    assert first > 37
    assert second < 33
