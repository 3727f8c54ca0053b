"""planbook compare."""

from __future__ import annotations

import click

from planbook.cli.shell import Shell, columns, shared_options
from planbook.release import Checked, Compared, compare_set


@click.command()
@click.argument("set_key", metavar="SET")
@click.argument("old", metavar="OLD")
@click.argument("new", metavar="[NEW]", required=False)
@shared_options
def compare(shell: Shell, set_key: str, old: str, new: str | None) -> None:
    """What changed from version OLD of SET to version NEW, by edition; NEW is the content as it stands without it.

    \b
    Examples:
      planbook compare tool-tote 1.0
      planbook compare tool-tote 1.0 2.0 --json
    """
    with shell.progress() as watcher:
        compared, findings = compare_set(shell.workspace, set_key, old, new, watcher)
    if compared is None:
        shell.finish(Checked(set_key, findings).document(), [], findings)
    shell.finish(compared.document(), _lines(compared), findings)


def _lines(compared: Compared) -> list[str]:
    lines = [f"{compared.set}: {compared.old} to {compared.new}"]
    for edition in compared.editions:
        lines += ["", f"{edition.name} edition"]
        lines += [f"  part {number}: {impact}" for number, impact in edition.parts.items()]
        changes = [(line.kind, line.id, f"{line.old or '-'} -> {line.new or '-'}") for line in edition.changes]
        lines += [f"  {line}" for line in columns(changes)] if changes else ["  nothing changed"]
    return lines
