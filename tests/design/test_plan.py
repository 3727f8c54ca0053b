"""Planning finds what is wrong between definitions, each fault once, and leaves its consequences silent."""

import pytest

from planbook.design import Overrides, dependents, evaluate, inputs, nearest, plan_design
from planbook.source.findings import Place
from planbook.source.text import Formula

from .contents import AMERICA, EUROPE, FILE, content, market
from .solving import plan_findings

BOTH = (AMERICA, EUROPE)


def only(findings):
    (finding,) = findings
    return finding


def test_a_circle_is_shown_whole_and_once():
    finding = only(plan_findings({"a": "1 mm + b", "b": "2 * c", "c": "a - d", "d": "1 mm", "e": "a + 1 mm"}))
    assert finding.code == "circular-definition"
    assert "`a` needs `b`, `b` needs `c`, `c` needs `a`" in finding.message
    assert finding.place == Place(FILE, 1, 4 + 7)
    assert [(related.place, related.note) for related in finding.related] == [
        (Place(FILE, 2, 4 + 4), "`b` is defined by `2 * c`"),
        (Place(FILE, 3, 4), "`c` is defined by `a - d`"),
    ]


def test_a_name_that_needs_itself_is_a_circle():
    assert "`a` needs `a`" in only(plan_findings({"a": "a + 1 mm"})).message


def test_two_circles_are_two_findings():
    found = plan_findings({"a": "b", "b": "a", "c": "d", "d": "c"})
    assert [finding.place.line for finding in found] == [1, 3]


def test_consequences_are_silent():
    parameters = {"a": "nothing_like_it", "b": "a + 1 mm", "c": "b + 1 deg", "d": "2 mm"}
    assert only(plan_findings(parameters)).place.line == 1


def test_a_second_fault_of_a_consequence_is_told_all_the_same():
    found = plan_findings({"a": "nothing_like_it", "b": "a + zzz"})
    assert [finding.place for finding in found] == [Place(FILE, 1, 4), Place(FILE, 2, 8)]


def test_what_rests_on_a_fault_is_absent_and_the_rest_is_there():
    plan, _ = plan_design(content({"a": "1 mm + 1 deg", "b": "a", "c": "2 mm"}))
    design, found = evaluate(plan, Overrides(EUROPE))
    assert found == ()
    assert list(design.parameters) == ["c"]
    assert design.solve(Formula("b + c")) == (None, ())
    assert design.judge(Formula("b > c")) == (None, ())


@pytest.mark.parametrize(
    ("name", "code", "remedy"),
    [
        ("sheet.thickness", "reserved-name", "sheet_thickness"),
        ("stock", "reserved-name", "stock_own"),
        ("mm", "reserved-name", "the_mm"),
        ("round", "reserved-name", "the_round"),
        ("left-hand", "bad-name", "left_hand"),
        ("1st", "bad-name", "letters"),
    ],
)
def test_names_that_cannot_be_used(name, code, remedy):
    finding = only(plan_findings({name: "1 mm"}))
    assert finding.code == code
    assert remedy in finding.remedy
    assert finding.place == Place(FILE, 1, 1)


def test_a_value_cannot_be_a_group_too():
    finding = only(plan_findings({"top": "1 mm", "top.length": "2 mm"}))
    assert (finding.code, finding.place.line) == ("name-collides", 2)
    assert finding.related[0].place == Place(FILE, 1, 1)


def test_every_market_of_an_edition_needs_a_value():
    finding = only(plan_findings({"a": {"by_market": {EUROPE: "1 mm"}}, "b": "a"}, used=BOTH))
    assert finding.code == "market-missing"
    assert AMERICA in finding.message


def test_a_name_is_of_one_kind_in_all_markets():
    parameters = {"a": {"by_market": {AMERICA: "3 in", EUROPE: "76 kg"}}, "b": "a + 1 mm"}
    finding = only(plan_findings(parameters, used=BOTH))
    assert finding.code == "market-kinds"
    assert finding.edition == "edition_europe"
    assert "a mass" in finding.message


def test_a_unit_forgotten_in_one_market_is_a_missing_unit():
    parameters = {"a": {"by_market": {AMERICA: "3 in", EUROPE: "76"}}}
    finding = only(plan_findings(parameters, used=BOTH))
    assert (finding.code, finding.edition) == ("missing-unit", "edition_europe")
    assert "76 mm" in finding.remedy


def test_a_fault_in_every_market_is_told_once():
    assert only(plan_findings({"a": "1 mm + 1 deg"}, used=BOTH)).edition == ""


