"""A small statement made by hand: one part with a hole, one page, one of everything."""

from planbook.statement.model import (
    BlockStated,
    CutStated,
    DimensionStated,
    EditionStated,
    FeatureStated,
    FigureStated,
    FrameStated,
    ParameterStated,
    PartStated,
    PrintedStated,
    RowStated,
    RuleStated,
    SegmentStated,
    SetStated,
    SheetStated,
    StandingStated,
    Statement,
    StepStated,
)

MM = 1e6


def square(x, y, side):
    corners = [(x, y), (x + side, y), (x + side, y + side), (x, y + side)]
    return tuple(SegmentStated(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True))


def printed(mm):
    return PrintedStated(f"{mm:g}", f"{mm / 25.4:.3f}", mm * MM, "mm", "in")


def free():
    return StandingStated("free", "a matter of taste", printed(10), printed(1000))


def parameter(name, mm, formula="", **more):
    more.setdefault("standing", free())
    return ParameterStated(
        name, mm * MM, (1, 0, 0, 0), printed(mm), "", "a measure", formula or f"{mm} mm", (), True, **more
    )


def dimension(id_, mm, **more):
    part, feature, characteristic = id_.split("/")
    points = ((0.0, 0.0, 0.0), (mm * MM, 0.0, 0.0))
    more.setdefault("standing", free())
    return DimensionStated(
        id_, part, feature, characteristic, "linear", "face", "x", points, mm * MM, printed(mm), **more
    )


def hole(name, x, side=8 * MM):
    frame = FrameStated((0.0, 0.0, 18 * MM), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    return FeatureStated(name, "hole", "face", (CutStated(frame, square(x, 5 * MM, side), 18 * MM),))


def part(key, number, title, features=()):
    return PartStated(
        key, number, title, "part", str(number), "sheet_19", "Plywood 18 mm", "birch plywood", 1, 0,
        (300 * MM, 200 * MM, 18 * MM), square(0.0, 0.0, 200 * MM), {each.name: each for each in features},
        ("Break edges.",),
    )  # fmt: skip


STATEMENT = Statement(
    form=1,
    version="1.0",
    issued="2026-03-02",
    plan_set=SetStated(
        "tote", "BT", "Tote", "", "A tote.", "Larkhill", "", "", "E. L.", "T. M.", ("Lengths ±0.5 mm.",)
    ),
    edition=EditionStated(
        "metric", "Metric edition", "millimetre", "a4", "first_angle", "europe", "Europe", "en", False
    ),
    parameters={"tote.length": parameter("tote.length", 300), "tote.width": parameter("tote.width", 200)},
    parts={"handle": part("handle", 9, "Handle", (hole("pivot", 40 * MM),)), "end": part("end", 2, "End")},
    dimensions={
        each.id: each
        for each in (
            dimension("handle/blank/length", 300),
            dimension("handle/pivot/x", 44),
            dimension("handle/pivot/diameter", 8, tolerance="±0.1", upper=0.1 * MM, lower=-0.1 * MM),
            dimension("end/blank/length", 300),
        )
    },
    blocks=(
        BlockStated("how_to/start/0", "how_to", "heading", "How to"),
        BlockStated("how_to/start/1", "how_to", "paragraph", "Every part has a sheet with its own number."),
        BlockStated("how_to/start/2", "how_to", "paragraph", "Work from the printed numbers, never from the drawing."),
        BlockStated("how_to/start/3", "how_to", "paragraph", "Sheets are thinner than they are called."),
    ),
    lists={"hardware": (RowStated("screw", {"item": "Screw 4 x 30", "quantity": "8"}),), "tools": ()},
    sheets={"9": SheetStated("9", "handle", "Handle", "1.0"), "2": SheetStated("2", "end", "End", "1.0")},
    figures={"tote": FigureStated("tote", "The tote.", "A tote from the front.", "00ff")},
    rules={"grip": RuleStated("grip", "a >= b", "a hand goes in", "30 mm >= 25 mm", True, "stop")},
    steps=(StepStated("cut", 1, "Cut the panels", ("handle", "end"), ""),),
)  # fmt: skip
