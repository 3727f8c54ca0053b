"""What if: names replaced for one evaluation, as typed on the command line."""

import pytest

from planbook.design import Overrides, Supposed, check_supposed, evaluate, plan_design, read_supposed, suppose
from planbook.measure import INCH, MILLIMETRE, Precision

from .contents import AMERICA, EUROPE, content, market

MARKETS = {
    AMERICA: market({"sheet": ("23/32 in", "0.700 in", "0.730 in")}),
    EUROPE: market({"sheet": ("18 mm", "17.6 mm", "18.4 mm")}),
}
DESK = {
    "rise": {"by_market": {AMERICA: "3 in", EUROPE: "76 mm"}},
    "board": "stock.sheet.thickness",
    "two": "2 * board",
    "ledge": "rise - board",
}


def plan():
    planned, findings = plan_design(content(DESK, MARKETS, (AMERICA, EUROPE)))
    assert findings == ()
    return planned


def design_with(*texts, market=EUROPE):
    ours = plan()
    values, found = suppose(ours, market, [read_supposed(text) for text in texts])
    assert found == ()
    return evaluate(ours, Overrides(market, values))[0]


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("rise = 7 in", Supposed("rise", "7 in")),
        (" stock.sheet.thickness=17.2 mm ", Supposed("stock.sheet.thickness", "17.2 mm")),
        ("rise", None),
        ("rise =", None),
        ("= 7 in", None),
        ("rise == 7 in", None),
    ],
)
def test_a_change_is_a_name_and_a_formula(text, read):
    assert read_supposed(text) == read


def test_what_hangs_on_it_follows():
    design = design_with("stock.sheet.thickness = 17.2 mm")
    assert design.parameters["ledge"].value.number == pytest.approx((76 - 17.2) * MILLIMETRE)
    assert design.stock["sheet"].thickness == pytest.approx(17.2 * MILLIMETRE)


def test_the_formula_is_worked_out_in_the_design_as_it_stands_in_each_market():
    assert design_with("rise = 2 * rise").parameters["rise"].value.number == pytest.approx(152 * MILLIMETRE)
    there = design_with("rise = 2 * rise", market=AMERICA)
    assert there.parameters["rise"].value.number == pytest.approx(6 * INCH)
    swapped = design_with("rise = board", "board = rise")
    assert swapped.parameters["board"].value.number == pytest.approx(76 * MILLIMETRE)


def test_a_derived_name_may_be_replaced_and_counts_as_given():
    design = design_with("ledge = 50 mm")
    ledge = design.parameters["ledge"]
    assert (ledge.given, ledge.value.formula, ledge.value.inputs) == (True, "50 mm", ())
    assert design.parameters["two"].value.number == pytest.approx(36 * MILLIMETRE)


def test_what_is_evaluated_from_such_a_design_keeps_the_change():
    ours = plan()
    design = design_with("stock.sheet.thickness = 17.2 mm")
    lifted, _ = evaluate(ours, design.overriding({"rise": design.parameters["board"].value.quantity}))
    assert lifted.parameters["ledge"].value.number == pytest.approx(0)
    assert lifted.parameters["two"].value.number == pytest.approx(34.4 * MILLIMETRE)


def test_measured_sheets_are_printed_as_measured_and_leave_no_range():
    design = design_with("stock.sheet.thickness = 17.2 mm")
    assert (design.stock["sheet"].measured, design.stock["sheet"].accepted) == (True, None)
    assert design.parameters["board"].value.precision is Precision.CALIPER
    assert design.parameters["two"].value.precision is Precision.WOODWORK
    standing = design_with("rise = 80 mm")
    assert standing.stock["sheet"].accepted is not None
    assert standing.parameters["board"].value.precision is Precision.WOODWORK


@pytest.mark.parametrize(
    ("texts", "code", "told"),
    [
        (["rize = 7 in"], "unknown-name", "`rise`"),
        (["stock.shet.thickness = 17 mm"], "unknown-name", "`stock.sheet.thickness`"),
        (["rise = 7 kg"], "wrong-kind", "a length"),
        (["rise = 7"], "missing-unit", "7 mm"),
        (["rise = 7 in +"], "syntax", "Complete it"),
        (["rise = bord"], "unknown-name", "`board`"),
        (["rise = 1 mm / 0"], "division-by-zero", "0"),
        (["rise = 7 in", "rise = 8 in"], "supposed-twice", "one of them"),
    ],
)
def test_a_change_that_cannot_be_is_told_with_what_was_typed(texts, code, told):
    (finding,) = check_supposed(plan(), [read_supposed(text) for text in texts])
    assert finding.code == code
    assert f"`{texts[-1]}`" in finding.message
    assert told in finding.message + finding.remedy
    assert finding.place is None
