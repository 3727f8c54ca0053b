"""Hand-made statements: parts with their cuts, and dimensions measured over them, in either unit system."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from planbook.statement.model import (
    FORM,
    CutStated,
    DimensionStated,
    EditionStated,
    FeatureStated,
    FrameStated,
    PartStated,
    PrintedStated,
    SegmentStated,
    SetStated,
    SheetStated,
    Statement,
)

NM = 1_000_000.0
XY = tuple[float, float]


def frame_of(face: str, size: Sequence[float]) -> FrameStated:
    """The frame of a face, millimetres in; (u, v) are the part's own axes on it."""
    length, width, thickness = (s * NM for s in size)
    x, y, z = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)
    minus = {(1.0, 0.0, 0.0): (-1.0, 0.0, 0.0), (0.0, 1.0, 0.0): (0.0, -1.0, 0.0), (0.0, 0.0, 1.0): (0.0, 0.0, -1.0)}
    return {
        "face": FrameStated((0, 0, thickness), x, y, z),
        "back": FrameStated((0, 0, 0), x, y, minus[z]),
        "left_end": FrameStated((0, 0, 0), y, z, minus[x]),
        "right_end": FrameStated((length, 0, 0), y, z, x),
        "front_edge": FrameStated((0, 0, 0), x, z, minus[y]),
        "rear_edge": FrameStated((0, width, 0), x, z, y),
    }[face]


def lines(*points: XY) -> tuple[SegmentStated, ...]:
    scaled = [(x * NM, y * NM) for x, y in points]
    return tuple(SegmentStated(a, b) for a, b in zip(scaled, (*scaled[1:], scaled[0]), strict=True))


def box(low: XY, high: XY) -> tuple[SegmentStated, ...]:
    return lines(low, (high[0], low[1]), high, (low[0], high[1]))


def round_loop(at: XY, diameter: float) -> tuple[SegmentStated, ...]:
    start = ((at[0] + diameter / 2) * NM, at[1] * NM)
    return (SegmentStated(start, start, (at[0] * NM, at[1] * NM)),)


def rounded_box(low: XY, high: XY, r: float) -> tuple[SegmentStated, ...]:
    (x0, y0), (x1, y1) = low, high

    def line(a: XY, b: XY) -> SegmentStated:
        return SegmentStated((a[0] * NM, a[1] * NM), (b[0] * NM, b[1] * NM))

    def arc(a: XY, b: XY, c: XY) -> SegmentStated:
        return SegmentStated((a[0] * NM, a[1] * NM), (b[0] * NM, b[1] * NM), (c[0] * NM, c[1] * NM))

    return (
        line((x0 + r, y0), (x1 - r, y0)),
        arc((x1 - r, y0), (x1, y0 + r), (x1 - r, y0 + r)),
        line((x1, y0 + r), (x1, y1 - r)),
        arc((x1, y1 - r), (x1 - r, y1), (x1 - r, y1 - r)),
        line((x1 - r, y1), (x0 + r, y1)),
        arc((x0 + r, y1), (x0, y1 - r), (x0 + r, y1 - r)),
        line((x0, y1 - r), (x0, y0 + r)),
        arc((x0, y0 + r), (x0 + r, y0), (x0 + r, y0 + r)),
    )


def stadium(start: XY, end: XY, width: float) -> tuple[SegmentStated, ...]:
    r = width / 2
    length = math.dist(start, end)
    ax, ay = -(end[1] - start[1]) / length * r, (end[0] - start[0]) / length * r
    p = [
        (start[0] - ax, start[1] - ay),
        (end[0] - ax, end[1] - ay),
        (end[0] + ax, end[1] + ay),
        (start[0] + ax, start[1] + ay),
    ]
    q = [(x * NM, y * NM) for x, y in p]
    return (
        SegmentStated(q[0], q[1]),
        SegmentStated(q[1], q[2], (end[0] * NM, end[1] * NM)),
        SegmentStated(q[2], q[3]),
        SegmentStated(q[3], q[0], (start[0] * NM, start[1] * NM)),
    )


