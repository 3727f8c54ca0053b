"""Which measures state a part, and how they are printed."""

from planbook.dimension.dimensions import dimension_parts
from planbook.dimension.model import DimensionKind, PartDimension, PrintedTolerance

__all__ = ["DimensionKind", "PartDimension", "PrintedTolerance", "dimension_parts"]
