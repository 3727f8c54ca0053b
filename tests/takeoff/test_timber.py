"""Board feet and cubic metres by the trade's rule and NIST's factor."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.measure import INCH
from planbook.takeoff.timber import FOOT, board_feet, cubic_metres

# NIST SP 811, appendix B.8: a board foot is 2.359 737 E-03 cubic metre.
NIST_BOARD_FOOT = 2.359737e-3


@pytest.mark.parametrize(
    ("feet", "wide", "thick", "told"),
    [
        # NHLA, Rules for the Measurement and Inspection of Hardwood and Cypress: a board foot is 1 ft by 1 ft by 1 in.
        (1, 12, 1, 1),
        (12, 12, 1, 12),
        (8, 6, 2, 8),
        (10, 6, 1.25, 6.25),
        # The same rules: lumber thinner than 1 in counts by its surface, as if it were 1 in thick.
        (1, 12, 0.75, 1),
        (10, 8, 0.5, 10 * 8 / 12),
    ],
)
def test_board_feet_are_those_of_the_nhla_rule(feet: float, wide: float, thick: float, told: float) -> None:
    assert board_feet(feet * FOOT, wide * INCH, thick * INCH) == pytest.approx(told)


@given(st.floats(1, 20), st.floats(1, 20), st.floats(1, 8))
def test_a_board_foot_is_nists(feet: float, wide: float, thick: float) -> None:
    size = feet * FOOT, wide * INCH, thick * INCH
    assert cubic_metres(*size) == pytest.approx(board_feet(*size) * NIST_BOARD_FOOT, rel=1e-6)