@dataclass
class Bench:
    """A part in the making, in millimetres, printed for one edition."""

    key: str
    title: str
    size: tuple[float, float, float]
    inch: bool = False
    number: int = 1
    outline: tuple[SegmentStated, ...] = ()
    features: dict[str, FeatureStated] = field(default_factory=dict)
    dimensions: list[DimensionStated] = field(default_factory=list)
    notes: tuple[str, ...] = ()
    stock_note: str = ""
    as_drawn: int = 1
    mirrored: int = 0

    def printed(self, mm: float) -> PrintedStated:
        metric = f"{round(mm * 2) / 2:g}"
        parts = Fraction(round(mm / 25.4 * 32), 32)
        whole, rest = divmod(parts, 1)
        inch = f"{whole} {rest}" if whole and rest else str(rest or whole)
        return (
            PrintedStated(inch, metric, mm * NM, "in", "mm")
            if self.inch
            else PrintedStated(metric, "", mm * NM, "mm", "")
        )

    def cut(
        self, name: str, kind: str, face: str, loop: tuple[SegmentStated, ...], depth: float, **more: object
    ) -> None:
        """One cut from a face; a second call with the same name adds to the feature."""
        cut = CutStated(frame_of(face, self.size), loop, depth * NM, **more)  # type: ignore[arg-type]
        old = self.features.get(name)
        cuts = (*old.cuts, cut) if old else (cut,)
        self.features[name] = FeatureStated(name, kind, face, cuts)

    def linear(
        self, feature: str, what: str, view: str, axis: str, a: Sequence[float], b: Sequence[float], **more: object
    ) -> None:
        nominal = abs(a["xyz".index(axis)] - b["xyz".index(axis)])
        self._add(feature, what, "linear", view, axis, (a, b), nominal, **more)

    def diameter(self, feature: str, view: str, centre: Sequence[float], rim: Sequence[float], **more: object) -> None:
        more = {"prefix": "Ø", **more}
        self._add(feature, "diameter", "diameter", view, "", (centre, rim), 2 * math.dist(centre, rim), **more)

    def note(self, feature: str, what: str, view: str, at: Sequence[float], value: float, **more: object) -> None:
        self._add(feature, what, "note", view, "", (at,), value, **more)

    def _add(
        self,
        feature: str,
        what: str,
        kind: str,
        view: str,
        axis: str,
        points: Sequence[Sequence[float]],
        value: float,
        **more: object,
    ) -> None:
        name = f"{self.key}/{feature}/{what}"
        scaled = tuple(tuple(c * NM for c in p) for p in points)
        self.dimensions.append(
            DimensionStated(
                name, self.key, feature, what, kind, view, axis, scaled, value * NM, self.printed(value), **more
            )  # type: ignore[arg-type]
        )

    def overall(self, thickness_view: str = "front_edge") -> None:
        length, width, thickness = self.size
        self.linear("blank", "length", "face", "x", (0, 0, thickness), (length, 0, thickness))
        self.linear("blank", "width", "face", "y", (0, 0, thickness), (0, width, thickness))
        self.linear("blank", "thickness", thickness_view, "z", (0, 0, 0), (0, 0, thickness))

    def stated(self) -> PartStated:
        length, width, thickness = self.size
        outline = self.outline or box((0, 0), (length, width))
        return PartStated(
            self.key, self.number, self.title, "part", str(self.number), "maple_board",
            "Maple board, 1 in planed" if self.inch else "Maple board, 27 planed",
            "Hard maple", self.as_drawn, self.mirrored, (length * NM, width * NM, thickness * NM), outline,
            self.features, self.notes, self.stock_note,
        )  # fmt: skip


def statement(*benches: Bench, version: str = "1.0") -> Statement:
    """A statement of an invented plan set that holds these parts."""
    inch = benches[0].inch
    edition = EditionStated(
        "imperial" if inch else "metric",
        "Imperial edition" if inch else "Metric edition",
        "inch" if inch else "millimetre",
        "letter" if inch else "a4",
        "third_angle" if inch else "first_angle",
        "north_america" if inch else "europe",
        "North America" if inch else "Europe",
        "en",
        False,
    )
    tolerance = (
        ("Lengths ±1/32 in", "Angles ±0.5°", "Diagonals alike within 1/16 in", "Wood at 6 to 9 % moisture")
        if inch
        else ("Lengths ±0.5 mm", "Angles ±0.5°", "Diagonals alike within 1.5 mm", "Wood at 8 to 11 % moisture")
    )
    plan_set = SetStated(
        "sample",
        "LW-07",
        "Sample bench",
        "",
        "",
        "Lindenhof Workshop",
        "Invented Town",
        "",
        "M. Linden",
        "K. Hof",
        tolerance,
    )
    parts = {b.key: replace(b.stated(), number=i, sheet=str(i)) for i, b in enumerate(benches, 1)}
    return Statement(
        FORM, version, "2026-03-01", plan_set, edition, {}, parts,
        {d.id: d for b in benches for d in b.dimensions}, (), {},
        {str(i): SheetStated(str(i), b.key, b.title, version or "1.0") for i, b in enumerate(benches, 1)},
        {}, {}, (),
    )  # fmt: skip


