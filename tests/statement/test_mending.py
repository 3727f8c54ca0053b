"""What a rule that fails hangs on most, and the values that mend it: by number, and as a finding tells them."""

import pytest

from planbook.design import Overrides, evaluate, plan_design
from planbook.measure import MILLIMETRE, Units
from planbook.source.text import Formula
from planbook.statement.mending import Failure, remedy, slack_of
from tests.design.contents import EUROPE, content
from tests.motion.test_travels import DRIVEN, SHELF, stated
from tests.statement.workspace import edited, state, write

RULES = "content/tiny/rules.yaml"
RAMP = {
    "ramp": "76 mm",
    "run": "300 mm",
    "load": "200 N",
    "friction": "0.3",
    "none": "0 mm",
    "slope": "atan(ramp / run)",
    "pull": "ramp_push(load, slope, friction)",
    "stepped": "round(run, 5 mm)",
}


def failure(require, units=Units.MILLIMETRE):
    plan, findings = plan_design(content(RAMP))
    assert findings == ()
    design, _ = evaluate(plan, Overrides(EUROPE))
    judgement, _ = design.judge(Formula(require))
    names = tuple(name for side in judgement.sides for name in side.inputs)
    return names, Failure(design, plan, slack_of(lambda there: there.judge(Formula(require))[0]), units)


def influences(require, *among):
    _, one = failure(require)
    return {each.name: each for each in one.influences(among)}


def test_sensitivity_is_the_slope_for_a_change_by_the_whole():
    """P = W tan(a + r): by hand, W dP/dW = P, and tan a = h / s makes h and s weigh alike with opposite signs."""
    found = influences("pull <= 100 N", "none", "ramp", "run", "load")
    pull = 200 * (76 / 300 + 0.3) / (1 - 76 / 300 * 0.3)
    assert found["load"].weight == pytest.approx(-pull * 1e9, rel=1e-6)
    slope = 200 * (76 / 300) * (1 + 0.3**2) / (1 - 76 / 300 * 0.3) ** 2
    assert found["ramp"].weight == pytest.approx(-slope * 1e9, rel=1e-3)
    assert found["run"].weight == pytest.approx(slope * 1e9, rel=1e-3)
    assert next(iter(found)) == "load"
    assert "none" not in found


def test_the_three_that_matter_most_are_told():
    assert list(influences("pull <= 100 N", "ramp", "run", "load", "friction"))[:2] == ["load", "friction"]
    assert len(influences("pull <= 100 N", "ramp", "run", "load", "friction")) == 3


def test_the_value_is_the_nearest_that_mends_alone():
    found = influences("pull <= 100 N", "load")
    pull = 200 * (76 / 300 + 0.3) / (1 - 76 / 300 * 0.3)
    most = 200 * 100 / pull
    assert most - 1.0 < found["load"].mends.value / 1e9 <= most


def test_no_value_is_given_beyond_a_third():
    found = influences("pull <= 60 N", "load")
    assert found["load"].mends is None
    names, one = failure("pull <= 60 N")
    assert remedy("it is heavy", names, one).startswith("It is heavy: it hangs most on `load`, `friction` and `r")


def test_what_is_rounded_moves_in_steps_and_is_still_mended():
    names, one = failure("stepped >= 312 mm")
    (found,) = one.influences(["run"])
    assert found.mends.value == pytest.approx(313 * MILLIMETRE)
    assert remedy("it slides", names, one) == "It slides: change `run` from 300 mm to 313 mm."


def test_a_strict_relation_that_is_just_met_is_moved_on():
    names, one = failure("run > 300 mm")
    assert remedy("so", names, one) == "So: change `run` from 300 mm to 300.5 mm."


def test_values_are_told_in_the_units_of_the_edition():
    names, one = failure("run >= 320 mm", Units.INCH)
    assert remedy("so", names, one) == "So: change `run` from 11 13/16 in to 12 5/8 in."


def test_what_moves_by_itself_is_not_to_be_changed():
    names, one = failure("run >= ramp + 240 mm")
    assert "`run`" not in remedy("so", names, one, held=["run"])
    assert "`ramp` from 76 mm to 60 mm" in remedy("so", names, one, held=["run"])


def test_a_rule_that_fails_says_so_in_its_finding(tmp_path):
    rules = edited(RULES, "2 * board.width", "3.3 * board.width")
    _, found = state(write(tmp_path, rules=rules), "metric")
    (broken,) = (each for each in found if each.code == "rule-broken")
    assert broken.remedy == (
        "A square board is dull: change `board.width` from 100 mm to 90.5 mm, or `board.length` from 300 mm to 330 mm."
    )


def test_over_a_travel_it_is_mended_at_its_worst_place(tmp_path):
    rule = "lift.free: {require: lift + board.width <= 130 mm, over: up, because: the shelf is there}"
    _, found = stated(tmp_path, DRIVEN, SHELF, rule)
    (broken,) = (each for each in found if each.code == "rule-broken")
    assert "at lift 40 mm" in broken.message
    assert broken.remedy == "The shelf is there: change `board.width` from 100 mm to 90 mm."
