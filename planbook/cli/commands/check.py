"""planbook check."""

from __future__ import annotations

import click

from planbook.cli.shell import Shell, shared_options
from planbook.release import check_set
from planbook.source.findings import stops


@click.command()
@click.argument("set_key", metavar="SET")
@shared_options
def check(shell: Shell, set_key: str) -> None:
    """Evaluate and check every edition of SET; write nothing.

    \b
    Examples:
      planbook check tool-tote
      planbook check tool-tote --json
    """
    with shell.progress() as watcher:
        checked = check_set(shell.door, set_key, watcher)
    lines = [] if stops(checked.findings) else [f"{set_key}: nothing stops it."]
    shell.finish(checked.document(), lines, checked.findings)
