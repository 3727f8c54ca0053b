"""planbook advisory SET add, planbook advisory SET list."""

from __future__ import annotations

import click

from planbook.cli.advised import advised_lines
from planbook.cli.shell import Shell, chosen_set, shared_options
from planbook.release import Advised, Checked, add_advisory, read_advised
from planbook.source.findings import Finding


@click.group()
@click.argument("set_key", metavar="SET")
@click.pass_context
def advisory(context: click.Context, set_key: str) -> None:
    """Dated notes on released versions of SET, for those who hold them before there is a better one.

    \b
    Examples:
      planbook advisory tool-tote add --version 1.1 --part 5 --dated 2026-05-04 "Do not drill part 5."
      planbook advisory tool-tote list
    """
    context.obj = set_key


@advisory.command()
@click.option("--version", metavar="V", required=True, help="The released version that it speaks of.")
@click.option("--part", metavar="N", type=int, help="The number of the part; the whole version without it.")
@click.option("--edition", "editions", metavar="E", multiple=True, help="Only in this edition; may be repeated.")
@click.option("--dated", metavar="DAY", required=True, help="The day on which it is given, as 2026-05-04.")
@click.argument("text", metavar="TEXT")
@shared_options
def add(shell: Shell, version: str, part: int | None, editions: tuple[str, ...], dated: str, text: str) -> None:
    """Lay the advisory TEXT beside a released version. The version itself is not touched; nor is an advisory ever.

    The version that mends it says `lifts: [NUMBER]` in changes.yaml.
    """
    advised, findings = add_advisory(shell.workspace, chosen_set(), version, part, editions, dated, text)
    _finish(shell, advised, findings)


@advisory.command(name="list")
@click.option("--version", metavar="V", help="Only those on this version.")
@shared_options
def list_them(shell: Shell, version: str | None) -> None:
    """All advisories, oldest first, and which version lifts each."""
    advised, findings = read_advised(shell.workspace, chosen_set(), version)
    _finish(shell, advised, findings)


def _finish(shell: Shell, advised: Advised | None, findings: tuple[Finding, ...]) -> None:
    if advised is None:
        shell.finish(Checked(chosen_set(), findings).document(), [], findings)
    shell.finish(advised.document(), list(advised_lines(advised)) or ["There are no advisories."], findings)
