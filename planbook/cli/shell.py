"""What all commands share: --json and --workspace, progress on a terminal, the result, the exit code."""

from __future__ import annotations

import json
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from functools import wraps
from pathlib import Path
from typing import Any, NoReturn

import click
from rich.console import Console
from rich.markup import escape

from planbook.cli.findings import print_findings
from planbook.release import Watcher
from planbook.source import Door
from planbook.source.findings import Finding, stops

STOPPED = 1


def shared_options(command: Callable[..., None]) -> Callable[..., None]:
    """--workspace and --json, given to the command as one `Shell`, its first argument."""

    @click.option(
        "--workspace",
        metavar="DIR",
        default=".",
        type=click.Path(path_type=Path),
        help="The folder that holds content/; the current one without it.",
    )
    @click.option("--json", "as_json", is_flag=True, help="Print one JSON document on standard output.")
    @wraps(command)
    def with_shell(workspace: Path, as_json: bool, **arguments: Any) -> None:
        if not (workspace / "content").is_dir():
            raise click.UsageError(f"There is no content/ folder in {workspace.resolve()}. {_way_to_one(workspace)}")
        command(Shell(workspace, as_json), **arguments)

    return with_shell


def _way_to_one(folder: Path) -> str:
    """What to do in a folder that is no workspace: whoever stands in a folder of one is told which that is."""
    for above in folder.resolve().parents:
        if (above / "content").is_dir():
            return f"Your workspace is {above}: go there, or name it with --workspace DIR."
    return "Go to your workspace, name it with --workspace DIR, or make one with `planbook start DIR`."


def chosen_set() -> str:
    """The SET that stands before the subcommand, as in `planbook archive SET verify`."""
    return str(click.get_current_context().obj)


class Shell:
    """Where a command shows things: its result on standard output, all else on standard error."""

    def __init__(self, workspace: Path, as_json: bool) -> None:
        self.workspace = workspace
        self.as_json = as_json
        self._errors = Console(stderr=True, soft_wrap=True, highlight=False)

    @property
    def door(self) -> Door:
        """A door to the workspace with an empty log."""
        return Door(self.workspace)

    @contextmanager
    def progress(self) -> Iterator[Watcher]:
        """Gives a watcher that shows what is being done now: a line that comes and goes, on a terminal only."""
        if not self._errors.is_terminal:
            yield Watcher(lambda _: None, time.perf_counter)
            return
        with self._errors.status("Starting") as status:
            yield Watcher(lambda doing: status.update(escape(doing)), time.perf_counter)

    def finish(
        self, document: dict[str, Any] | list[dict[str, Any]], lines: Sequence[str], findings: Sequence[Finding]
    ) -> NoReturn:
        """Show the findings and the result, as JSON or as lines for people, and end with the exit code."""
        print_findings(self._errors, findings, self.door)
        if self.as_json:
            click.echo(json.dumps(document, ensure_ascii=False, indent=2))
        else:
            for line in lines:
                click.echo(line)
        raise click.exceptions.Exit(STOPPED if stops(findings) else 0)


def columns(rows: Sequence[Sequence[str]]) -> list[str]:
    """Rows of cells as lines in which the cells of a column start at the same place."""
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    return ["  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows]
