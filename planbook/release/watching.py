"""How a long command is watched: whoever calls it may be told what is being done, and lends it a clock."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Watcher:
    """`tell` is told in a few words what is done now; `clock` gives seconds, for how long an edition took.

    Neither has any effect on what is compiled.
    """

    tell: Callable[[str], None]
    clock: Callable[[], float]


UNWATCHED = Watcher(lambda _: None, lambda: 0.0)
