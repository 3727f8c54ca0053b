"""Pages, tables, charts, composition, PDF and places: an edition as a document that a builder prints.

Face: `compose(stated, door)`; `full_size_pdf(pages, ...)` for templates at true size; and, for whoever freezes a
release, `subsetting_is_reproducible()`.
"""

from planbook.document.compose import Composed, compose
from planbook.document.drawn import Drawn
from planbook.document.fullsize import full_size_pdf
from planbook.document.typeset import subsetting_is_reproducible

__all__ = ["Composed", "Drawn", "compose", "full_size_pdf", "subsetting_is_reproducible"]
