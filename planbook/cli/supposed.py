"""The options --with and --pieces, which check and draft share."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import click

from planbook.design import Supposed, read_supposed

MOST_PIECES = 500
"""Of one plan at a time: a class or a small series."""


class _Supposed(click.ParamType[Supposed]):
    name = "name = formula"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Supposed:
        supposed = read_supposed(str(value))
        if supposed is None:
            self.fail(f'{value!r} is no change: write a name, =, and a formula, as in "ramp.run = 7 in".', param, ctx)
        return supposed


def with_option(words: str) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """--with "name = formula", which may be repeated; given to the command as `supposed`."""
    return click.option("--with", "supposed", metavar='"NAME = FORMULA"', type=_Supposed(), multiple=True, help=words)


def pieces_option(words: str) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """--pieces N; given to the command as `pieces`."""
    return click.option("--pieces", metavar="N", type=click.IntRange(1, MOST_PIECES), default=1, help=words)
