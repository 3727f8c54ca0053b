"""planbook archive SET verify."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

import click

from planbook.cli.shell import Shell, chosen_set, shared_options
from planbook.release import Again, ReleaseVerified, Verified, verify_set


@click.group()
@click.argument("set_key", metavar="SET")
@click.pass_context
def archive(context: click.Context, set_key: str) -> None:
    """The released versions of SET: whether they are still as they were frozen.

    \b
    Examples:
      planbook archive tool-tote verify
      planbook archive tool-tote verify --again --version 2.0
    """
    context.obj = set_key


@archive.command()
@click.option("--version", metavar="V", help="Compile only this one again; all of them without it.")
@click.option("--again", is_flag=True, help="Also compile from the frozen inputs, elsewhere, and compare.")
@shared_options
def verify(shell: Shell, version: str | None, again: bool) -> None:
    """Check every file of every release against its record, and each record against the one before it.

    With --again each release is compiled from its own inputs, in a folder of its own, and what comes out is held
    against what was frozen: the same bytes, else what its statements tell otherwise. Nothing in versions/ is touched.
    """
    with shell.progress() as watcher:
        verified = verify_set(shell.workspace, chosen_set(), version, again=again, watcher=watcher)
    shell.finish(verified.document(), list(_lines(verified)), verified.findings)


def _lines(verified: Verified) -> Iterator[str]:
    for release in verified.releases:
        yield f"{release.version}  {release.issued}  {release.files} files as frozen"
        yield from _again(release)
    if verified.advisories and verified.releases:
        count = verified.advisories
        yield f"{count} {'advisory' if count == 1 else 'advisories'}, as written"


def _again(release: ReleaseVerified) -> Iterator[str]:
    again = release.again
    if again is None:
        return
    if again.refused:
        yield "  compiled again: refused"
        yield from (f"    {why}" for why in again.refused)
    elif not again.files:
        yield "  compiled again: the same bytes"
    else:
        yield f"  compiled again: {_files(again)}; {_told(again)}"
        yield from _differing(again)
    if again.tools and (again.refused or again.files):
        yield "  programs of another version:"
        yield from (f"    {each}" for each in again.tools)


def _files(again: Again) -> str:
    return "1 file has other bytes" if len(again.files) == 1 else f"{len(again.files)} files have other bytes"


def _told(again: Again) -> str:
    if not again.differences:
        return "every statement tells the same"
    seen = sum(each.seen for each in again.differences)
    return f"the statements differ, {seen or 'nothing'} of it where a builder sees it"


def _differing(again: Again) -> Iterator[str]:
    """What differs, counted; one by one what a builder would see. --json has every one by its id."""
    for edition in dict.fromkeys(each.edition for each in again.differences):
        ours = [each for each in again.differences if each.edition == edition]
        counts = Counter(each.kind for each in ours)
        yield f"    {edition}: {', '.join(f'{kind} x {count}' for kind, count in counts.items())}"
        yield from (f"      {each.kind} {each.id}" for each in ours if each.seen)
