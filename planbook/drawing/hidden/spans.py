"""Intervals on edges, many edges at once: each row is an edge's number and a share of its length, from 0 to 1."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from planbook.shape.solids.surfaces import Flags, Floats, Whole


@dataclass(frozen=True, eq=False, slots=True)
class Spans:
    """`k` intervals; they may overlap."""

    edge: Whole
    low: Floats
    high: Floats

    def only(self, which: Flags) -> Spans:
        """Some of them."""
        return Spans(self.edge[which], self.low[which], self.high[which])


def together(*several: Spans) -> Spans:
    """All intervals of several."""
    return Spans(
        np.concatenate([each.edge for each in several]),
        np.concatenate([each.low for each in several]),
        np.concatenate([each.high for each in several]),
    )


def gaps(taken: Spans, lengths: Floats, least: float) -> Spans:
    """What intervals leave free of each of `len(lengths)` edges; pieces shorter than `least` are dropped."""
    count = len(lengths)
    every = np.arange(count)
    ends = Spans(np.tile(every, 2), np.repeat([0.0, 1.0], count), np.repeat([0.0, 1.0], count))
    whole = together(taken, ends)
    order = np.lexsort((whole.low, whole.edge))
    edge, low, high = whole.edge[order], whole.low[order], whole.high[order]
    # Edge k's intervals are moved to 2 k .. 2 k + 1, so that one running maximum serves all edges.
    reach = np.maximum.accumulate(np.clip(high, 0.0, 1.0) + 2.0 * edge)
    free_from, free_to = reach[:-1] - 2.0 * edge[1:], np.clip(low[1:], 0.0, 1.0)
    free = (edge[:-1] == edge[1:]) & ((free_to - free_from) * lengths[edge[1:]] >= least)
    return Spans(edge[1:][free], free_from[free], free_to[free])
