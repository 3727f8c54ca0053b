"""Formulas, markets and evaluation: from the parameters of a plan set to the quantities of one edition."""

from planbook.design.compiler import failing
from planbook.design.dependence import dependents, inputs, routes
from planbook.design.design import Design
from planbook.design.evaluation import evaluate
from planbook.design.markets_apart import check_markets
from planbook.design.naming import RESERVED_ROOTS, nearest
from planbook.design.plan import Plan, plan_design
from planbook.design.supposing import Supposed, check_supposed, read_supposed, suppose
from planbook.design.values import (
    Edition,
    Hardware,
    Judgement,
    Overrides,
    Parameter,
    Stock,
    Tolerance,
    Value,
)

__all__ = [
    "RESERVED_ROOTS",
    "Design",
    "Edition",
    "Hardware",
    "Judgement",
    "Overrides",
    "Parameter",
    "Plan",
    "Stock",
    "Supposed",
    "Tolerance",
    "Value",
    "check_markets",
    "check_supposed",
    "dependents",
    "evaluate",
    "failing",
    "inputs",
    "nearest",
    "plan_design",
    "read_supposed",
    "routes",
    "suppose",
]
