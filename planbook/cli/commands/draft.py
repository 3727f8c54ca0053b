"""planbook draft."""

from __future__ import annotations

from pathlib import Path

import click

from planbook.cli.shell import Shell, columns, shared_options
from planbook.cli.supposed import pieces_option, with_option
from planbook.design import Supposed
from planbook.release import draft_set


@click.command()
@click.argument("set_key", metavar="SET")
@click.option("--edition", metavar="E", help="Only this edition.")
@click.option(
    "--out",
    metavar="DIR",
    type=click.Path(path_type=Path, file_okay=False),
    help="Where to write; build/SET in the workspace without it, build/SET-one-off for one builder.",
)
@with_option("Make it for one builder, whose own measure this is; may be repeated.")
@pieces_option("Lists and layouts for so many of the piece, as for a class.")
@shared_options
def draft(
    shell: Shell, set_key: str, edition: str | None, out: Path | None, supposed: tuple[Supposed, ...], pieces: int
) -> None:
    """Write the PDF of every edition of SET, and a report.json.

    \b
    Examples:
      planbook draft tool-tote
      planbook draft tool-tote --edition metric --out /tmp/tote
      planbook draft tool-tote --edition metric --with "stock.sheet_12.thickness = 11.6 mm"
      planbook draft tool-tote --pieces 8
    """
    out = out or shell.workspace / "build" / (f"{set_key}-one-off" if supposed or pieces > 1 else set_key)
    with shell.progress() as watcher:
        drafted = draft_set(shell.door, set_key, out, edition, watcher, supposed, pieces)
    lines = columns([(one.pdf, f"{one.pages} pages", f"{one.sheets} sheets") for one in drafted.editions])
    shell.finish(drafted.document(), lines, drafted.findings)
