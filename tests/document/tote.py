"""A small tote stated by hand: two parts, two steps, a page of every slot, cautions, a chart, lists, changes."""

from __future__ import annotations

from datetime import date
from types import SimpleNamespace
from typing import Any

from planbook.measure.systems import Units
from planbook.source.content import Content, Step
from planbook.source.models.figures import ChartModel, CurveModel, ElevationModel, IsometricModel, PartFigureModel
from planbook.source.models.page import StepHead
from planbook.source.models.plan_set import EditionModel, GeneralTolerances, Paper, Projection, SetModel, Workshop
from planbook.source.text import Formula, Text
from planbook.statement.model import (
    BlockStated,
    DimensionStated,
    EditionStated,
    FigureStated,
    ParameterStated,
    PartStated,
    PrintedStated,
    RowStated,
    SegmentStated,
    SetStated,
    SheetStated,
    Statement,
    StepStated,
)
from planbook.statement.stated import ChartData, CurveData, LimitData, Prose, Stated

INCH = 25_400_000.0
MM = 1_000_000.0
LENGTH = (1, 0, 0, 0)
PARTS = {"end": ("End", 1, (290.0, 240.0, 18.0)), "side": ("Side", 2, (430.0, 140.0, 12.0))}


def printed(millimetres: float, inches: str, units: str) -> PrintedStated:
    text = f"{millimetres:g}"
    if units == "inch":
        return PrintedStated(inches, text, millimetres * MM, "in", "mm")
    return PrintedStated(text, inches, millimetres * MM, "mm", "in")


def quantity(mark: str, shown: PrintedStated) -> str:
    """A marked quantity as prose renders it."""
    text = shown.text.replace("5/8", '<span class="f">5/8</span>').replace("1/2", '<span class="f">1/2</span>')
    other = f'<span class="second">[{shown.other} {shown.other_unit}]</span>'
    return f'<span class="q" data-mark="{mark}">{text} {shown.unit} {other}</span>'


def caution(name: str, word: str, title: str, text: str) -> str:
    return (
        f'<aside class="caution caution-{word}" data-caution="{name}" data-block="about/{name}/1">'
        f'<p class="caution-word">{word.upper()}</p><p class="caution-title">{title}</p>'
        f'<p class="caution-text">{text}</p></aside>'
    )


def state(units: str = "millimetre", paper: str = "a4", *, version: str = "1.1", built: bool = False) -> Stated:
    """The tote in an edition."""
    content = _content()
    statement = _statement(units, paper, version, built)
    return Stated(
        statement=statement,
        prose=_prose(units),
        components=(),
        assemblies={"front": (), "above": ()},
        charts={"room": _chart(units)},
        design=SimpleNamespace(),  # type: ignore[arg-type]
        parts={},
        content=content,
        cautions_html={
            "machines": caution("machines", "danger", "Machines", "They cut flesh faster than wood."),
            "dust": caution("dust", "warning", "Wood dust", "Fine dust harms the lungs. Extract it at the machine."),
            "rags": caution("rags", "caution", "Oily rags", "They heat up by themselves."),
            "measure": caution("measure", "notice", "Measure the sheets", "Their thickness varies."),
        },
    )


