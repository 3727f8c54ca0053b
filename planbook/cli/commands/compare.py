"""planbook compare."""

from __future__ import annotations

from pathlib import Path

import click

from planbook.cli.compared import compared_lines
from planbook.cli.shell import Shell, shared_options
from planbook.release import Checked, compare_set
from planbook.source.findings import stops


@click.command()
@click.argument("set_key", metavar="SET")
@click.argument("old", metavar="OLD")
@click.argument("new", metavar="[NEW]", required=False)
@click.option(
    "--out",
    metavar="DIR",
    type=click.Path(path_type=Path, file_okay=False),
    help="Write there what to do for who has OLD, with drawings, as PDF; and pictures of what to rework.",
)
@shared_options
def compare(shell: Shell, set_key: str, old: str, new: str | None, out: Path | None) -> None:
    """What changed from version OLD of SET to version NEW; NEW is the content as it stands without it.

    Compared with the content, it ends with the number of the next version, and why.

    \b
    Examples:
      planbook compare tool-tote 1.0
      planbook compare tool-tote 1.0 2.0 --json
      planbook compare tool-tote 1.0 2.0 --out /tmp/tote
    """
    with shell.progress() as watcher:
        compared, findings = compare_set(shell.workspace, set_key, old, new, watcher, out)
    if compared is None:
        shell.finish(Checked(set_key, findings).document(), [], findings)
    written = [] if out is None or stops(findings) else ["", f"What is to print and to look at is in {out}."]
    shell.finish(compared.document(), [*compared_lines(compared), *written], findings)
