"""How to cut it: plans for a saw, for boards and for a router, each with a proof of how good it is."""

from planbook.cutting.checking import faults_of
from planbook.cutting.grid import whole_piece, whole_stock
from planbook.cutting.minkowski import minkowski_sum
from planbook.cutting.model import Job, Piece, Point, Stock
from planbook.cutting.one_sheet import Choice, choose_free, choose_sawn
from planbook.cutting.plan import (
    Bound,
    Cut,
    Doubt,
    Doubtful,
    Layout,
    Panel,
    Placed,
    Plan,
    Rectangle,
    Unplaced,
    Way,
    Why,
)
from planbook.cutting.planning import EFFORT, cut_boards, cut_sheets, nest_sheets
from planbook.cutting.steps import Step, list_steps, replay

__all__ = [
    "EFFORT",
    "Bound",
    "Choice",
    "Cut",
    "Doubt",
    "Doubtful",
    "Job",
    "Layout",
    "Panel",
    "Piece",
    "Placed",
    "Plan",
    "Point",
    "Rectangle",
    "Step",
    "Stock",
    "Unplaced",
    "Way",
    "Why",
    "choose_free",
    "choose_sawn",
    "cut_boards",
    "cut_sheets",
    "faults_of",
    "list_steps",
    "minkowski_sum",
    "nest_sheets",
    "replay",
    "whole_piece",
    "whole_stock",
]
