"""planbook schemas."""

from __future__ import annotations

from pathlib import Path

import click

from planbook.source import write_schemas


@click.command()
@click.option(
    "--out",
    metavar="DIR",
    default="docs/schema",
    show_default=True,
    type=click.Path(path_type=Path, file_okay=False),
    help="Where to write them.",
)
def schemas(out: Path) -> None:
    """Write the JSON Schemas of all content files, for an editor to complete and check them.

    \b
    Examples:
      planbook schemas
      planbook schemas --out ~/.config/schemas
    """
    try:
        out.mkdir(parents=True, exist_ok=True)
        written = write_schemas(out)
    except OSError as fault:
        raise click.UsageError(
            f"Nothing can be written to {out}; the system says: {fault.strerror}. Name another folder with --out."
        ) from fault
    for path in written:
        click.echo(str(path))
