"""Elimination as the equations come in, against the ranks that numpy computes at once."""

from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from planbook.dimension.completeness.system import System

MATRICES = st.integers(1, 7).flatmap(
    lambda columns: st.lists(st.lists(st.integers(-3, 3), min_size=columns, max_size=columns), min_size=1, max_size=9)
)


@given(MATRICES)
def test_an_equation_is_new_exactly_when_the_rank_grows(matrix: list[list[int]]) -> None:
    system: System[int] = System()
    for count, row in enumerate(matrix, start=1):
        answer = system.add(f"e{count}", {i: float(value) for i, value in enumerate(row) if value})
        grows = np.linalg.matrix_rank(np.array(matrix[:count])) > np.linalg.matrix_rank(
            np.array([[0] * len(row), *matrix[: count - 1]])
        )
        assert (answer is None) == grows


@given(MATRICES)
def test_what_says_a_row_already_says_it_without_the_others(matrix: list[list[int]]) -> None:
    system: System[int] = System()
    for count, row in enumerate(matrix):
        answer = system.add(str(count), {i: float(value) for i, value in enumerate(row) if value})
        if answer:
            used = np.array([matrix[int(name)] for name in sorted(answer, key=int)])
            assert np.linalg.matrix_rank(used) == np.linalg.matrix_rank(np.vstack([used, row]))


@given(MATRICES)
def test_an_unknown_is_fixed_exactly_when_no_solution_moves_it(matrix: list[list[int]]) -> None:
    system: System[int] = System()
    for count, row in enumerate(matrix):
        system.add(str(count), {i: float(value) for i, value in enumerate(row) if value})
    array = np.array(matrix)
    for unknown in range(array.shape[1]):
        alone = np.zeros(array.shape[1])
        alone[unknown] = 1
        fixed = np.linalg.matrix_rank(np.vstack([array, alone])) == np.linalg.matrix_rank(array)
        assert system.is_fixed(unknown) == fixed
