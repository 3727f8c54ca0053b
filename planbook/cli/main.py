"""The `planbook` command and how it ends."""

from __future__ import annotations

import sys

import click

from planbook import __version__
from planbook.cli.commands.check import check
from planbook.cli.commands.compare import compare
from planbook.cli.commands.draft import draft
from planbook.cli.commands.find import find
from planbook.cli.commands.release import release
from planbook.cli.commands.schemas import schemas
from planbook.cli.commands.start import start
from planbook.cli.commands.trace import trace

INTERRUPTED = 130
"""128 plus the number of SIGINT, as shells expect."""


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, prog_name="planbook")
def planbook() -> None:
    """Plan sets for wooden pieces with moving parts, from one source, metric and imperial.

    Exit code 0: done. 1: the content has findings that stop it. 2: wrong usage.

    \b
    Examples:
      planbook start my-workshop      a new workspace with a small plan set
      planbook draft tool-tote        its PDFs, in build/tool-tote/
      planbook release tool-tote 1.0  freeze them as version 1.0
    """


for command in (start, check, draft, release, compare, trace, find, schemas):
    planbook.add_command(command)


def main() -> None:
    """Run the command that was typed and exit: 0, 1 or 2 as in the help, 130 after Ctrl-C."""
    try:
        code = planbook.main(standalone_mode=False)
    except click.ClickException as wrong:
        wrong.show()
        sys.exit(wrong.exit_code)
    except (click.Abort, KeyboardInterrupt):
        sys.exit(INTERRUPTED)
    sys.exit(code)
