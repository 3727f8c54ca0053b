"""planbook release."""

from __future__ import annotations

import click

from planbook.cli.shell import Shell, columns, shared_options
from planbook.release import Answered, release_set


@click.command()
@click.argument("set_key", metavar="SET")
@click.argument("version", metavar="VERSION")
@shared_options
def release(shell: Shell, set_key: str, version: str) -> None:
    """Check SET, compile every edition and freeze them as VERSION in versions/SET/VERSION.

    Before that, say in changes.yaml what the version is about and when it is issued. A version that was
    released is never overwritten; VERSION must be as grave as what changed.

    \b
    Examples:
      planbook release tool-tote 1.0
      planbook release tool-tote 2.0 --json
    """
    with shell.progress() as watcher:
        released = release_set(shell.workspace, set_key, version, watcher)
    lines = columns([(one.pdf, f"{one.pages} pages", f"{one.sheets} sheets") for one in released.editions])
    lines += _listed("Supplements and catch-ups, to print", [file for one in released.editions for file in one.updates])
    lines += _listed(
        "Notices to buyers, by the version that they have", [file for one in released.editions for file in one.notices]
    )
    letters = [file for file in released.dropped if file.endswith(".txt")]
    lines += _listed("Notices to builders of editions that are made no longer", letters)
    lines += [*(["Answered in this version"] if released.answered else []), *map(_answer, released.answered)]
    shell.finish(released.document(), lines, released.findings)


def _listed(title: str, files: list[str]) -> list[str]:
    return [title, *(f"  {each}" for each in files)] if files else []


def _answer(answered: Answered) -> str:
    pages = ", ".join(f"{edition} page {page}" for edition, page in answered.pages.items())
    return f"  {answered.id}  {answered.question}  {pages}"