def leg(inch: bool = False) -> Bench:
    """A leg with a tenon at its right end, two mortises and cross bolt holes."""
    s = 25.4 if inch else 25.0
    b = Bench(
        "leg",
        "Leg",
        (712 if not inch else 28.03125 * 25.4, 70 if not inch else 2.75 * 25.4, 45 if not inch else 1.75 * 25.4),
        inch,
    )
    length, width, thickness = b.size
    tenon = 1.5 * s
    low, high = (10.0, thickness / 3), (width - 10.0, 2 * thickness / 3)
    b.cut("tenon", "tenon", "right_end", box((0, 0), (width, thickness)), tenon, islands=(box(low, high),))
    b.cut("rail", "mortise", "face", box((60, 15), (130, 28)), 35)
    b.cut("apron", "mortise", "face", box((20, 40), (150, 52)), 10)
    for k, x in enumerate((45.0, 125.0)):
        b.cut("bolt", "hole", "face", round_loop((x, 46), 7), thickness)
        del k
    b.overall()
    z = thickness
    b.linear("tenon", "length", "face", "x", (length - tenon, 0, z), (length, 10, z))
    b.linear("tenon", "width", "right_end", "y", (length, 10, low[1]), (length, width - 10, low[1]))
    b.linear("tenon", "y", "right_end", "y", (length, 0, z), (length, 10, z))
    b.linear(
        "tenon",
        "thickness",
        "right_end",
        "z",
        (length, 10, low[1]),
        (length, 10, high[1]),
        caliper=True,
        tolerance="±0.005" if inch else "±0.1",
    )
    b.linear("tenon", "z", "right_end", "z", (length, 10, 0), (length, 10, low[1]))
    b.linear("rail", "x", "face", "x", (0, 0, z), (60, 15, z))
    b.linear("rail", "length", "face", "x", (60, 15, z), (130, 15, z), caliper=True)
    b.linear("rail", "y", "face", "y", (0, 0, z), (60, 15, z))
    b.linear("rail", "width", "face", "y", (60, 15, z), (60, 28, z), caliper=True)
    b.note("rail", "depth", "face", (95, 21.5, z), 35, suffix="deep", callout="leg/rail")
    b.linear("apron", "x", "face", "x", (0, 0, z), (20, 40, z))
    b.linear("apron", "length", "face", "x", (20, 40, z), (150, 40, z))
    b.linear("apron", "y", "face", "y", (0, 0, z), (20, 40, z))
    b.linear("apron", "width", "face", "y", (20, 40, z), (20, 52, z))
    b.note("apron", "depth", "face", (100, 46, z), 10, suffix="deep", callout="leg/apron")
    b.diameter("bolt", "face", (45, 46, z), (48.5, 46, z), count=2, suffix="through", callout="leg/bolt")
    b.linear("bolt", "x", "face", "x", (0, 0, z), (45, 46, z))
    b.linear("bolt", "pitch", "face", "x", (45, 46, z), (125, 46, z))
    b.linear("bolt", "y", "face", "y", (0, 0, z), (45, 46, z), method="drilled with part 5")
    b.notes = ("Mark left and right legs before you cut the mortises: the two pairs are mirror images.",)
    b.as_drawn, b.mirrored = 2, 2
    return b


