"""planbook trace."""

from __future__ import annotations

import click

from planbook.cli.shell import Shell, columns, shared_options
from planbook.release import Checked, Found, Source, Traced
from planbook.release import trace as trace_name


@click.command()
@click.argument("set_key", metavar="SET")
@click.argument("name", metavar="NAME")
@shared_options
def trace(shell: Shell, set_key: str, name: str) -> None:
    """Where a quantity of SET comes from, what hangs on it, where it is printed, and what it was before.

    NAME is a parameter (ramp.rise) or the id of a dimension (ramp_bar/pivot/x).

    \b
    Examples:
      planbook trace tool-tote tote.length
      planbook trace tool-tote end/blank/width --json
    """
    with shell.progress() as watcher:
        traced, findings = trace_name(shell.workspace, set_key, name, watcher)
    if traced is None:
        shell.finish(Checked(set_key, findings).document(), [], findings)
    shell.finish([one.document() for one in traced], [line for one in traced for line in _lines(one)], findings)


def _lines(traced: Traced) -> list[str]:
    lines = [f"{traced.edition} edition", *_tree(traced.source, 1)]
    if traced.dependents:
        lines += ["  What hangs on it:", *(f"    {line}" for line in columns(list(map(_hanging, traced.dependents))))]
    if traced.printed:
        lines += ["  Printed on " + ", ".join(_where(one) for one in traced.printed) + "."]
    if traced.history:
        told = ", ".join(f"{version}: {text or 'not there'}" for version, text in traced.history)
        lines += [f"  In releases: {told}."]
    return [*lines, ""]


def _hanging(found: Found) -> tuple[str, str, str]:
    return found.id, found.text, _where(found)


def _where(found: Found) -> str:
    if found.page is None:
        return ""
    return f"page {found.page}" + (f" (sheet {found.sheet})" if found.sheet else "")


def _tree(source: Source, depth: int) -> list[str]:
    line = f"{'  ' * depth}{source.name} = {source.text}"
    if source.formula:
        line += f"    {source.formula}"
    if source.place:
        line += f"    {source.place}" + (" (planbook's own table)" if source.packaged else "")
    return [line, *(line for part in source.inputs for line in _tree(part, depth + 1))]
