"""Prose: what authors write in pages and steps, as marked HTML and as blocks of the statement."""

from planbook.statement.prose.insert import measure_html, printed_html
from planbook.statement.prose.names import TABLES, Named, Names, Sort
from planbook.statement.prose.read import AllProse, Line, Read, Written, caution, read_line, read_pages

__all__ = [
    "TABLES",
    "AllProse",
    "Line",
    "Named",
    "Names",
    "Read",
    "Sort",
    "Written",
    "caution",
    "measure_html",
    "printed_html",
    "read_line",
    "read_pages",
]
