"""dxf: parts and sheets as DXF files of release 2010 (AC1024), by ezdxf; the same input gives the same bytes."""

from planbook.drawing.dxf.part import is_flat, part_dxf
from planbook.drawing.dxf.sheet import sheet_dxf

__all__ = ["is_flat", "part_dxf", "sheet_dxf"]
