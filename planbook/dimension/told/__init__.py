"""The shape that the numbers of a sheet describe: the part with every station and radius where those numbers put it."""

from planbook.dimension.told.shape import told_shape

__all__ = ["told_shape"]