def _prose(units: str) -> tuple[Prose, ...]:
    length = quantity("parameter:tote.length", printed(460, "18 1/2", units))
    groove = quantity("dimension:side/groove/x", printed(312, "12 1/2", units))
    about = (
        f'<p data-block="about/p/1">The tote is {length} long. Cut <a class="ref" href="#part.side">side (part 2)</a> '
        'first; see <a class="ref paged" href="#sheet.2">sheet 2</a> and <a class="ref paged" href="#figure.above">'
        'figure 1</a>.</p><figure id="figure.above" data-figure="above" data-block="about/f/1"></figure>'
        f'<h2 data-block="about/longer/0">A longer one</h2><p>Everything else stays at {length}.</p>'
        '<figure id="figure.room" data-figure="room"></figure>'
    )
    first = (
        f'<p>Rout the groove {groove} from the left end, see <a class="ref paged" href="#step.close">step 2</a>.</p>'
        '<figure id="figure.face" data-figure="face"></figure><ul><li>One</li><li>Two</li></ul>'
    )
    back = '<p>Wipe on oil.</p><div id="table.hardware" data-table="hardware" data-block="care/t/1"></div>'
    return (
        Prose("how_to_use", "page.how_to_use", "How to use this plan", "front", 0, "how_to_use/title/0",
              "<p>Every part has a sheet of its own.</p>"),
        Prose("about", "page.about", "About the tote", "front", 0, "about/title/0", about),
        Prose("order", "page.order", "Before you begin", "build", 0, "order/title/0", "<p>Read it all once.</p>"),
        Prose("groove", "step.groove", "Groove the sides", "step", 1, "groove/title/0", first,
              "The panel slides by hand.", caution("dust", "warning", "Wood dust", "Extract it.")),
        Prose("close", "step.close", "Put it together", "step", 2, "close/title/0", "<p>Glue one end.</p>"),
        Prose("care", "page.care", "Care", "back", 0, "care/title/0", back),
    )  # fmt: skip


def _chart(units: str) -> ChartData:
    unit = "in" if units == "inch" else "mm"
    x = tuple(float(value) for value in range(300, 700, 50))
    curves = (
        CurveData("clear length inside", tuple(v - 36 for v in x)),
        CurveData("short bay", tuple(v / 3 for v in x)),
    )
    return ChartData(
        "tote.length", "overall length", unit, "room inside", unit, x, curves, (LimitData("plane", 248.0),)
    )


def _content() -> Content:
    workshop = Workshop(name=Text("Larkhill Workshop"))
    edition = EditionModel(
        title=Text("Metric edition"), units=Units.MILLIMETRE, paper=Paper.A4, projection=Projection.FIRST_ANGLE,
        market=Text("europe"),
    )  # fmt: skip
    tolerances = GeneralTolerances(length=Text("a"), angle=Text("b"), diagonals=Text("c"), moisture=Text("6 to 9 %"))
    plan_set = SetModel(
        title=Text("Bench Tote"), code=Text("BT"), summary=Text("A low tote."), workshop=workshop,
        issued=date(2026, 3, 2), drawn_by=Text("E. L."), approved_by=Text("T. M."), editions={Text("metric"): edition},
        tolerances=tolerances, cover=Text("front"), cautions=(),
    )  # fmt: skip
    figures: dict[Text, Any] = {
        Text("front"): ElevationModel(elevation="front", caption=Text("From the front."), alt=Text("The front.")),
        Text("above"): IsometricModel(
            isometric="front_left", caption=Text("From above."), alt=Text("From above, in words.")
        ),
        Text("face"): PartFigureModel(part=Text("side"), caption=Text("The groove."), alt=Text("A grooved side.")),
        Text("room"): ChartModel(
            chart=Text("tote.length"), start=Formula("12 in"), end=Formula("26 in"), x_label=Text("overall length"),
            curves=(CurveModel(value=Formula("a"), label=Text("clear length")),), y_label=Text("room"),
            caption=Text("Room inside."), alt=Text("Two rising lines."),
        ),
    }  # fmt: skip
    steps = (
        Step("groove", 1, "steps/1.md", StepHead(title=Text("Groove the sides"), tools=(Text("Router"),)), Text("")),
        Step("close", 2, "steps/2.md", StepHead(title=Text("Put it together")), Text("")),
    )
    return Content("tote", plan_set, {}, {}, {}, {}, figures=figures, steps=steps, folder="content/tote")


