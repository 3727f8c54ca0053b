"""Charts: curves sampled by the statement, drawn with matplotlib as SVG whose words stay words."""

from __future__ import annotations

import io
import math
import re
from collections.abc import Callable, Iterator, Sequence
from functools import cache
from importlib.resources import as_file, files
from itertools import groupby
from typing import Any, Final

from shapely import LineString, box

from planbook.document.fonts import FACES, SANS
from planbook.document.limit_names import Name, place_names
from planbook.statement.stated import ChartData

_INCH: Final = 25.4
_INK, _GREY, _ACCENT, _RULE = "#1d1d1b", "#5b5a56", "#8a3a1c", "#d8d4cc"
# Told apart by dashes as well as by colour, for a printer without any.
_CURVES: Final = ((_INK, "-"), (_ACCENT, (0, (6, 2))), (_GREY, (0, (2, 1.5))), (_INK, (0, (6, 2, 1, 2))))
_HEIGHT: Final = 0.42
"""Of a chart, in parts of its width."""
_UNDER_CURVES: Final = 1.5
"""Where limits and their names lie: over the grid, and under the curves, which may run along them."""
_BEHIND: Final = {"facecolor": "white", "edgecolor": "none", "pad": 0.8}
_LEADER: Final[dict[str, Any]] = {
    "color": _ACCENT,
    "linewidth": 0.5,
    "marker": "o",
    "markersize": 1.8,
    "markevery": [1],
}
_LINE: Final = 100
"""Letters of a legend that go into one line, with `_DASH` for each curve's dashes."""
_DASH: Final = 8
_METADATA: Final = re.compile(r"<metadata>.*?</metadata>\s*|<!DOCTYPE[^>]*>\s*", re.DOTALL)
"""What matplotlib says about itself, and an address that nobody needs to look up."""
_STYLE: Final[dict[Any, Any]] = {
    "svg.fonttype": "none", "svg.hashsalt": "planbook", "font.family": [SANS], "font.size": 8.5,
    "axes.edgecolor": _GREY, "axes.linewidth": 0.6, "axes.labelcolor": _INK, "axes.labelsize": 8.5,
    "xtick.color": _GREY, "ytick.color": _GREY, "xtick.labelcolor": _INK, "ytick.labelcolor": _INK,
    "xtick.major.width": 0.6, "ytick.major.width": 0.6, "grid.color": _RULE, "grid.linewidth": 0.4,
    "lines.linewidth": 1.3, "legend.frameon": False, "text.color": _INK, "axes.unicode_minus": True,
}  # fmt: skip


def draw_chart(chart: ChartData, width: float) -> bytes:
    """The chart as an SVG document; `width` in millimetres."""
    from matplotlib import rc_context  # noqa: PLC0415
    from matplotlib.backends.backend_svg import FigureCanvasSVG  # noqa: PLC0415
    from matplotlib.figure import Figure  # noqa: PLC0415

    _register_fonts()
    target = io.StringIO()
    with rc_context(_STYLE):
        figure = Figure(figsize=(width / _INCH, _HEIGHT * width / _INCH), layout="constrained")
        FigureCanvasSVG(figure)
        _plot(figure, chart)
        figure.savefig(target, format="svg", transparent=True, metadata={"Date": None, "Creator": None})
    return _METADATA.sub("", target.getvalue()).encode()


@cache
def _register_fonts() -> None:
    """Tell matplotlib of the packaged files, so that it measures with the fonts that the page is set in."""
    from matplotlib import font_manager  # noqa: PLC0415

    folder = files("font_source_sans_pro") / "files"
    for face in FACES:
        if face.family == SANS:
            with as_file(folder / face.file) as path:
                font_manager.fontManager.addfont(path)


