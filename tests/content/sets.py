"""The demo plan sets as read, and what their formulas give in a market."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from planbook.design import Design, Overrides, Plan, evaluate, plan_design
from planbook.measure import Quantity
from planbook.measure.dimensionality import ANGLE, LENGTH
from planbook.shape import place_components, shape_parts
from planbook.shape.model import Component, Part
from planbook.source import Door, load
from planbook.source.content import Content
from planbook.source.text import Formula
from planbook.statement import state_edition
from planbook.statement.judging import requirement
from planbook.statement.model import Statement
from planbook.statement.weighed import with_masses

WORKSPACE = Path(__file__).parents[2]
SETS = ("tool-tote", "sewing-desk", "splayed-stool", "lift-column")
MARKETS = ("north_america", "europe")
MILLIMETRE = 1e6
INCH = 25.4e6


@lru_cache
def content(key: str) -> Content:
    """A plan set as read; content with findings has no business here."""
    read, findings = load(Door(WORKSPACE), key)
    assert read is not None, findings
    assert findings == ()
    return read


@lru_cache
def plan(key: str) -> Plan:
    planned, findings = plan_design(content(key))
    assert planned is not None, findings
    assert findings == ()
    return planned


EDITIONS = tuple((key, str(edition)) for key in SETS for edition in content(key).plan_set.editions)


@lru_cache
def statement(key: str, edition: str) -> Statement:
    """What an edition tells."""
    read = content(key)
    stated, findings = state_edition(read, edition, Door(WORKSPACE), plan(key), "", read.plan_set.issued)
    assert stated is not None, findings
    return stated.statement


def comparisons(key: str, market: str) -> dict[str, Formula]:
    """What the rules ask that compare; clearances are kept over a travel, and judged with it."""
    asked = {str(name): requirement(rule, market) for name, rule in content(key).rules.items()}
    return {name: formula for name, formula in asked.items() if formula is not None}


@dataclass(frozen=True)
class Piece:
    """A plan set in one market, perhaps with some values replaced: design, parts and components."""

    design: Design
    parts: Mapping[str, Part]
    components: Mapping[str, Component]

    def number(self, formula: str) -> float:
        """The value of a formula in base units."""
        value, findings = self.design.solve(Formula(formula), None)
        assert value is not None, findings
        return value.number

    def mm(self, formula: str) -> float:
        return self.number(formula) / MILLIMETRE

    def inches(self, formula: str) -> float:
        return self.number(formula) / INCH


def piece(key: str, market: str, **lengths_mm: float) -> Piece:
    """Evaluate, shape and place. Replaced names are written with __ for the dot: `stock__sheet_19__thickness=17.6`."""
    values = {name.replace("__", "."): Quantity(value * MILLIMETRE, LENGTH) for name, value in lengths_mm.items()}
    return _make(key, market, values)


@lru_cache(maxsize=64)
def turned(market: str, degrees: float) -> Piece:
    """The sewing desk with its lever turned so far."""
    return _make("sewing-desk", market, {"lever.angle": Quantity(degrees, ANGLE)})


FIRST_DESIGN = {
    "north_america": {
        "stock.sheet_19.thickness": 23 / 32 * INCH,
        "apron.height": 5.25 * INCH,
        "ramp.rise": 3 * INCH,
        "drive.up": 3 * INCH,
    },
    "europe": {"apron.height": 135 * MILLIMETRE, "ramp.rise": 76 * MILLIMETRE, "drive.up": 76 * MILLIMETRE},
}
"""What later releases of the sewing desk gave other values, as a separate program computed the desk with them."""


def first_design(market: str, **lengths_mm: float) -> dict[str, Quantity]:
    """The values that make today's desk the one of that program, perhaps with some replaced, written as in `piece`."""
    replaced = {name.replace("__", "."): value * MILLIMETRE for name, value in lengths_mm.items()}
    return {name: Quantity(value, LENGTH) for name, value in {**FIRST_DESIGN[market], **replaced}.items()}


@lru_cache
def first_desk(market: str) -> Piece:
    """Today's desk with the values of the first design: formulas, parts and rules that later releases kept."""
    return _make("sewing-desk", market, first_design(market))


def swept(market: str, degrees: float, stowed: Piece | None = None) -> Piece:
    """The numbers alone of the sewing desk, or of another one `stowed`, with its lever turned so far."""
    weighed = (stowed or turned(market, 0)).design.fixed
    values = {**weighed, "lever.angle": Quantity(degrees, ANGLE)}
    design, findings = evaluate(plan("sewing-desk"), Overrides(market, values))
    assert design is not None, findings
    return Piece(design, {}, {})


def _make(key: str, market: str, values: Mapping[str, Quantity]) -> Piece:
    design, findings = evaluate(plan(key), Overrides(market, values))
    assert design is not None, findings
    assert findings == ()
    parts, findings = shape_parts(content(key), design)
    assert findings == ()
    components, findings = place_components(content(key), design, parts)
    assert findings == ()
    design, findings = with_masses(content(key), design, (), plan(key), components)
    assert findings == ()
    return Piece(design, parts, {component.name: component for component in components})
