"""What pictures of build steps show, told from the steps of the demo's desk."""

from pathlib import Path
from types import SimpleNamespace

import pytest

from planbook.source import Door, load
from planbook.source.text import Text
from planbook.statement.staging import stage_figures

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def content():
    found, findings = load(Door(ROOT), "sewing-desk")
    assert not findings
    return found


class Lengths:
    """Solves `120 mm` and the like, which is all that the desk's exploded views write."""

    def solve(self, formula, _):
        number, unit = str(formula).split()
        assert unit == "mm"
        return SimpleNamespace(number=float(number) * 1e6), ()


@pytest.fixture(scope="module")
def stages(content):
    components = tuple(
        SimpleNamespace(name=str(name), part=model.part and SimpleNamespace(key=str(model.part)))
        for name, model in content.assembly.components.items()
    )
    found, findings = stage_figures(content, Lengths(), {str(name): components for name in content.figures})
    assert not findings
    return found


def test_a_step_adds_the_components_of_its_parts(content, stages):
    (place,) = (place for place, step in enumerate(content.steps) if step.key == "fork")
    before = {part for step in content.steps[:place] for part in step.head.parts}
    parts = set(content.steps[place].head.parts) - before
    made = {name for name, each in content.assembly.components.items() if each.part in parts}
    assert stages["step_fork"].emphasise == made | {"drive_pin"}
    assert stages["step_fork"].labelled == stages["step_fork"].emphasise


def test_what_is_there_is_what_earlier_steps_and_their_pictures_added(stages):
    grey = stages["step_lever"].show - stages["step_lever"].emphasise
    assert {"left_foot", "front_apron", "top", "left_shaft", "front_guide_pin", "front_bar"} <= grey
    assert not grey & {"lever", "link", "left_stop", "pivot_bolt", "front_button"}


def test_what_is_shown_may_be_told(content, stages):
    told = set(map(str, content.figures[Text("step_platform")].show))
    assert stages["step_platform"].show == stages["step_platform"].emphasise | told


def test_moves_of_a_component_add_up(stages):
    assert stages["frame_apart"].moves["left_foot"] == (-300e6, 0, -220e6)
    assert "link" not in stages["frame_apart"].moves