def _plot(figure: Any, chart: ChartData) -> None:
    axes = figure.add_subplot()
    axes.spines[["top", "right"]].set_visible(False)
    axes.grid(visible=True)
    axes.set_axisbelow(True)
    for curve, (colour, dashes) in zip(chart.curves, _CURVES * len(chart.curves), strict=False):
        axes.plot(chart.x, curve.y, color=colour, linestyle=dashes, label=curve.label)
    for limit in chart.limits:
        axes.axhline(limit.y, color=_ACCENT, linewidth=0.9, zorder=_UNDER_CURVES)
    axes.set_xlim(min(chart.x), max(chart.x))
    axes.margins(y=0.1)
    _show_nought(axes, chart)
    axes.set_xlabel(_label(chart.x_label, chart.x_unit))
    axes.set_ylabel(_label(chart.y_label, chart.y_unit))
    _second_axes(axes, chart)
    if len(chart.curves) > 1:
        words = sum(len(curve.label) + _DASH for curve in chart.curves)
        columns = len(chart.curves) if words <= _LINE else 2
        figure.legend(loc="outside lower left", ncols=columns, handlelength=3.2, borderaxespad=0)
    _name_limits(figure, axes, chart)


def _show_nought(axes: Any, chart: ChartData) -> None:
    """Start at 0 what comes near it: half of a force has to look like half."""
    heights = [y for curve in chart.curves for y in curve.y if not math.isnan(y)]
    heights += [limit.y for limit in chart.limits]
    if heights and 0 < min(heights) < max(heights) / 2:
        axes.set_ylim(bottom=0)


def _name_limits(figure: Any, axes: Any, chart: ChartData) -> None:
    """The names of the levels, where they hide no curve."""
    figure.draw_without_rendering()
    texts = [axes.text(0, 0, limit.label, color=_ACCENT, va="bottom", transform=None) for limit in chart.limits]
    sizes = [text.get_window_extent() for text in texts]
    levels = [float(axes.transData.transform((axes.get_xlim()[0], limit.y))[1]) for limit in chart.limits]
    names = [Name(size.width, size.height, level) for size, level in zip(sizes, levels, strict=True)]
    curves = [line for curve in chart.curves for line in _on_paper(axes, chart.x, curve.y)]
    for text, name, spot in zip(texts, names, place_names(box(*axes.bbox.extents), curves, names), strict=True):
        text.set(position=(spot.x, spot.y), bbox=_BEHIND, zorder=_UNDER_CURVES, in_layout=False)
        if spot.leader is not None:
            edge = spot.y if spot.y > name.level else spot.y + name.height
            axes.plot([spot.leader] * 2, [edge, name.level], **_LEADER, transform=None, scalex=False, scaley=False)


def _on_paper(axes: Any, x: Sequence[float], y: Sequence[float]) -> Iterator[LineString]:
    """A curve in points, in as many pieces as it has between places without a value."""
    placed = [(float(at), float(height)) for at, height in axes.transData.transform(list(zip(x, y, strict=True)))]
    for numbers, piece in groupby(placed, key=lambda point: not math.isnan(point[1])):
        points = list(piece)
        if numbers and len(points) > 1:
            yield LineString(points)


def _second_axes(axes: Any, chart: ChartData) -> None:
    """The other system's lengths on the far sides."""
    if chart.x_unit in {"in", "mm"}:
        other, there, back = _other(chart.x_unit)
        second = axes.secondary_xaxis("top", functions=(there, back))
        second.set_xlabel(other, color=_GREY)
        second.spines["top"].set_visible(False)
    if chart.y_unit in {"in", "mm"}:
        other, there, back = _other(chart.y_unit)
        second = axes.secondary_yaxis("right", functions=(there, back))
        second.set_ylabel(other, color=_GREY)
        second.spines["right"].set_visible(False)


def _other(unit: str) -> tuple[str, Callable[[Any], Any], Callable[[Any], Any]]:
    def larger(values: Any) -> Any:
        return values * _INCH

    def smaller(values: Any) -> Any:
        return values / _INCH

    return ("mm", larger, smaller) if unit == "in" else ("in", smaller, larger)


def _label(words: str, unit: str) -> str:
    return f"{words[:1].upper()}{words[1:]}, {unit}" if unit else words
