"""fullsize: parts printed at 1:1 over several pages, to be trimmed, laid on one another and used as templates."""

from planbook.drawing.fullsize.template import full_size

__all__ = ["full_size"]
