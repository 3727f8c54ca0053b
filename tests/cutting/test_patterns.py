"""The exact searches against plain enumeration, and against each other."""

from __future__ import annotations

from functools import cache
from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from planbook.cutting import Job, Piece, Stock, choose_free, choose_sawn
from planbook.cutting.knapsack import best_fill, ruler
from planbook.cutting.lengths import cut_rows

EFFORT = 5_000_000

few = st.lists(
    st.tuples(st.integers(1, 9), st.integers(1, 9), st.integers(1, 2), st.booleans()), min_size=1, max_size=4
)


@given(
    rows=st.lists(st.tuples(st.integers(1, 20), st.integers(0, 30), st.integers(0, 3)), min_size=1, max_size=5),
    whole=st.integers(1, 40),
)
def test_a_knapsack_is_the_best_of_all_choices(rows: list[tuple[int, int, int]], whole: int) -> None:
    sizes, values, limits = zip(*rows, strict=True)
    found = best_fill(ruler(whole, sizes, up=True), values, limits)
    best = max(
        sum(value * count for value, count in zip(values, counts, strict=True))
        for counts in product(*(range(limit + 1) for limit in limits))
        if sum(size * count for size, count in zip(sizes, counts, strict=True)) <= whole
    )
    assert found.value == best
    assert sum(value * count for value, count in zip(values, found.counts, strict=True)) == best
    assert sum(size * count for size, count in zip(sizes, found.counts, strict=True)) <= whole


@given(whole=st.integers(10, 10**9), sizes=st.lists(st.integers(1, 10**9), min_size=1, max_size=6))
def test_a_coarse_ruler_errs_on_the_side_it_says(whole: int, sizes: list[int]) -> None:
    careful, generous = ruler(whole, sizes, up=True), ruler(whole, sizes, up=False)
    for counts in product(range(3), repeat=min(len(sizes), 4)):
        true = sum(size * count for size, count in zip(sizes, counts, strict=False))
        if sum(size * count for size, count in zip(careful.sizes, counts, strict=False)) <= careful.marks:
            assert true <= whole
        if true <= whole:
            assert sum(size * count for size, count in zip(generous.sizes, counts, strict=False)) <= generous.marks


@given(sizes=st.lists(st.integers(1, 12), min_size=1, max_size=7))
def test_lengths_are_as_few_as_can_be(sizes: list[int]) -> None:
    kinds = sorted(set(sizes), reverse=True)
    rows = cut_rows(12, kinds, [sizes.count(size) for size in kinds], EFFORT)
    assert rows.bound <= _fewest(tuple(sorted(sizes, reverse=True)), ()) == rows.count
    for at, size in enumerate(kinds):
        assert sum(pattern[at] * times for pattern, times in rows.patterns) == sizes.count(size)
    assert all(sum(n * size for n, size in zip(pattern, kinds, strict=True)) <= 12 for pattern, _ in rows.patterns)


@cache
def _fewest(sizes: tuple[int, ...], open_: tuple[int, ...]) -> int:
    """By trying every place for every piece."""
    if not sizes:
        return len(open_)
    size, rest = sizes[0], sizes[1:]
    fits = [
        _fewest(rest, tuple(sorted((*open_[:at], used + size, *open_[at + 1 :]))))
        for at, used in enumerate(open_)
        if used + size <= 12
    ]
    return min([*fits, _fewest(rest, tuple(sorted((*open_, size))))])


@given(rows=few)
@settings(max_examples=60)
def test_choices_agree_with_enumeration_and_one_another(rows: list[tuple[int, int, int, bool]]) -> None:
    job = Job(tuple(Piece(f"{at}", *row) for at, row in enumerate(rows)), (Stock("sheet", 9, 7),), 0)
    values = [piece.area + at for at, piece in enumerate(job.pieces)]
    free, sawn = choose_free(job, values, EFFORT), choose_sawn(job, values, EFFORT)
    many = choose_sawn(job, values, EFFORT, limited=False)
    if free is None or sawn is None or many is None:
        assert not any(min(row[:2]) <= 7 for row in rows if row[3] or (row[0] <= 9 and row[1] <= 7))
        return
    assert sawn.proved
    assert sawn.value <= free.value <= free.bound
    assert sawn.value <= many.value
    counts = tuple(piece.quantity for piece in job.pieces)
    assert sawn.value == _sawn_value(9, 7, _ways(job), tuple(values), counts)


Ways = tuple[tuple[tuple[int, int], ...], ...]


def _ways(job: Job) -> Ways:
    return tuple(
        tuple({(piece.length, piece.width), *([(piece.width, piece.length)] if piece.turnable else [])})
        for piece in job.pieces
    )


def _sawn_value(length: int, width: int, ways: Ways, values: tuple[int, ...], counts: tuple[int, ...]) -> int:
    """By every cut and every way of dividing the pieces between the two parts."""

    @cache
    def best(length: int, width: int, counts: tuple[int, ...]) -> int:
        found = max(
            (
                values[at]
                for at, lying in enumerate(ways)
                if counts[at] and any(each[0] <= length and each[1] <= width for each in lying)
            ),
            default=0,
        )
        if not any(counts):
            return 0
        for share in product(*(range(count + 1) for count in counts)):
            rest = tuple(count - each for count, each in zip(counts, share, strict=True))
            if not any(share) or not any(rest):
                continue
            for at in range(1, length):
                found = max(found, best(at, width, share) + best(length - at, width, rest))
            for at in range(1, width):
                found = max(found, best(length, at, share) + best(length, width - at, rest))
        return found

    return best(length, width, counts)
