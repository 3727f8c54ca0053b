"""The command line: arguments, progress, findings for people, exit codes. One file a command; no logic."""

from planbook.cli.main import main

__all__ = ["main"]
