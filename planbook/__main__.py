"""`python -m planbook` is the same as `planbook`: both begin here."""

from __future__ import annotations

import sys


def run() -> None:
    """Load the command line and run it. Loading takes a moment, and may be interrupted as quietly as the rest."""
    try:
        from planbook.cli import main  # noqa: PLC0415 - a Ctrl-C while it is loaded is caught here
    except KeyboardInterrupt:
        sys.exit(130)
    main()


if __name__ == "__main__":
    run()
