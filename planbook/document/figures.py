"""Figures: drawn, plotted or read from a file, each with its number, caption and alternative text."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from planbook.document.charts import draw_chart
from planbook.document.images import Image, drawing_image
from planbook.document.pictures import PictureError, clean_picture
from planbook.drawing import (
    Canvas,
    draw_elevation,
    draw_exploded,
    draw_isometric,
    draw_part_figure,
    draw_row,
    draw_step,
)
from planbook.drawing.recording import Drawing
from planbook.source import Door, Refused
from planbook.source.findings import Finding, Severity
from planbook.source.models.figures import (
    AnyFigure,
    ChartModel,
    ElevationModel,
    ExplodedModel,
    IsometricModel,
    OfAssemblyModel,
    PartFigureModel,
    PictureModel,
    RowModel,
    StepFigureModel,
    TravelChartModel,
)
from planbook.source.text import Text
from planbook.statement.stated import Stated

_MM: Final = 1e-6
"""Millimetres in a nanometre."""


@dataclass(frozen=True, slots=True)
class Room:
    """The millimetres that a figure may take; `wide` when it reaches from margin to margin."""

    width: float
    height: float
    wide: bool = False


def draw_figure(stated: Stated, door: Door, name: str, room: Room) -> tuple[Image | None, tuple[Finding, ...]]:
    """The picture of a figure within its room; None with a finding when it cannot be shown."""
    model = stated.content.figures[Text(name)]
    alt = stated.statement.figures[name].alt
    match model:
        case PictureModel():
            return _show_picture(stated, door, name, model, room)
        case ChartModel() | TravelChartModel():
            return Image(f"figure-{name}.svg", draw_chart(stated.charts[name], room.width), alt), ()
        case RowModel():
            return drawing_image(f"figure-{name}", _draw_row(stated, name, model, room), alt), ()
        case ExplodedModel() | StepFigureModel():
            drawing = _draw_staged(stated, name, model, room)
            return drawing_image(f"figure-{name}", drawing, alt), _unseen(drawing, name, model)
        case ElevationModel() | IsometricModel() | PartFigureModel():
            return drawing_image(f"figure-{name}", _draw(stated, name, model, room), alt), ()


def _draw(stated: Stated, name: str, model: ElevationModel | IsometricModel | PartFigureModel, room: Room) -> Drawing:
    units = stated.statement.edition.units
    if isinstance(model, PartFigureModel):
        return draw_part_figure(stated.statement, model.part, model.view, model.emphasise, room.width, room.height)
    components = stated.assemblies[name]
    labels = {each.name: str(each.part.number) for each in components if each.part} if model.label else {}
    draw = draw_isometric if isinstance(model, IsometricModel) else draw_elevation
    canvas = Canvas(room.width, room.height, labels, units)
    return draw(components, model.seen_from, canvas, emphasise=model.emphasise, show=model.show)


def _draw_row(stated: Stated, name: str, model: RowModel, room: Room) -> Drawing:
    canvas = Canvas(room.width, room.height, units=stated.statement.edition.units)
    return draw_row(stated.rows[name], model.seen_from, canvas, emphasise=model.emphasise, show=model.show)


def _draw_staged(stated: Stated, name: str, model: ExplodedModel | StepFigureModel, room: Room) -> Drawing:
    stage, units = stated.stages[name], stated.statement.edition.units
    components = [each for each in stated.assemblies[name] if each.name in stage.show]
    labels = {each.name: str(each.part.number) for each in components if each.part and each.name in stage.labelled}
    canvas = Canvas(room.width, room.height, labels, units)
    if isinstance(model, StepFigureModel):
        return draw_step(components, model.seen_from, stage.emphasise, canvas)
    moves = {key: (way.x * _MM, way.y * _MM, way.z * _MM) for key, way in stage.moves.items()}
    return draw_exploded(components, model.seen_from, moves, canvas)


def _unseen(drawing: Drawing, name: str, model: ExplodedModel | StepFigureModel) -> tuple[Finding, ...]:
    """What a picture is to point out and hides: there its parts are numbered because a builder looks for them."""
    if not drawing.unseen:
        return ()
    parts = ", ".join(sorted(drawing.unseen, key=int))
    message = f"Figure {name} has no number for part {parts}: nothing is seen of it from there."
    remedy = "Let it be seen from another corner (`seen_from`), or show less that stands before it (`show`)."
    return (Finding("part-not-seen", Severity.WARN, message, remedy, model.caption.place),)


def _show_picture(
    stated: Stated, door: Door, name: str, model: PictureModel, room: Room
) -> tuple[Image | None, tuple[Finding, ...]]:
    path = f"{stated.content.folder}/{model.picture}"
    if not door.exists(path):
        remedy = f"Put the file there, or write the name of one that is there as the picture of figure {name}."
        return None, (_finding(f"There is no picture {path}.", remedy, model.picture),)
    try:
        picture = clean_picture(path, door.read_bytes(path))
    except Refused as refused:
        return None, (replace(refused.finding, place=model.picture.place),)
    except PictureError as error:
        remedy = "Save it again as PNG, JPEG, TIFF or plain SVG."
        return None, (_finding(f"The picture {path} cannot be shown: {error}.", remedy, model.picture),)
    limits = f"max-width:{room.width}mm;max-height:{room.height}mm"
    return Image(f"figure-{name}{picture.ending}", picture.data, stated.statement.figures[name].alt, limits), ()


def _finding(message: str, remedy: str, at: Text) -> Finding:
    return Finding("picture", Severity.STOP, message, remedy, at.place)


def is_wide(model: AnyFigure) -> bool:
    """Whether a figure takes the full width of a page of prose: assemblies and charts, which have most to show."""
    return isinstance(model, OfAssemblyModel | ChartModel | TravelChartModel)


def is_large(model: AnyFigure) -> bool:
    """Whether a figure asks for most of a page."""
    return isinstance(model, OfAssemblyModel) and model.large
