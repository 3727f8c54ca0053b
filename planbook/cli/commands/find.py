"""planbook find."""

from __future__ import annotations

import click

from planbook.cli.shell import Shell, columns, shared_options
from planbook.release import Checked, Found
from planbook.release import find as find_text


@click.command()
@click.argument("set_key", metavar="SET")
@click.argument("text", metavar="TEXT")
@click.option("--version", metavar="V", help="In this released version; in the content as it stands without it.")
@click.option("--released", is_flag=True, help="In all released versions.")
@click.option("--edition", metavar="E", help="Only in this edition.")
@shared_options
def find(shell: Shell, set_key: str, text: str, version: str | None, released: bool, edition: str | None) -> None:
    """Every printed dimension of SET that reads TEXT, with its sheet and page.

    A fraction may be typed with a space or a hyphen; with a unit, only that unit matches. TEXT may be what a buyer
    quotes, with the page or sheet and the version.

    \b
    Examples:
      planbook find tool-tote "5 3/8"
      planbook find tool-tote 5-3/8 --version 1.0 --edition imperial
      planbook find tool-tote "the 5 3/8 on page 12 of 1.1"
      planbook find tool-tote 137 --released
      planbook find tool-tote "137 mm" --json
    """
    if released and version:
        raise click.UsageError("Name a version, or look in all with --released.")
    with shell.progress() as watcher:
        found, findings = find_text(
            shell.workspace, set_key, text, version=version, released=released, edition=edition, watcher=watcher
        )
    if found is None:
        shell.finish(Checked(set_key, findings).document(), [], findings)
    shell.finish([one.document() for one in found], _lines(found, text), findings)


def _lines(found: tuple[Found, ...], text: str) -> list[str]:
    if not found:
        return [f"Nothing printed reads {text}."]
    several = len({one.version for one in found}) > 1
    return columns(
        [
            (
                *([one.version] if several else []),
                one.edition,
                f"page {one.page}" if one.page else "no page",
                f"sheet {one.sheet}" if one.sheet else "",
                one.text,
                one.id,
                f"see advisory {', '.join(map(str, one.advisories))}" if one.advisories else "",
            )
            for one in found
        ]
    )
