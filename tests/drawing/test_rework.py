"""The picture of a rework: the old piece under it, what goes hatched, and the new numbers."""

from __future__ import annotations

import pytest

from planbook.drawing import Drawing, draw_rework, to_svg
from planbook.drawing.recording import Label, Pen, Stroke
from planbook.impact import reshaped
from planbook.statement import compare
from planbook.statement.model import Statement
from tests.impact.making import hole, plate, told


def picture(old: Statement, new: Statement) -> Drawing:
    return draw_rework(reshaped(compare(old, new), "plate"), "millimetre")


def texts(drawing: Drawing) -> list[str]:
    return [each.text for each in drawing.primitives if isinstance(each, Label)]


def pens(drawing: Drawing) -> set[Pen | None]:
    return {each.pen for each in drawing.primitives if isinstance(each, Stroke)}


def widest(drawing: Drawing, fill: str) -> float:
    """Millimetres on paper from left to right: of the pictures here, at 1:5."""
    filled = [each for each in drawing.primitives if isinstance(each, Stroke) and each.fill == fill]
    across = [[each.start.x, *(step.end.x for step in each.steps)] for each in filled]
    return max(max(xs) - min(xs) for xs in across)


SHORT, LONG = told({"plate": plate("380 mm")}), told({"plate": plate("400 mm")})


def test_what_goes_is_hatched_over_the_old_piece_and_dimensioned_anew() -> None:
    drawing = picture(LONG, SHORT)
    assert {Pen.FAINT, Pen.HATCH, Pen.OUTLINE} <= pens(drawing)
    assert widest(drawing, "panel") == pytest.approx(80, abs=1)
    assert widest(drawing, "solid") < 4
    assert "380 [14 31/32]" in " ".join(texts(drawing))
    assert "trim the length: 400 mm → 380 mm" in texts(drawing)
    assert "grey: the piece as it was, hatched: goes" in texts(drawing)


def test_where_wood_is_wanted_it_is_black() -> None:
    drawing = picture(SHORT, LONG)
    assert widest(drawing, "solid") == pytest.approx(4, abs=0.1)
    assert Pen.HATCH not in pens(drawing)
    assert "grey: the piece as it was, black: wood is wanted there" in texts(drawing)


def test_a_part_that_was_moved_lies_where_it_lies_best() -> None:
    """20 mm come off at the datum end: hatched to the left of the new shape, and nothing else."""
    old = told({"plate": plate("400 mm", pivot=hole("173 mm"))})
    new = told({"plate": plate("380 mm", pivot=hole("153 mm"))})
    part = reshaped(compare(old, new), "plate")
    assert len(part.lacks) == 0
    assert (part.goes[:, :, 0].min(), part.goes[:, :, 0].max()) == (pytest.approx(-20), pytest.approx(0))


def test_all_lies_on_the_paper_and_the_svg_says_what_it_shows() -> None:
    drawing = picture(LONG, SHORT)
    points = [each.start for each in drawing.primitives if isinstance(each, Stroke)]
    assert all(0 <= point.x <= drawing.width and 0 <= point.y <= drawing.height for point in points)
    assert "trim the length: 400 mm → 380 mm" in to_svg(drawing, "rework")


def test_a_part_that_only_one_version_has_is_not_drawn() -> None:
    with pytest.raises(KeyError):
        reshaped(compare(LONG, SHORT), "rail")


def test_what_is_small_is_shown_again_larger() -> None:
    """A ring of 2 mm about a hole of 8 mm, in a plate of 400 mm: hatched larger beside the view at 1:5."""
    drawing = picture(told({"plate": plate(pivot=hole())}), told({"plate": plate(pivot=hole(size="12 mm"))}))
    assert {"FACE", "1:5", "A"} <= set(texts(drawing))
    assert any(text.startswith("DETAIL A ") for text in texts(drawing))
    assert Pen.HATCH in pens(drawing)
    assert not any(text.startswith("DETAIL") for text in texts(picture(LONG, SHORT)))