def ramp_bar(inch: bool = False) -> Bench:
    """A long outline with 14 corners, 834 x 98 x 27."""
    b = Bench("ramp_bar", "Ramp bar", (834, 98, 27), inch)
    points = [
        (0, 0), (834, 0), (834, 60), (790, 60), (790, 98), (754, 98), (738, 98), (422, 22),
        (412, 22), (394, 22), (394, 98), (358, 98), (42, 22), (0, 22),
    ]  # fmt: skip
    b.outline = lines(*points)
    b.cut("drive_pin", "hole", "face", round_loop((450, 12), 12), 27)
    for x in (760.0, 810.0):
        b.cut("yoke_bolts", "hole", "face", round_loop((x, 30), 7), 27)
        b.cut("yoke_bolts", "hole", "face", round_loop((x, 30), 18), 8)
    b.overall()
    z = 27
    for k, (x, y) in enumerate(points[2:], 2):
        if 0 < x < 834:
            b.linear(f"outline.v{k}", "x", "face", "x", (0, 0, z), (x, y, z))
    for k in (2, 6, 7):
        x, y = points[k]
        if 0 < y < 98:
            b.linear(f"outline.v{k}", "y", "face", "y", (0, 0, z), (x, y, z))
    b.linear("drive_pin", "x", "face", "x", (0, 0, z), (450, 12, z))
    b.linear("drive_pin", "y", "face", "y", (0, 0, z), (450, 12, z))
    b.diameter(
        "drive_pin", "face", (450, 12, z), (456, 12, z), suffix="through", callout="ramp_bar/drive_pin", caliper=True
    )
    b.linear("yoke_bolts", "x", "face", "x", (0, 0, z), (760, 30, z))
    b.linear("yoke_bolts", "pitch", "face", "x", (760, 30, z), (810, 30, z))
    b.linear("yoke_bolts", "y", "face", "y", (0, 0, z), (760, 30, z))
    b.diameter("yoke_bolts", "face", (760, 30, z), (763.5, 30, z), count=2, suffix="through", callout="ramp_bar/yoke")
    b.note(
        "yoke_bolts",
        "counterbore_diameter",
        "face",
        (760, 30, z),
        18,
        count=2,
        prefix="counterbore Ø",
        callout="ramp_bar/yoke",
    )
    b.note("yoke_bolts", "counterbore_depth", "face", (760, 30, z), 8, count=2, suffix="deep", callout="ramp_bar/yoke")
    b.as_drawn, b.mirrored = 1, 1
    return b


def apron(inch: bool = False) -> Bench:
    """A long board with a slot, a counterbored hole at its back and holes at its ends."""
    b = Bench("apron", "Front apron", (1220, 135, 27), inch)
    z = 27
    b.cut("slot", "slot", "face", stadium((420, 76), (765, 76), 15), z)
    b.cut("pivot", "hole", "face", round_loop((1050, 76), 10), z)
    b.cut("pivot", "hole", "back", round_loop((1050, 76), 26), 9)
    for x in (30.0, 1190.0):
        for y in (35.0, 100.0):
            b.cut(f"bolt{int(x)}{int(y)}", "hole", "face", round_loop((x, y), 7), z)
    b.cut("tongue_l", "rabbet", "face", box((0, 0), (10, 135)), 7)
    b.cut("tongue_r", "rabbet", "face", box((1210, 0), (1220, 135)), 7)
    b.cut("groove", "groove", "back", box((0, 118), (1220, 124)), 6)
    b.overall()
    b.linear("slot", "x", "face", "x", (0, 0, z), (420, 76, z))
    b.linear("slot", "length", "face", "x", (420, 76, z), (765, 76, z))
    b.linear("slot", "y", "face", "y", (0, 0, z), (420, 76, z))
    b.linear(
        "slot",
        "width",
        "face",
        "y",
        (765, 68.5, z),
        (765, 83.5, z),
        tolerance="±0.2" if not inch else "±.010",
        caliper=True,
    )
    b.linear("pivot", "x", "face", "x", (0, 0, z), (1050, 76, z))
    b.linear("pivot", "y", "face", "y", (0, 0, z), (1050, 76, z))
    b.diameter("pivot", "face", (1050, 76, z), (1055, 76, z), suffix="through", callout="apron/pivot", caliper=True)
    b.note(
        "pivot",
        "counterbore_diameter",
        "face",
        (1050, 76, 0),
        26,
        prefix="counterbore at back Ø",
        callout="apron/pivot",
    )
    b.note("pivot", "counterbore_depth", "face", (1050, 76, 0), 9, suffix="deep", callout="apron/pivot")
    b.linear("bolt", "x", "face", "x", (0, 0, z), (30, 35, z), count=2)
    b.linear("bolt", "x2", "face", "x", (1190, 35, z), (1220, 35, z))
    b.linear("bolt", "y", "face", "y", (0, 0, z), (30, 35, z))
    b.linear("bolt", "pitch", "face", "y", (30, 35, z), (30, 100, z))
    b.diameter(
        "bolt",
        "face",
        (30, 35, z),
        (33.5, 35, z),
        count=4,
        suffix="through",
        callout="apron/bolt",
        method="drilled with part 7",
    )
    b.linear("tongue_l", "width", "face", "x", (0, 135, z), (10, 135, z), count=2)
    b.linear("tongue_l", "depth", "front_edge", "z", (0, 0, 20), (0, 0, 27), count=2)
    b.linear("groove", "y", "right_end", "y", (1220, 0, 0), (1220, 118, 0))
    b.linear("groove", "width", "right_end", "y", (1220, 118, 0), (1220, 124, 0))
    b.linear("groove", "depth", "right_end", "z", (1220, 118, 0), (1220, 118, 6))
    b.stock_note = "Accepted .980 to 1.020" if inch else "Accepted 26.7 to 27.3"
    return b


