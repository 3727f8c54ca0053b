"""Plan, evaluate and solve in one go, for tests that look at what comes out."""

from planbook.design import Overrides, evaluate, plan_design
from planbook.source.findings import Place
from planbook.source.text import Formula

from .contents import EUROPE, content

HERE = Place("content/small/parts/part.yaml", 7, 20)


def design_of(parameters, values=None, **more):
    """The design of sound parameters."""
    plan, found = plan_design(content(parameters, **more))
    assert found == ()
    design, found = evaluate(plan, Overrides(EUROPE, values or {}))
    assert found == ()
    return design


def number(formula, parameters=None):
    """The value of a sound formula in base units."""
    value, found = design_of(parameters or {}).solve(Formula(formula, HERE))
    assert found == ()
    return value.number


def fault(formula, parameters=None, expect=None):
    """The only finding of a faulty formula."""
    value, found = design_of(parameters or {}).solve(Formula(formula, HERE), expect)
    assert value is None
    (finding,) = found
    return finding


def plan_findings(parameters, **more):
    return plan_design(content(parameters, **more))[1]
