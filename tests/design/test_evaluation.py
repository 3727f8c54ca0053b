"""Evaluation: one function for edition, market and what-if; the design is immutable and knows where values are from."""

import dataclasses

import pytest

from planbook.design import Overrides, evaluate, plan_design
from planbook.measure import INCH, MILLIMETRE, Precision, Quantity
from planbook.measure.dimensionality import LENGTH, MASS
from planbook.source.findings import Place
from planbook.source.text import Formula

from .contents import AMERICA, EUROPE, FILE, content, market
from .solving import HERE, design_of

MARKETS = {
    AMERICA: market(
        {"sheet": ("23/32 in", "0.700 in", "0.730 in")}, {"bolt": {"diameter": "1/4 in"}}, ["1/4 in", "9/32 in"]
    ),
    EUROPE: market({"sheet": ("18 mm", "17.6 mm", "18.4 mm")}, {"bolt": {"diameter": "6 mm"}}, ["7 mm", "6.6 mm"]),
}
DESK = {
    "board": "stock.sheet.thickness",
    "rise": {
        "by_market": {AMERICA: "3 in", EUROPE: "76 mm"},
        "tolerance": "0.1 mm",
        "means": "lift",
        "precision": Precision.CALIPER,
    },
    "bore": "hardware.bolt.diameter + 0.5 mm",
    "drop": "rise - board",
    "length": "1500 mm",
}


def desk(chosen=EUROPE, values=None):
    plan, found = plan_design(content(DESK, MARKETS, (AMERICA, EUROPE)))
    assert found == ()
    return evaluate(plan, Overrides(chosen, values or {}))


def test_the_market_runs_through_the_design():
    metric, inch = desk(EUROPE)[0], desk(AMERICA)[0]
    assert metric.parameters["drop"].value.number == 58 * MILLIMETRE
    assert inch.parameters["drop"].value.number == (3 - 23 / 32) * INCH
    assert inch.parameters["bore"].value.number == INCH / 4 + 0.5 * MILLIMETRE


def test_stock_hardware_and_drills_of_the_market():
    design, _ = desk()
    stock = design.stock["sheet"]
    assert (stock.thickness, stock.accepted) == (18 * MILLIMETRE, (17.6 * MILLIMETRE, 18.4 * MILLIMETRE))
    assert design.hardware["bolt"].measures == {"diameter": Quantity(6 * MILLIMETRE, LENGTH)}
    assert design.drills == (6.6 * MILLIMETRE, 7 * MILLIMETRE)


def test_a_parameter_says_where_it_comes_from():
    rise, drop = (desk()[0].parameters[name] for name in ("rise", "drop"))
    assert (rise.means, rise.given, rise.value.formula, rise.value.place) == ("lift", True, "76 mm", Place(FILE, 2, 7))
    assert (drop.given, drop.value.inputs) == (False, ("rise", "board"))


def test_precision_is_the_finest_of_what_goes_in():
    design, _ = desk()
    assert design.parameters["drop"].value.precision is Precision.CALIPER
    assert design.parameters["bore"].value.precision is Precision.WOODWORK
    assert design.solve(Formula("length + drop"))[0].precision is Precision.CALIPER
    assert design.solve(Formula("length + board"))[0].precision is Precision.WOODWORK


def test_own_precision_wins():
    said = {
        "fine": {"is": "1 mm", "precision": Precision.CALIPER},
        "coarse": {"is": "2 * fine", "precision": Precision.WOODWORK},
    }
    assert design_of(said).parameters["coarse"].value.precision is Precision.WOODWORK


def test_every_name_is_a_parameter():
    assert list(desk()[0].parameters) == [*DESK, "stock.sheet.thickness", "hardware.bolt.diameter"]
    assert len(desk()[0].parameters) == 7
    with pytest.raises(KeyError):
        desk()[0].parameters["zzz"]


@pytest.mark.parametrize(
    ("name", "millimetres", "drop"),
    [("rise", 80, 62), ("board", 20, 56), ("stock.sheet.thickness", 17, 59), ("drop", 5, 5)],
)
def test_anything_can_be_overridden(name, millimetres, drop):
    design, found = desk(values={name: Quantity(millimetres * MILLIMETRE, LENGTH)})
    assert found == ()
    assert design.parameters["drop"].value.number == drop * MILLIMETRE
    assert desk()[0].parameters["drop"].value.number == 58 * MILLIMETRE


