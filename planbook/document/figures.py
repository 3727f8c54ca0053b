"""Figures: drawn, plotted or read from a file, each with its number, caption and alternative text."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from html import escape
from typing import Final

from planbook.document.charts import draw_chart
from planbook.document.crop import crop
from planbook.document.fetch import PICTURES
from planbook.document.pictures import PictureError, clean_picture
from planbook.drawing import draw_elevation, draw_part_figure, to_svg
from planbook.drawing.recording import Drawing
from planbook.source import Door, Refused
from planbook.source.findings import Finding, Severity
from planbook.source.models.figures import AnyFigure, ChartModel, ElevationModel, PartFigureModel, PictureModel
from planbook.source.text import Text
from planbook.statement.stated import Stated

_HIGHEST: Final = 0.95
"""A figure's greatest height in parts of its width: two of them fit a page with words between."""


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure's picture as HTML. `pictures` are the bytes that it refers to, by the name they are served under."""

    html: str
    pictures: Mapping[str, bytes] = field(default_factory=dict)


def draw_figure(stated: Stated, door: Door, name: str, width: float) -> tuple[Figure | None, tuple[Finding, ...]]:
    """The picture of a figure at most `width` millimetres wide; None with a finding when it cannot be shown."""
    model = stated.content.figures[Text(name)]
    alt = stated.statement.figures[name].alt
    match model:
        case PictureModel():
            return _show_picture(stated, door, name, model, alt, width)
        case ChartModel():
            return Figure(draw_chart(stated.charts[name], alt, width)), ()
        case ElevationModel() | PartFigureModel():
            drawing = crop(_draw(stated, name, model, width))
            return Figure(to_svg(replace(drawing, title=alt), f"drawn-{name}")), ()


def _draw(stated: Stated, name: str, model: ElevationModel | PartFigureModel, width: float) -> Drawing:
    if isinstance(model, PartFigureModel):
        return draw_part_figure(stated.statement, model.part, model.view, model.emphasise, width, _HIGHEST * width)
    return draw_elevation(
        stated.assemblies[name], model.elevation, model.emphasise, model.show, model.label, width, _HIGHEST * width
    )


def _show_picture(
    stated: Stated, door: Door, name: str, model: PictureModel, alt: str, width: float
) -> tuple[Figure | None, tuple[Finding, ...]]:
    path = f"{stated.content.folder}/{model.picture}"
    if not door.exists(path):
        remedy = f"put the file there, or write the name of one that is there as the picture of figure {name}"
        return None, (_finding(f"there is no picture {path}", remedy, model.picture),)
    try:
        picture = clean_picture(path, door.read_bytes(path))
    except Refused as refused:
        return None, (replace(refused.finding, place=model.picture.place),)
    except PictureError as error:
        remedy = "save it again as PNG, JPEG or plain SVG"
        return None, (_finding(f"the picture {path} cannot be shown: {error}", remedy, model.picture),)
    if picture.svg:
        end = picture.svg.index(">") + 1
        return Figure(f"{picture.svg[:end]}<title>{escape(alt)}</title>{picture.svg[end:]}"), ()
    served = f"{name}{picture.ending}"
    image = f'<img src="{PICTURES}{served}" alt="{escape(alt)}" style="max-width:{width}mm">'
    return Figure(image, {served: picture.data}), ()


def _finding(message: str, remedy: str, at: Text) -> Finding:
    return Finding("picture", Severity.STOP, message, remedy, at.place)


def is_wide(model: AnyFigure) -> bool:
    """Whether a figure takes the full width of a page of prose: assemblies and charts, which have most to show."""
    return isinstance(model, ElevationModel | ChartModel)
