"""The whole of what one edition tells."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from planbook.statement.model.choices import EditionStated, OneOffStated, SetStated
from planbook.statement.model.joining import ComponentStated, FitStated
from planbook.statement.model.layouts import LayoutStated
from planbook.statement.model.measures import DimensionStated, ParameterStated
from planbook.statement.model.shapes import PartStated
from planbook.statement.model.telling import BlockStated, FigureStated, RowStated, RuleStated, SheetStated, StepStated


@dataclass(frozen=True, slots=True)
class Statement:
    """All that one edition tells the builder."""

    form: int
    version: str
    """Version text, or "" for a draft."""
    issued: str
    """ISO 8601 date."""
    plan_set: SetStated
    edition: EditionStated
    parameters: Mapping[str, ParameterStated]
    parts: Mapping[str, PartStated]
    dimensions: Mapping[str, DimensionStated]
    blocks: tuple[BlockStated, ...]
    lists: Mapping[str, tuple[RowStated, ...]]
    """By list name: tools, materials, hardware, parts, cautions, shopping, cutting, cost, weight."""
    sheets: Mapping[str, SheetStated]
    figures: Mapping[str, FigureStated]
    rules: Mapping[str, RuleStated]
    steps: tuple[StepStated, ...]
    changes: tuple[RowStated, ...] = ()
    """The change log as printed: one row a change, and the revision table's rows before it."""
    retired: tuple[str, ...] = ()
    """Dimension ids that earlier versions used and that may never be used again."""
    renamed: Mapping[str, str] = field(default_factory=dict)
    """Old id to new id, from `was:`."""
    retired_sheets: tuple[str, ...] = ()
    """Numbers of sheets that earlier versions had and that may never be used again."""
    one_off: tuple[OneOffStated, ...] = ()
    """What is changed for one builder. Such a statement is never released."""
    assembly: tuple[ComponentStated, ...] | None = None
    """The parts in their places, in the given position. None where an older release recorded none."""
    fits: Mapping[str, FitStated] | None = None
    """None where an older release recorded none."""
    layouts: tuple[LayoutStated, ...] = ()
    """How the stock is cut; none where an older release told nothing of it."""
    pieces: int = 1
    """For how many of the piece the lists and layouts are; a release is for one."""

    @property
    def issue(self) -> str:
        """The version as title blocks have it: a number, "draft", or "one-off" for one builder's own set."""
        return "one-off" if self.one_off or self.pieces > 1 else self.version or "draft"