def test_overridden_stock_is_the_stock_that_is_cut():
    assert desk(values={"stock.sheet.thickness": Quantity(17e6, LENGTH)})[0].stock["sheet"].thickness == 17e6


@pytest.mark.parametrize(
    ("values", "code", "told"),
    [
        ({"rize": Quantity(1.0, LENGTH)}, "unknown-override", "`rise`"),
        ({"zzz": Quantity(1.0, LENGTH)}, "unknown-override", "`zzz`"),
        ({"rise": Quantity(1.0, MASS)}, "wrong-kind", "a mass"),
        ({"rise": Quantity(float("nan"), LENGTH)}, "wrong-kind", "finite"),
    ],
)
def test_overrides_that_do_not_fit(values, code, told):
    design, (finding,) = desk(values=values)
    assert design is None
    assert finding.code == code
    assert told in finding.message + finding.remedy


def test_an_unknown_market_is_a_finding():
    design, (finding,) = desk("atlantis")
    assert design is None
    assert finding.code == "unknown-market"


def test_a_fault_of_evaluation_is_told_once_and_its_consequences_are_silent():
    plan, _ = plan_design(content({"a": "1 mm / (b - 2)", "b": "2", "c": "a * 2", "d": "5 mm"}))
    design, (finding,) = evaluate(plan, Overrides(EUROPE))
    assert (finding.code, finding.place) == ("division-by-zero", Place(FILE, 1, 4 + 7))
    assert sorted(design.parameters) == ["b", "d"]
    assert design.solve(Formula("c + d")) == (None, ())
    healed, found = evaluate(plan, Overrides(EUROPE, {"a": Quantity(1e6, LENGTH)}))
    assert found == ()
    assert healed.parameters["c"].value.number == 2e6


def test_a_value_that_is_not_finite_is_a_finding():
    plan, _ = plan_design(content({"a": "1e99 mm", "b": "a * a * a * a", "c": "b - b"}))
    _, (finding,) = evaluate(plan, Overrides(EUROPE))
    assert (finding.code, finding.place.line) == ("not-finite", 2)


@pytest.mark.parametrize(
    ("require", "holds"),
    [
        ("rise > 3 in", False),
        ("rise >= 76 mm", True),
        ("0.1 mm + 0.2 mm == 0.3 mm", True),
        ("10 mm < drop <= 58 mm < length", True),
        ("10 mm < drop < 58 mm < length", False),
        ("rise / board < 5", True),
    ],
)
def test_rules(require, holds):
    judgement, found = desk()[0].judge(Formula(require))
    assert found == ()
    assert judgement.holds is holds
    assert len(judgement.sides) == len(judgement.relations) + 1


def test_the_sides_of_a_rule_are_values_of_their_own():
    judgement, _ = desk()[0].judge(Formula("rise + 1 mm >= board", HERE))
    assert [(side.formula, side.place.column, side.inputs) for side in judgement.sides] == [
        ("rise + 1 mm", HERE.column, ("rise",)),
        ("board", HERE.column + 15, ("board",)),
    ]
    assert judgement.relations == (">=",)


@pytest.mark.parametrize("require", ["0.1 mm + 0.2 mm == 0.3 mm", "0.3 mm >= 0.1 mm + 0.2 mm", "0.1 + 0.2 == 0.3"])
def test_a_relation_that_only_noise_would_break_is_not_the_one_that_fails(require):
    judgement, _ = desk()[0].judge(Formula(require, HERE))
    assert judgement.failing is None
    unit = " mm" if "mm" in require else ""
    judgement, _ = desk()[0].judge(Formula(f"{require} > 9{unit}", HERE))
    assert judgement.failing == 1


@pytest.mark.parametrize(
    ("require", "code", "offset"),
    [
        ("rise", "wrong-kind", 0),
        ("rise > 3", "missing-unit", 7),
        ("rise > 3 kg", "mixed-units", 7),
        ("0 mm < rize", "unknown-name", 7),
        ("rise >", "syntax", 6),
        ("rise > 1 mm / (1 - 1)", "division-by-zero", 14),
    ],
)
def test_faulty_rules(require, code, offset):
    judgement, (finding,) = desk()[0].judge(Formula(require, HERE))
    assert judgement is None
    assert (finding.code, finding.place.column) == (code, HERE.column + offset)


def test_a_design_does_not_change():
    with pytest.raises(dataclasses.FrozenInstanceError):
        desk()[0].market = AMERICA
