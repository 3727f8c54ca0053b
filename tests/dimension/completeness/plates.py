"""Sheets made by hand for the checker: plates with holes, slots and pockets, in millimetres for the reader."""

from __future__ import annotations

from planbook.dimension.completeness.record import Made, Plane, Removed, Segment, Shape, SheetRecord, Told

MM = 1e6
SIZE = (200 * MM, 100 * MM, 18 * MM)
FACE = Plane((0.0, 0.0, SIZE[2]), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


def plate(*features: Made, outline: tuple[Segment, ...] | None = None) -> Shape:
    """200 by 100 by 18."""
    return Shape(
        "plate",
        "Plate",
        SIZE,
        outline or polygon((0, 0), (200, 0), (200, 100), (0, 100)),
        {f.name: f for f in features},
    )


def polygon(*corners: tuple[float, float]) -> tuple[Segment, ...]:
    points = [(x * MM, y * MM) for x, y in corners]
    return tuple(Segment(a, b) for a, b in zip(points, [*points[1:], points[0]], strict=True))


def arc(start: tuple[float, float], end: tuple[float, float], centre: tuple[float, float]) -> Segment:
    (a, b, c) = ((x * MM, y * MM) for x, y in (start, end, centre))
    return Segment(a, b, c)


def hole(name: str, x: float, y: float, diameter: float = 8, depth: float = 18) -> Made:
    rim = (x + diameter / 2, y)
    return Made(name, (Removed(FACE, (arc(rim, rim, (x, y)),), depth * MM),))


def pocket(name: str, x: float, y: float, length: float, width: float, depth: float) -> Made:
    loop = polygon((x, y), (x + length, y), (x + length, y + width), (x, y + width))
    return Made(name, (Removed(FACE, loop, depth * MM),))


def slot(name: str, first: tuple[float, float], last: tuple[float, float], radius: float) -> Made:
    """Along any direction, right through."""
    dx, dy = last[0] - first[0], last[1] - first[1]
    far = (dx * dx + dy * dy) ** 0.5
    nx, ny = -dy / far * radius, dx / far * radius
    a, b = (first[0] - nx, first[1] - ny), (last[0] - nx, last[1] - ny)
    c, d = (last[0] + nx, last[1] + ny), (first[0] + nx, first[1] + ny)
    (line1,), (line2,) = polygon(a, b)[:1], polygon(c, d)[:1]
    return Made(name, (Removed(FACE, (line1, arc(b, c, last), line2, arc(d, a, first)), 18 * MM),))


def linear(name: str, axis: str, near: float, far: float, **more: object) -> Told:
    """A dimension from one station of an axis to another."""
    feature, characteristic = name.split("/")[:2]
    index = "xyz".index(axis)
    points = tuple(tuple(value * MM if i == index else 0.0 for i in range(3)) for value in (near, far))
    return Told(f"plate/{name}", feature, characteristic, "linear", axis, points, (far - near) * MM, **more)  # type: ignore[arg-type]


def noted(name: str, value: float, kind: str = "note") -> Told:
    feature, characteristic = name.split("/")
    return Told(f"plate/{name}", feature, characteristic, kind, "", (), value * MM)


BLANK = (
    linear("blank/length", "x", 0, 200),
    linear("blank/width", "y", 0, 100),
    linear("blank/thickness", "z", 0, 18),
)


def sheet(part: Shape, *told: Told) -> SheetRecord:
    return SheetRecord(part, (*BLANK, *told))
