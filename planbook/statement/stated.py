"""What composing a document takes: the statement, and what is drawn or flowed but not kept in its file form."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from planbook.design import Design
from planbook.dimension.audit import Audit
from planbook.motion import Travel
from planbook.shape.model import Component, Part
from planbook.source.content import Content
from planbook.statement.marks import Marks
from planbook.statement.model import Statement
from planbook.statement.staging import Stage
from planbook.takeoff import TakenOff


@dataclass(frozen=True, slots=True)
class Prose:
    """A page or a build step as marked HTML (docs/architecture.md). Its title is not in `html`."""

    key: str
    target: str
    """What links aim at: "page.how_to" or "step.frames". Whoever composes the page puts this id on its title."""
    title: str
    slot: str
    """front, build or back for a page, step for a build step."""
    number: int
    """A step's number, 0 for a page."""
    title_block: str
    """The block id of the title, for its `data-block`."""
    html: str
    hold_html: str = ""
    """A step's hold, as marked HTML of one line; "" without one."""
    cautions_html: str = ""
    """A step's cautions as `<aside>` elements, as in prose."""
    dry_fit_html: str = ""
    """What a step tries without glue, as marked HTML of one line; "" without it."""
    copied: bool = False
    """Whether a page is copied from the plans, and shares none with anything else."""


@dataclass(frozen=True, slots=True)
class CurveData:
    """One curve: a y for each x of its chart, in the chart's y unit."""

    label: str
    y: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class LimitData:
    """A level that the curves are judged against."""

    label: str
    y: float


@dataclass(frozen=True, slots=True)
class ChartData:
    """A chart sampled in the edition's own units. `x_unit` and `y_unit` are unit signs as printed, "" for a ratio."""

    parameter: str
    x_label: str
    x_unit: str
    y_label: str
    y_unit: str
    x: tuple[float, ...]
    curves: tuple[CurveData, ...]
    limits: tuple[LimitData, ...] = ()


Row = tuple[tuple[str, tuple[Component, ...]], ...]
"""Names of positions, each with the assembly in it."""


@dataclass(frozen=True)
class Stated:
    """All that one edition states, ready to be drawn and composed."""

    statement: Statement
    prose: tuple[Prose, ...]
    """Front pages, build pages, steps, back pages: the order of reading."""
    components: tuple[Component, ...]
    """The assembly with the driver at its given value."""
    assemblies: Mapping[str, tuple[Component, ...]]
    """By figure: the components of a picture of the assembly, in its position."""
    charts: Mapping[str, ChartData]
    """By figure."""
    design: Design
    parts: Mapping[str, Part]
    content: Content
    cautions_html: Mapping[str, str] = field(default_factory=dict)
    """By caution of the set's cautions page: its `<aside>`."""
    audit: Audit = field(default_factory=Audit)
    stages: Mapping[str, Stage] = field(default_factory=dict)
    """By figure: what a picture of the assembly shows, points out and moves."""
    rows: Mapping[str, Row] = field(default_factory=dict)
    """By figure: a row of pictures."""
    travels: Mapping[str, Travel] = field(default_factory=dict)
    """By name, those that can be run."""
    marks: Marks = field(default_factory=Marks)
    """What its pages mark as changed; nothing where nothing came before."""
    taken: TakenOff | None = None
    """What is bought and cut, as values: for tables that a spreadsheet reads."""
