"""Everything that an edition says, brought together in its statement and in what is drawn or flowed beside it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from planbook.design import Plan
from planbook.source.content import Content
from planbook.source.models.figures import PictureModel
from planbook.source.names import sheet_order
from planbook.source.text import Text
from planbook.statement.assembling import state_assembly
from planbook.statement.calculations import CALCULATIONS, state_calculations
from planbook.statement.imprint import state_choices
from planbook.statement.layouts import state_layouts
from planbook.statement.loads import LOADS
from planbook.statement.measures import Measures
from planbook.statement.model import FORM, FigureStated, RowStated, SetStated, SheetStated, Statement
from planbook.statement.moving import Moved
from planbook.statement.one_off import state_one_off
from planbook.statement.picturing import Shown
from planbook.statement.pinch_points import PINCH_POINTS, state_pinch_points
from planbook.statement.prose import caution_html
from planbook.statement.renaming import renamed
from planbook.statement.stacks_told import STACKS, state_stacks
from planbook.statement.stated import Stated
from planbook.statement.telling import Told
from planbook.statement.working import Worked

Rows = tuple[RowStated, ...]


@dataclass(frozen=True)
class Gathered:
    """An edition worked out, told, moved and pictured; some of it as the statement keeps it."""

    content: Content
    edition: str
    plan: Plan
    worked: Worked
    told: Told
    moved: Moved
    shown: Shown
    measures: Measures
    plan_set: SetStated
    loads: Rows

    def stated(self, version: str, issued: date, pieces: int) -> Stated:
        """What composing a document takes, as yet without an audit."""
        worked, told, shown = self.worked, self.told, self.shown
        cautions = [str(key) for key in self.content.plan_set.cautions]
        return Stated(
            statement=self._statement(version, issued, pieces),
            prose=told.prose,
            components=worked.components,
            assemblies=shown.assemblies,
            rows=shown.rows,
            charts=shown.charts,
            stages=shown.stages,
            design=worked.design,
            parts=worked.parts,
            content=self.content,
            cautions_html={key: caution_html(told.cautions[key]) for key in cautions if key in told.cautions},
            travels=self.moved.travels,
            taken=worked.taken,
        )

    def _statement(self, version: str, issued: date, pieces: int) -> Statement:
        """What is kept and compared: all that a reader sees, in words and numbers."""
        content, worked, told = self.content, self.worked, self.told
        return Statement(
            form=FORM,
            version=version,
            issued=issued.isoformat(),
            plan_set=self.plan_set,
            edition=state_choices(self.edition, content.plan_set.editions[Text(self.edition)], content),
            parameters=self.measures.parameters,
            parts=self.shown.parts,
            dimensions=self.measures.dimensions,
            blocks=told.blocks,
            lists=self._lists(),
            sheets=self._sheets(version),
            figures=self._figures(),
            rules=self.moved.rules,
            steps=told.steps,
            renamed=renamed(content, worked.dimensions),
            one_off=state_one_off(worked.design, self.plan, worked.units),
            assembly=state_assembly(worked.components),
            layouts=state_layouts(worked.taken.plans, worked.units),
            pieces=pieces,
        )

    def _lists(self) -> Mapping[str, Rows]:
        """What is bought and cut; tools; cautions; calculations, stacks and their layers; loads; pinch points."""
        worked, units = self.worked, self.worked.units
        taken = {
            name: tuple(RowStated(row.id, dict(row.cells)) for row in rows) for name, rows in worked.taken.lists.items()
        }
        calculated = state_calculations(self.content, worked.design, units, self.moved.rules)
        stacked, layers = state_stacks(worked.stacks, units)
        where_any = {STACKS: layers, LOADS: self.loads, PINCH_POINTS: state_pinch_points(self.moved.pinching, units)}
        return {
            **taken,
            "tools": self.told.tools,
            "cautions": self._cautions(),
            CALCULATIONS: (*calculated, *stacked),
            **{name: rows for name, rows in where_any.items() if rows},
        }

    def _cautions(self) -> Rows:
        rows = (self.told.cautions.get(str(key)) for key in self.content.plan_set.cautions)
        return tuple(RowStated(each.key, {"Caution": each.plain}) for each in rows if each is not None)

    def _sheets(self, version: str) -> Mapping[str, SheetStated]:
        """In the order of their numbers: 12, 12a, 13."""
        every = sorted((each.sheet, key, each.title) for key, each in self.shown.parts.items())
        sheets = (SheetStated(*each, version) for each in sorted(every, key=lambda each: sheet_order(each[0])))
        return {each.number: each for each in sheets}

    def _figures(self) -> Mapping[str, FigureStated]:
        told = self.told
        return {
            str(name): FigureStated(
                name=str(name),
                caption=told.captions[str(name)],
                alt=told.alts[str(name)],
                content=self.shown.content_of(str(name), model),
                number=told.numbers.get(str(name), 0),
                shows_version=str(model.shows.version) if isinstance(model, PictureModel) and model.shows else "",
            )
            for name, model in self.content.figures.items()
        }
