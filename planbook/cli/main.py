"""The `planbook` command and how it ends."""

from __future__ import annotations

import sys
from typing import Any

import click

from planbook import __version__
from planbook.cli.commands.advisory import advisory
from planbook.cli.commands.archive import archive
from planbook.cli.commands.check import check
from planbook.cli.commands.compare import compare
from planbook.cli.commands.draft import draft
from planbook.cli.commands.find import find
from planbook.cli.commands.question import question
from planbook.cli.commands.release import release
from planbook.cli.commands.schemas import schemas
from planbook.cli.commands.start import start
from planbook.cli.commands.trace import trace

INTERRUPTED = 130
"""128 plus the number of SIGINT, as shells expect."""


class _Planbook(click.Group):
    """Commands in the order in which a newcomer meets them, and a quiet end when interrupted."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - the library's signature
        return list(self.commands)

    def main(self, *args: Any, **options: Any) -> Any:
        """Run and exit: 0, 1 or 2 as in the help, 130 after Ctrl-C."""
        try:
            code = super().main(*args, **{**options, "standalone_mode": False})
        except click.ClickException as wrong:
            wrong.show()
            code = wrong.exit_code
        except (click.Abort, KeyboardInterrupt):
            code = INTERRUPTED
        sys.exit(code)


@click.group(cls=_Planbook, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, prog_name="planbook")
def main() -> None:
    """Plan sets for wooden pieces with moving parts, from one source, metric and imperial.

    Exit code 0: done. 1: the content has findings that stop it. 2: wrong usage.

    \b
    Examples:
      planbook start my-workshop      a new workspace with a small plan set
      planbook draft tool-tote        its PDFs, in build/tool-tote/
      planbook release tool-tote 1.0  freeze them as version 1.0
    """


for command in (start, check, draft, release, compare, trace, find, question, advisory, archive, schemas):
    main.add_command(command)
