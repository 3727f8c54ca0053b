"""Each edition is set once for all tests that read it."""

from __future__ import annotations

from pathlib import Path

import pytest

from planbook.document import Composed, compose
from planbook.source import Door

from .tote import state

WORKSPACE = Path(__file__).parents[2]


@pytest.fixture(scope="session")
def door() -> Door:
    return Door(WORKSPACE)


@pytest.fixture(scope="session")
def metric(door: Door) -> Composed:
    """Millimetres on A4."""
    done, findings = compose(state(), door)
    assert done is not None
    assert findings == ()
    return done


@pytest.fixture(scope="session")
def imperial(door: Door) -> Composed:
    """Inches on Letter."""
    done, findings = compose(state("inch", "letter", version="", built=True), door)
    assert done is not None
    assert findings == ()
    return done