def button(inch: bool = False) -> Bench:
    """A small turn button with rounded ends and a countersunk hole."""
    b = Bench("button", "Turn button", (54, 26, 20), inch)
    b.outline = rounded_box((0, 0), (54, 26), 6)
    b.cut("screw", "hole", "face", round_loop((27, 13), 5), 20)
    b.cut("screw", "hole", "face", round_loop((27, 13), 10), 2.5, bottom=round_loop((27, 13), 5))
    b.overall()
    z = 20
    b.linear("screw", "x", "face", "x", (0, 0, z), (27, 13, z))
    b.linear("screw", "y", "face", "y", (0, 0, z), (27, 13, z))
    b.diameter("screw", "face", (27, 13, z), (29.5, 13, z), suffix="through", callout="button/screw")
    b.note("screw", "countersink_diameter", "face", (27, 13, z), 10, prefix="countersink Ø", callout="button/screw")
    b._add(
        "outline",
        "radius",
        "radius",
        "face",
        "",
        ((6, 6, z), (6 - 6 * 0.7071, 6 - 6 * 0.7071, z)),
        6,
        prefix="R",
        count=4,
    )
    return b


def top(inch: bool = False) -> Bench:
    """A large sheet with an opening and two blind holes."""
    b = Bench("top", "Top", (1500, 600, 18), inch)
    b.cut("well", "opening", "face", rounded_box((368, 110), (878, 400), 12), 18)
    for y in (165.0, 345.0):
        b.cut("pins", "hole", "back", round_loop((318, y), 12), 10)
    b.cut("hinge", "rabbet", "face", box((878, 110), (890, 400)), 3)
    b.overall()
    z = 18
    b.linear("well", "x", "face", "x", (0, 0, z), (368, 110, z))
    b.linear("well", "length", "face", "x", (368, 110, z), (878, 110, z), tolerance="+0.5/0" if not inch else "+1/32/0")
    b.linear("well", "y", "face", "y", (0, 0, z), (368, 110, z))
    b.linear("well", "width", "face", "y", (368, 110, z), (368, 400, z))
    b._add(
        "well",
        "radius",
        "radius",
        "face",
        "",
        ((380, 388, z), (380 - 12 * 0.7071, 388 + 12 * 0.7071, z)),
        12,
        prefix="R",
        count=4,
    )
    b.linear("pins", "x", "back", "x", (0, 0, 0), (318, 165, 0))
    b.linear("pins", "y", "back", "y", (0, 0, 0), (318, 165, 0))
    b.linear("pins", "pitch", "back", "y", (318, 165, 0), (318, 345, 0), caliper=True)
    b.diameter("pins", "back", (318, 165, 0), (324, 165, 0), count=2, callout="top/pins", caliper=True)
    b.note("pins", "depth", "back", (318, 165, 0), 10, suffix="deep", callout="top/pins")
    b.linear("hinge", "width", "face", "x", (878, 110, z), (890, 110, z))
    b.note("hinge", "depth", "face", (884, 250, z), 3, suffix="deep", callout="top/hinge")
    b.stock_note = "Accepted .700 to .730" if inch else "Accepted 17.6 to 18.4"
    b.notes = ("Rout the well from the template, part 23. Screw the waste to a batten first: it drops.",)
    return b


ALL = (leg, ramp_bar, apron, button, top)
