"""planbook check."""

from __future__ import annotations

import click

from planbook.cli.shell import Shell, shared_options
from planbook.cli.supposed import pieces_option, with_option
from planbook.cli.weighed import weighed_lines
from planbook.design import Supposed
from planbook.release import check_set, weigh_set
from planbook.source.findings import stops

_APART = (
    "--with says what a change moves, which is the same for one piece or many; --pieces is for lists and layouts. "
    "Give one of the two here; `planbook draft` takes both."
)


@click.command()
@click.argument("set_key", metavar="SET")
@with_option("Suppose a change, and say what it moves; may be repeated.")
@pieces_option("With lists and layouts for so many of the piece.")
@shared_options
def check(shell: Shell, set_key: str, supposed: tuple[Supposed, ...], pieces: int) -> None:
    """Evaluate and check every edition of SET; write nothing.

    With a change supposed, it says which rules break or mend, and which fits, clearances and dimensions move.

    \b
    Examples:
      planbook check tool-tote
      planbook check tool-tote --json
      planbook check tool-tote --with "tote.length = 18 in"
    """
    if supposed and pieces > 1:
        raise click.UsageError(_APART)
    if supposed:
        with shell.progress() as watcher:
            weighed = weigh_set(shell.door, set_key, supposed, watcher)
        shell.finish(weighed.document(), list(weighed_lines(weighed)), weighed.findings)
    with shell.progress() as watcher:
        checked = check_set(shell.door, set_key, watcher, pieces)
    lines = [] if stops(checked.findings) else [f"{set_key}: nothing stops it."]
    shell.finish(checked.document(), lines, checked.findings)
