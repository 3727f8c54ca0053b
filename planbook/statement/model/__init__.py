"""The statement: all that one edition tells the builder. Resolved shapes, printed texts, prose, lists; no pages.

This is the file form, form 1. It is frozen with each release and read for ever: add fields with defaults, never change
the meaning of one. Lengths are nanometres, angles degrees. Mappings are keyed by stable ids.
"""

from planbook.statement.model.choices import EditionStated, OneOffStated, SetStated
from planbook.statement.model.joining import ComponentStated, FitStated
from planbook.statement.model.layouts import Box, CutLineStated, LayoutStated, OffcutStated, PieceStated
from planbook.statement.model.measures import (
    DimensionStated,
    EqualStated,
    ParameterStated,
    PrintedStated,
    StandingStated,
)
from planbook.statement.model.shapes import (
    CutStated,
    DetailStated,
    FeatureStated,
    FrameStated,
    PartStated,
    SectionStated,
    SegmentStated,
)
from planbook.statement.model.telling import BlockStated, FigureStated, RowStated, RuleStated, SheetStated, StepStated
from planbook.statement.model.whole import Statement

__all__ = [
    "FORM",
    "BlockStated",
    "Box",
    "ComponentStated",
    "CutLineStated",
    "CutStated",
    "DetailStated",
    "DimensionStated",
    "EditionStated",
    "EqualStated",
    "FeatureStated",
    "FigureStated",
    "FitStated",
    "FrameStated",
    "LayoutStated",
    "OffcutStated",
    "OneOffStated",
    "ParameterStated",
    "PartStated",
    "PieceStated",
    "PrintedStated",
    "RowStated",
    "RuleStated",
    "SectionStated",
    "SegmentStated",
    "SetStated",
    "SheetStated",
    "StandingStated",
    "Statement",
    "StepStated",
]

FORM = 1
