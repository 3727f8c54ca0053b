"""`python -m planbook` is the same as `planbook`."""

from planbook.cli import main

main()