def test_a_fault_in_one_market_names_it():
    parameters = {"a": {"by_market": {AMERICA: "3 in", EUROPE: "zzz"}}}
    finding = only(plan_findings(parameters, used=BOTH))
    assert finding.edition == "edition_europe"
    assert finding.message.startswith("For the market europe: ")


@pytest.mark.parametrize(
    ("tolerance", "plus", "minus"),
    [
        ("1/32 in", 793750, 793750),
        ("±0.5 mm", 5e5, 5e5),
        ("+/-0.5 mm", 5e5, 5e5),
        ("+0.5 mm/0", 5e5, 0),
        ("0/-0.5 mm", 0, 5e5),
        ("+1/32 in / -1/64 in", 793750, 396875),
        ("make.fit", 1e5, 1e5),
    ],
)
def test_tolerances(tolerance, plus, minus):
    said = {"a": {"is": "18 mm", "tolerance": tolerance}, "b": "a + 1 mm", "make.fit": "0.1 mm"}
    plan, found = plan_design(content(said))
    assert found == ()
    design, _ = evaluate(plan, Overrides(EUROPE))
    stated = design.parameters["a"].value.tolerance
    assert (stated.plus, stated.minus) == (plus, minus)
    assert design.parameters["b"].value.tolerance is None
    assert design.solve(Formula("a"))[0].tolerance == stated
    assert design.solve(Formula("a + 0 mm"))[0].tolerance is None


@pytest.mark.parametrize(
    ("tolerance", "code", "column"),
    [
        ("-0.5 mm", "bad-tolerance", 40),
        ("about", "unknown-name", 40),
        ("0.5", "missing-unit", 40),
        ("+0.5 mm/-1 deg", "wrong-kind", 49),
        ("+0.5 mm", "bad-tolerance", 40),
    ],
)
def test_bad_tolerances(tolerance, code, column):
    found = plan_findings({"a": {"is": "18 mm", "tolerance": tolerance}})
    assert {(finding.code, finding.place) for finding in found} == {(code, Place(FILE, 1, column))}


def test_a_tolerance_less_than_nothing_is_found_when_evaluated():
    plan, _ = plan_design(content({"a": {"is": "18 mm", "tolerance": "1 mm - 2 mm"}}))
    finding = only(set(evaluate(plan, Overrides(EUROPE))[1]))
    assert finding.code == "bad-tolerance"


def test_inputs_and_dependents():
    parameters = {
        "a": "stock.board.thickness",
        "b": "2 * a",
        "c": {"by_market": {AMERICA: "b", EUROPE: "d"}},
        "d": "1 mm",
    }
    markets = {key: market({"board": ("1 in",)}) for key in BOTH}
    plan, found = plan_design(content(parameters, markets, BOTH))
    assert found == ()
    assert inputs(plan, "c") == ("b", "d")
    assert dependents(plan, "stock.board.thickness") == ("a", "b", "c")
    assert dependents(plan, "c") == ()
    assert plan.names == ("a", "b", "c", "d", "stock.board.thickness")


def test_nearest_names():
    names = ["top.length", "top.depth", "leg.length", "platform.drop"]
    assert nearest("top", names) == ("top.length", "top.depth")
    assert nearest("top.lenght", names)[0] == "top.length"
    assert nearest("tabletop.depth", names) == ("top.depth",)
    assert nearest("quite_else", names) == ()


def test_a_chain_of_ten_thousand_needs_no_stack():
    parameters = {"p0": "1 mm"} | {f"p{at}": f"p{at - 1} + 1 um" for at in range(1, 10_000)}
    plan, found = plan_design(content(dict(reversed(parameters.items()))))
    assert found == ()
    design, _ = evaluate(plan, Overrides(EUROPE))
    assert design.parameters["p9999"].value.number == 1e6 + 9999e3
    assert len(dependents(plan, "p0")) == 9999


@pytest.mark.parametrize(("america", "europe"), [("20", "510 mm"), ("20 in", "510"), ("-20", "510 mm")])
def test_a_unit_that_one_market_lacks_is_told_once_whichever_market_comes_first(america, europe):
    length = {"by_market": {AMERICA: america, EUROPE: europe}}
    rests = {"inside": "top.length - 2 * 18 mm", "half": "round(top.length / 2, 1 mm)"}
    (finding,) = plan_findings({"top.length": length, **rests}, used=(AMERICA, EUROPE))
    assert finding.code == "missing-unit"
    assert finding.remedy.startswith("Did you mean ")


def test_bare_numbers_in_every_market_are_counts():
    assert plan_findings({"count": {"by_market": {AMERICA: "4", EUROPE: "5"}}}, used=(AMERICA, EUROPE)) == ()
