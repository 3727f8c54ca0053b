"""A DXF file read back by ezdxf, as a CAD program would, in millimetres whatever its unit."""

from __future__ import annotations

import io
import math
from dataclasses import dataclass

import ezdxf
from ezdxf.document import Drawing
from ezdxf.entities import DXFGraphic

FINE = 0.001
"""Millimetres: as near as a file comes to the part."""
PER_UNIT = {1: 25.4, 4: 1.0}
"""Millimetres in a unit, by $INSUNITS (DXF reference, header variables: 1 inches, 4 millimetres)."""
Piece = tuple[str, tuple[float, ...]]


@dataclass(frozen=True)
class Read:
    document: Drawing
    unit: float

    def of(self, kind: str) -> list[DXFGraphic]:
        return list(self.document.modelspace().query(kind))

    def pieces(self, layer: str) -> list[Piece]:
        """Lines as their ends, arcs as centre, radius and ends, circles as centre and radius; ends sorted."""
        return sorted(piece for entity in self.document.modelspace() if entity.dxf.layer == layer
                      for piece in self._pieces(entity))  # fmt: skip

    def _pieces(self, entity: DXFGraphic) -> list[Piece]:
        if entity.dxftype() == "LWPOLYLINE":
            return [piece for each in entity.virtual_entities() for piece in self._pieces(each)]
        if entity.dxftype() == "LINE":
            return [("line", self._mm(*sorted((entity.dxf.start, entity.dxf.end), key=lambda p: (p.x, p.y))))]
        if entity.dxftype() == "ARC":
            ends = sorted((entity.start_point, entity.end_point), key=lambda p: (round(p.x, 6), p.y))
            return [("arc", (*self._mm(entity.dxf.center), entity.dxf.radius * self.unit, *self._mm(*ends)))]
        if entity.dxftype() == "CIRCLE":
            return [("circle", (*self._mm(entity.dxf.center), entity.dxf.radius * self.unit))]
        return []

    def _mm(self, *points) -> tuple[float, ...]:
        return tuple(value * self.unit for point in points for value in (point.x, point.y))


def read(data: bytes) -> Read:
    document = ezdxf.read(io.StringIO(data.decode("utf-8")))
    auditor = document.audit()
    assert not auditor.has_errors, auditor.errors
    assert not auditor.has_fixes, auditor.fixes
    assert document.dxfversion >= "AC1024"
    return Read(document, PER_UNIT[document.header["$INSUNITS"]])


def same(first: list[Piece], second: list[Piece]) -> bool:
    """Whether two lists hold the same pieces, each number to 0.001 mm, in any order."""
    left = list(second)
    for kind, numbers in first:
        near = [piece for piece in left if piece[0] == kind and math.dist(piece[1], numbers) < FINE]
        if not near:
            return False
        left.remove(near[0])
    return not left
