"""Pages, tables, charts, composition, PDF and places: an edition as a document that a builder prints.

Face: `compose(stated, door)`; `subsetting_is_reproducible()` for whoever freezes a release.
"""

from planbook.document.compose import Composed, compose
from planbook.document.typeset import subsetting_is_reproducible

__all__ = ["Composed", "compose", "subsetting_is_reproducible"]
