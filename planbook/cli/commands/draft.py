"""planbook draft."""

from __future__ import annotations

from pathlib import Path

import click

from planbook.cli.shell import Shell, columns, shared_options
from planbook.release import draft_set


@click.command()
@click.argument("set_key", metavar="SET")
@click.option("--edition", metavar="E", help="Only this edition.")
@click.option(
    "--out",
    metavar="DIR",
    type=click.Path(path_type=Path, file_okay=False),
    help="Where to write; build/SET in the workspace without it.",
)
@shared_options
def draft(shell: Shell, set_key: str, edition: str | None, out: Path | None) -> None:
    """Write the PDF of every edition of SET, and a report.json.

    \b
    Examples:
      planbook draft tool-tote
      planbook draft tool-tote --edition metric --out /tmp/tote
    """
    out = out or shell.workspace / "build" / set_key
    with shell.progress() as watcher:
        drafted = draft_set(shell.door, set_key, out, edition, watcher)
    lines = columns([(one.pdf, f"{one.pages} pages", f"{one.sheets} sheets") for one in drafted.editions])
    shell.finish(drafted.document(), lines, drafted.findings)