def _statement(units: str, paper: str, version: str, built: bool) -> Statement:
    words = {"inch": ("Imperial edition", "third_angle", "north_america", "North America"),
             "millimetre": ("Metric edition", "first_angle", "europe", "Europe")}[units]  # fmt: skip
    title, projection, market, market_title = words
    return Statement(
        form=1,
        version=version,
        issued="2026-03-02",
        plan_set=SetStated(
            "tote", "BT", "Bench Tote", "A carrying tote for hand tools", "A low open tote with a long "
            "bay, a short bay and a rack for slim tools.", "Larkhill Workshop", "Sutherland", "Build as many",
            "E. L.",
            "T. M.", ("Lengths ±0.5 mm [±1/32 in]", "Angles ±0.5°"),
        ),
        edition=EditionStated(
            title.split()[0].lower(), title, units, paper, projection, market, market_title, "en", built
        ),
        parameters=_parameters(units),
        parts={key: _part(key) for key in PARTS},
        dimensions=_dimensions(units),
        blocks=(BlockStated("about/p/1", "about", "paragraph", "The tote is 460 mm long."),),
        lists=_lists(),
        sheets={str(number): SheetStated(str(number), key, name, "1.0") for key, (name, number, _) in PARTS.items()},
        figures={
            "front": FigureStated("front", "From the front.", "The front of the tote.", ""),
            "above": FigureStated("above", "From above, 12 1/2 in wide.", "The tote from above, in words.", "", 1),
            "face": FigureStated("face", "The groove.", "A side with a groove.", "", 3),
            "room": FigureStated("room", "Room inside.", "Two rising lines.", "", 2),
        },
        rules={},
        steps=(StepStated("groove", 1, "Groove the sides", ("side",), "The panel slides by hand."),
               StepStated("close", 2, "Put it together", ("end", "side"), "")),
        changes=(
            RowStated("1.1", {"Version": "1.1", "Date": "2026-03-20", "Summary": "The groove is wider."}),
            RowStated("1.0", {"Version": "1.0", "Date": "2026-03-02", "Summary": "The first edition."}),
            RowStated("1.1/1", {"About": "Side, groove", "Before": "6 mm", "Now": "6.5 mm", "Why": "It was tight."}),
        ),
    )  # fmt: skip


def _part(key: str) -> PartStated:
    title, number, size = PARTS[key]
    length, width, _ = (MM * value for value in size)
    corners = ((0.0, 0.0), (length, 0.0), (length, width), (0.0, width))
    outline = tuple(SegmentStated(corners[i], corners[(i + 1) % 4]) for i in range(4))
    whole = (length, width, MM * size[2])
    return PartStated(
        key, number, title, "part", str(number), "sheet_19", "Plywood", "birch plywood", 2, 0, whole, outline, {}
    )


def _parameters(units: str) -> dict[str, ParameterStated]:
    rows = (("tote.length", 460.0, "18 1/2", "±0.5", "overall length"), ("tote.width", 240.0, "9 1/2", "", ""),
            ("side.height", 140.0, "5 1/2", "", "height of the sides"))  # fmt: skip
    return {
        name: ParameterStated(name, value * MM, LENGTH, printed(value, inches, units), tolerance, means, "", (), True)
        for name, value, inches, tolerance, means in rows
    }


def _dimensions(units: str) -> dict[str, DimensionStated]:
    rows = (("end/blank/length", "end", 290.0, "11 1/2"), ("side/blank/length", "side", 430.0, "17"),
            ("side/groove/x", "side", 312.0, "12 5/8"))  # fmt: skip
    points = ((0.0, 0.0, 0.0), (MM, 0.0, 0.0))
    return {
        id_: DimensionStated(id_, part, id_.split("/")[1], id_.split("/")[2], "linear", "face", "x", points, value * MM,
                             printed(value, inches, units))
        for id_, part, value, inches in rows
    }  # fmt: skip


def _lists() -> dict[str, tuple[RowStated, ...]]:
    parts = tuple(
        RowStated(key, {"Item": str(number), "Quantity": "2", "Title": title, "Length": "290", "Width": "240",
                        "Thickness": "18", "Material": "birch plywood", "Sheet": str(number)})
        for key, (title, number, _) in PARTS.items()
    )  # fmt: skip
    return {
        "tools": (RowStated("1", {"Tool": "Router with a straight cutter"}), RowStated("2", {"Tool": "Clamps"})),
        "materials": (RowStated("sheet", {"Stock": "Birch plywood, 18 mm", "Quantity": "1", "Size": "1220 x 610"}),),
        "hardware": (RowStated("screw", {"Item": "Screw 4 x 40", "Quantity": "12", "Use": "ends"}),),
        "parts": parts,
    }
