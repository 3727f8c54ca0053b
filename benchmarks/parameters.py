"""Ten thousand chained parameters: evaluating a made plan, against plain Python and against pint quantities.

Prints ratios, measured in one run. Aims: at most 20 times plain Python, at least 10 times faster than pint.

    python benchmarks/parameters.py
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable
from datetime import date

import pint

from planbook.design import Overrides, Plan, evaluate, plan_design
from planbook.source.content import Content
from planbook.source.models.market import MarketModel
from planbook.source.models.parameters import ParameterModel
from planbook.source.models.plan_set import SetModel
from planbook.source.text import Formula, Text

COUNT = 10_000
REPEATS = 5
MARKET = "europe"
MM = 1e6


def chain() -> dict[str, str]:
    """Each parameter hangs on the one before, by one of four ordinary formulas."""
    forms = (
        "{0} / 2 + 3/4 in",
        "2 * {0} - 18 mm",
        "max({0}, 25 mm)",
        "hypot({0}, 1 1/2 in)",
    )
    formulas = {f"p{at}": forms[at % 4].format(f"p{at - 1}") for at in range(1, COUNT)}
    return {"p0": "100 mm"} | formulas


def plain() -> float:
    """The same arithmetic as straight code on floats, every value kept as evaluation has to keep it."""
    value = 100 * MM
    values = [value]
    for _ in range(COUNT // 4):
        value = 2 * value - 18 * MM
        values.append(value)
        value = max(value, 25 * MM)
        values.append(value)
        value = math.hypot(value, 38.1 * MM)
        values.append(value)
        value = value / 2 + 19.05 * MM
        values.append(value)
    return values[COUNT - 1]


def with_pint() -> float:
    """The same on pint quantities, the constants made beforehand."""
    registry = pint.UnitRegistry()
    inch, other, least, leg = (registry.Quantity(number, "mm") for number in (19.05, 18, 25, 38.1))
    value = registry.Quantity(100.0, "mm")
    values = [value]
    for _ in range(COUNT // 4):
        value = 2 * value - other
        values.append(value)
        value = max(value, least)
        values.append(value)
        value = (value**2 + leg**2) ** 0.5
        values.append(value)
        value = value / 2 + inch
        values.append(value)
    return float(values[COUNT - 1].magnitude) * MM


def make_plan() -> Plan:
    parameters = {Text(name): ParameterModel.model_validate({"is": Formula(form)}) for name, form in chain().items()}
    market = MarketModel(title=Text("Europe"), stock={}, hardware={})
    plan, findings = plan_design(Content("chain", _plan_set(), parameters, {}, {}, {MARKET: market}))
    if plan is None or findings:
        raise SystemExit(f"the chain has findings: {findings[:3]}")
    return plan


def _plan_set() -> SetModel:
    workshop, tolerances = {"name": "none"}, dict.fromkeys(("length", "angle", "diagonals", "moisture"), "none")
    words = dict.fromkeys(("title", "code", "summary", "drawn_by", "approved_by", "cover"), "none")
    edition = {"title": "none", "units": "millimetre", "paper": "a4", "projection": "first_angle", "market": MARKET}
    groups = {"workshop": workshop, "tolerances": tolerances, "editions": {"metric": edition}, "cautions": []}
    return SetModel.model_validate(words | groups | {"issued": date(2026, 1, 1)})


def best(work: Callable[[], object], repeats: int = REPEATS) -> float:
    """Seconds of the fastest of some runs."""
    times = []
    for _ in range(repeats):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return min(times)


def main() -> None:
    planning = best(make_plan, 1)
    plan = make_plan()
    design, _ = evaluate(plan, Overrides(MARKET))
    last = design.parameters[f"p{COUNT - 1}"].value.number if design else math.nan
    if not (math.isclose(last, plain(), rel_tol=1e-9) and math.isclose(last, with_pint(), rel_tol=1e-9)):
        raise SystemExit("the three do not compute the same")
    ours, floats = best(lambda: evaluate(plan, Overrides(MARKET))), best(plain)
    quantities = best(with_pint, 2)
    print(f"{COUNT} chained parameters")
    print(f"  evaluate / plain Python    {ours / floats:6.1f}  (aim: at most 20)")
    print(f"  pint / evaluate            {quantities / ours:6.1f}  (aim: at least 10)")
    print(f"  plan / evaluate            {planning / ours:6.0f}  (parsed and typed once)")


if __name__ == "__main__":
    main()
