"""What components weigh and where their centre lies, against volumes worked out by hand and another mesh library."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
import trimesh
from ruamel.yaml import YAML

from planbook.design import Overrides, evaluate, plan_design
from planbook.shape import place_components, shape_parts
from planbook.shape.solids import mesh_of_component
from planbook.source import Door, load
from tests.statement.workspace import FILES, edited, state, write

TWO = """
        components:
          board: {part: board, at: [0 mm, 0 mm, lift]}
          pin: {rod: {title: Pin, diameter: 10 mm, length: 50 mm, along: z}, at: [400 mm, 0 mm, 0 mm]}
        masses:
          all: {means: both}
          board: {means: the board, of: [board]}
          bare: {means: the same, without: [pin]}
        """
MARKET = FILES["shared/markets/there.yaml"].replace("material: maple,", "material: maple, density: 700 kg / (1 m)^3,")
BOARD = (300 * 100 * 20 - math.pi * 3.3**2 * 20) * 700e-9
PIN = math.pi * 25 * 50 * 7850e-9


def parameters(root: Path, **changed: str):  # type: ignore[no-untyped-def]
    rule = "board.light: {require: mass.all <= 1 kg, because: it is carried}\n        board.long:"
    rules = edited("content/tiny/rules.yaml", "board.long:", rule)
    return state(write(root, **{"assembly": TWO, "there": MARKET, "here": here(), "rules": rules, **changed}), "metric")


def here() -> str:
    return FILES["shared/markets/here.yaml"].replace("material: maple,", "material: maple, density: 700 kg / (1 m)^3,")


def test_masses_and_centres_by_hand(tmp_path: Path) -> None:
    one, found = parameters(tmp_path)
    assert one is not None, found
    value = {name: each.value.number for name, each in one.design.parameters.items() if name.startswith("mass.")}
    assert value["mass.board"] == pytest.approx(BOARD, rel=2e-4)
    assert value["mass.bare"] == value["mass.board"]
    # The pin is a prism of facets: a little less than round.
    assert value["mass.all"] == pytest.approx(BOARD + PIN, rel=2e-3)
    assert value["mass.board_x"] == pytest.approx(150e6)
    assert value["mass.all_x"] == pytest.approx((BOARD * 150 + PIN * 405) / (BOARD + PIN) * 1e6, rel=2e-3)
    assert value["mass.all_z"] == pytest.approx((BOARD * 10 + PIN * 25) / (BOARD + PIN) * 1e6, rel=2e-3)


def test_a_rule_may_ask_about_them(tmp_path: Path) -> None:
    one, _ = parameters(tmp_path)
    assert one.statement.rules["board.light"].holds
    assert one.statement.rules["board.light"].stated.startswith("0.4")
    assert one.statement.one_off == ()


def test_against_another_library() -> None:
    content, _ = load(Door(Path()), "sewing-desk")
    assert content is not None
    plan, _ = plan_design(content)
    assert plan is not None
    design, _ = evaluate(plan, Overrides("europe"))
    assert design is not None
    parts, _ = shape_parts(content, design)
    components, _ = place_components(content, design, parts)
    for component in (each for each in components if each.name in ("front_bar", "platform", "front_left_leg")):
        mesh = mesh_of_component(component)
        other = trimesh.Trimesh(mesh.points, mesh.triangles, process=False)
        assert mesh.volume == pytest.approx(other.volume, rel=1e-9)
        assert mesh.centroid == pytest.approx(other.center_mass, rel=1e-9)


def test_without_a_density_nothing_is_weighed(tmp_path: Path) -> None:
    one, found = parameters(tmp_path, there=FILES["shared/markets/there.yaml"])
    assert one is None
    assert {each.code for each in found if each.severity == "stop"} == {"density-missing"}
    assert "the stock `board` says no density" in found[0].message


def test_nothing_is_shaped_by_what_it_weighs(tmp_path: Path) -> None:
    board = edited("content/tiny/parameters.yaml", "half: board.length / 2", "half: mass.all_x / 2")
    one, found = parameters(tmp_path, parameters=board)
    assert one is None
    circular = next(each for each in found if each.code == "mass-circular")
    assert "hangs on `mass.all` by `board.half`" in circular.message


def test_the_handbook_says_what_was_read(tmp_path: Path) -> None:
    """tests/reference/wood.yaml, copied from the tables."""
    one, _ = parameters(tmp_path)
    rows = YAML(typ="safe").load(Path("tests/reference/wood.yaml").read_text(encoding="utf-8"))
    for row in rows:
        for measure, told in row["values"].items():
            value = one.design.parameters[f"handbook.{row['wood']}.{measure}"].value.number
            assert value == pytest.approx(told, rel=1e-9), (row["wood"], measure)
        if "gravity" in row["values"]:
            density = one.design.parameters[f"handbook.{row['wood']}.density"].value.number
            assert density * 1e27 == pytest.approx(1000 * row["values"]["gravity"] * 1.12, rel=1e-9)
