"""planbook start."""

from __future__ import annotations

import json
import shlex
from pathlib import Path

import click

from planbook.release import start_workspace


@click.command()
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document on standard output.")
def start(folder: Path, as_json: bool) -> None:
    """Make a new workspace in DIR with a small plan set that compiles.

    DIR must not exist yet, or be empty.

    \b
    Examples:
      planbook start my-workshop
    """
    try:
        set_key = start_workspace(folder)
    except FileExistsError as taken:
        raise click.UsageError(f"{folder} is not an empty folder; name one that does not exist yet.") from taken
    except OSError as fault:
        raise click.UsageError(
            f"No workspace can be made at {folder}; the system says: {fault.strerror}. "
            "Name a folder where you may write."
        ) from fault
    if as_json:
        click.echo(json.dumps({"set": set_key, "workspace": str(folder)}, ensure_ascii=False, indent=2))
        return
    click.echo(f"{folder} holds the plan set {set_key}. Next:")
    click.echo(f"  cd {shlex.quote(str(folder))}")
    click.echo(f"  planbook draft {set_key}")
