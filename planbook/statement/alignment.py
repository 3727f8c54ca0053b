"""Aligning the blocks of a page in two versions, so that an inserted paragraph does not mark those after it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from difflib import SequenceMatcher

from planbook.statement.model import BlockStated

ALIKE = 0.5
"""The share of words from which two paragraphs count as one that was rewritten."""
MOST_PAIRS = 4_000
"""Pairs that are weighed in one stretch of a page; beyond, paragraphs are paired in order."""

Pair = tuple[BlockStated | None, BlockStated | None]


def align(old: Sequence[BlockStated], new: Sequence[BlockStated]) -> Iterator[Pair]:
    """Pairs of blocks that differ, in order of the page: rewritten (both), removed (old only), added (new only)."""
    matcher = SequenceMatcher(None, [_saying(each) for each in old], [_saying(each) for each in new])
    for tag, a, b, c, d in matcher.get_opcodes():
        if tag != "equal":
            yield from _pair(old[a:b], new[c:d])


def _saying(block: BlockStated) -> tuple[str, str]:
    return block.kind, block.text


def _pair(old: Sequence[BlockStated], new: Sequence[BlockStated]) -> Iterator[Pair]:
    """Order-preserving pairs with the greatest sum of likeness; the rest removed or added."""
    a = b = 0
    for i, j in _likest(old, new):
        yield from ((each, None) for each in old[a:i])
        yield from ((None, each) for each in new[b:j])
        yield old[i], new[j]
        a, b = i + 1, j + 1
    yield from ((each, None) for each in old[a:])
    yield from ((None, each) for each in new[b:])


def _likest(old: Sequence[BlockStated], new: Sequence[BlockStated]) -> list[tuple[int, int]]:
    if len(old) * len(new) > MOST_PAIRS:
        return [(i, i) for i in range(min(len(old), len(new))) if old[i].kind == new[i].kind]
    if len(old) == len(new) and all(_likeness(a, b) >= ALIKE for a, b in zip(old, new, strict=True)):
        return [(i, i) for i in range(len(old))]
    likeness = [[_likeness(a, b) for b in new] for a in old]
    # best[i][j]: the greatest sum for old[i:], new[j:].
    best = [[0.0] * (len(new) + 1) for _ in range(len(old) + 1)]
    for i in reversed(range(len(old))):
        for j in reversed(range(len(new))):
            paired = likeness[i][j] + best[i + 1][j + 1] if likeness[i][j] >= ALIKE else 0.0
            best[i][j] = max(paired, best[i + 1][j], best[i][j + 1])
    pairs: list[tuple[int, int]] = []
    i = j = 0
    while i < len(old) and j < len(new):
        if best[i][j] == best[i + 1][j]:
            i += 1
        elif best[i][j] == best[i][j + 1]:
            j += 1
        else:
            pairs.append((i, j))
            i, j = i + 1, j + 1
    return pairs


def _likeness(a: BlockStated, b: BlockStated) -> float:
    """The share of words in common, 0 for blocks of different kinds."""
    if a.kind != b.kind:
        return 0.0
    return SequenceMatcher(None, a.text.split(), b.text.split()).quick_ratio()
