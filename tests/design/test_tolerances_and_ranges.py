"""Tolerances by market; ranges the wrong way round, names in meanings, numbers out of all measure are refused."""

from typing import Any

import pytest

from planbook.design import Overrides, evaluate, plan_design
from planbook.source.findings import Finding
from tests.shape.making import MARKET, content_of, design_of


def findings_of(parameters: dict[str, Any], market: Any = MARKET) -> tuple[Finding, ...]:
    plan, planned = plan_design(content_of({}, parameters, market=market))
    assert plan is not None
    return (*planned, *evaluate(plan, Overrides("europe"))[1])


def test_a_tolerance_may_differ_by_market() -> None:
    leaf = {"is": "10 mm", "tolerance": {"by_market": {"europe": "0.1 mm", "north_america": "0.005 in"}}}
    tolerance = design_of(content_of({}, {"fit": leaf})).parameters["fit"].value.tolerance
    assert tolerance is not None
    assert (tolerance.plus, tolerance.minus) == (1e5, 1e5)


def test_a_market_without_a_tolerance_is_a_finding() -> None:
    (finding,) = findings_of({"fit": {"is": "10 mm", "tolerance": {"by_market": {"mars": "0.1 mm"}}}})
    assert (finding.code, finding.remedy) == ("market-missing", "Add `europe: ...` to its by_market.")


def test_an_accepted_range_the_wrong_way_round_is_a_finding() -> None:
    stock = {**MARKET["stock"]["sheet"], "accepted": ("18.4 mm", "17.6 mm")}  # type: ignore[index]
    (finding,) = findings_of({}, {**MARKET, "stock": {"sheet": stock}})
    assert (finding.code, finding.remedy) == (
        "range-reversed",
        "Write the least first: `accepted: [17.6 mm, 18.4 mm]`.",
    )


@pytest.mark.parametrize("means", ["half of {{ top }}", "{top} less play"])
def test_names_in_a_meaning_are_a_finding(means: str) -> None:
    (finding,) = findings_of({"top": {"is": "10 mm", "means": means}})
    assert finding.code == "means-with-names"


@pytest.mark.parametrize("number", ["1e300 mm", "1e-300 mm", "2 * 1E+100 in", "1e99999999999"])
def test_a_number_out_of_all_measure_is_called_so(number: str) -> None:
    (finding,) = findings_of({"top": number})
    assert finding.code == "not-finite"
    assert "is too large or too small to be a measure" in finding.message
