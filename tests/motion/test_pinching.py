"""Pinch points: what closes on a finger is found, by the standards' numbers, and told where it becomes possible."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ruamel.yaml import YAML

from planbook.motion.distance import Skin, clearance_ahead, distances
from planbook.motion.pinching import FINGER_ENTERS, FINGER_FREE, Pinch
from planbook.shape.solids.surfaces import Floats
from planbook.source import Door, load
from tests.motion.test_travels import DRIVEN, SHELF, codes, stated
from tests.statement.workspace import edited, state, write

SLOTTED = """
        number: 7
        title: Board
        stock: board
        quantity: 2
        size: [board.length, board.width, stock.board.thickness]
        features:
          middle: {slot: 14 mm, start: [60 mm, 50 mm], end: [200 mm, 50 mm]}
        notes: ["Slot as on {{ sheet.board }}."]
        """
PIN = """
        components:
          board: {part: board, at: [0 mm, 0 mm, 0 mm]}
          pin: {rod: {title: Pin, diameter: 12 mm, length: 60 mm, along: z}, at: [94 mm + lift, 44 mm, -20 mm]}
        """
ABOVE = "components: {board: {part: board, at: [0 mm, 0 mm, lift]}, shelf: {part: board, at: [0 mm, 0 mm, HEIGHT mm]}}"


def found_with(root: Path, height: float):  # type: ignore[no-untyped-def]
    one, _ = stated(root, assembly=ABOVE.replace("HEIGHT", str(height)))
    return one.travels["up"].pinches


@pytest.mark.parametrize(
    ("least", "pinched"),
    [(0.0, True), (6.0, True), (20.0, True), (26.0, False)],
    # A board of 20 mm rises 40 mm under another; what stays over 25 mm crushes no finger (ISO 13854, from memory).
)
def test_what_closes_under_a_finger_gap_pinches(tmp_path: Path, least: float, pinched: bool) -> None:
    found = found_with(tmp_path, 60 + least)
    assert bool(found) is pinched
    for each in found:
        assert (each.one, each.other, each.wide) == ("board", "shelf", FINGER_FREE)
        assert each.narrow == pytest.approx(least, abs=0.02)
        # 40 mm in 8 steps: the gap is 25 or less from the place where the board has come so far.
        assert (each.open, each.closed) == (next(k for k in range(8, -1, -1) if 40 - 5 * k + least >= 25), 8)


def test_what_no_finger_enters_does_not_pinch(tmp_path: Path) -> None:
    """EN 581-1: under 7 mm no finger goes in. The board comes from 6 mm to 1 mm."""
    positions = DRIVEN.replace("0 mm", "35 mm", 1).replace("from: 0 mm", "from: 35 mm")
    given = edited("content/tiny/parameters.yaml", "lift: 0 mm", "lift: 35 mm")
    one, _ = state(
        write(tmp_path, positions=positions, assembly=ABOVE.replace("HEIGHT", "61"), parameters=given), "metric"
    )
    assert one.travels["up"].pinches == ()
    assert FINGER_ENTERS == 7.0


FLAP = """
        components:
          wall: {part: board, at: [0 mm, 90 mm, -20 mm]}
          flap: {part: board, at: [0 mm, 0 mm, 0 mm], tilt: -flap.angle, pivot: [0 mm, 100 mm, 20 mm]}
        """
TURNING = """
        driver: flap.angle
        positions: {low: 20 deg, high: 100 deg}
        travels: {opening: {from: 20 deg, to: 100 deg, steps: 32}}
        """


def turned(root: Path, least: float, wall: float) -> list[Pinch]:
    """What a flap pinches that turns on its upper rear edge from so many degrees up to 100. Its underside is flush with
    a fixed board that begins `wall` mm behind the flap's front edge, the rear edge being at 100 mm.
    """
    parameters = edited(
        "content/tiny/parameters.yaml", "lift: 0 mm", f"lift: 0 mm\n        flap: {{angle: {least} deg}}"
    )
    files = {"positions": TURNING.replace("20", str(least)), "assembly": FLAP.replace("90 mm", f"{wall} mm")}
    one, found = state(write(root, parameters=parameters, **files), "metric")
    assert one is not None, found
    return list(one.travels["opening"].pinches)


def test_a_face_that_only_turns_to_a_wall_does_not_pinch(tmp_path: Path) -> None:
    """The flap's end, 20 mm thick, goes round with its upper edge on the pivot: a point of it, s above its lower edge,
    is 20 - (20 - s) cos a above the wall, and that only grows; but more and more the end looks down at the wall.
    """
    assert [pinch for pinch in turned(tmp_path, 20, 90) if pinch.closed > pinch.open] == []


def test_a_flap_that_closes_on_a_wall_pinches_on_the_way_down(tmp_path: Path) -> None:
    (pinch,) = turned(tmp_path, 0, 20)
    assert (pinch.wide, pinch.narrow, pinch.closed) == (FINGER_FREE, pytest.approx(0.0, abs=0.02), 0)
    # The point over the wall that is furthest from the pivot, 80 mm in front of it and 20 mm below, is 25 mm from where
    # it lies at last when the flap is up by 2 asin(25 / 2 / sqrt(80**2 + 20**2)) = 17.4 degrees; steps are of 3.125.
    assert pinch.open == 6


def test_a_clearance_is_told_from_where_the_two_draw_near(tmp_path: Path) -> None:
    """Over a wall that begins 8 mm before the pivot no point of the flap lies further than hypot(20, 8) from the pivot:
    turned by an angle, none is further from where it lies at last than the chord.
    """
    (pinch,) = turned(tmp_path, 0, 92)
    assert pinch.closed == 0
    assert 20 < pinch.wide <= 2 * math.hypot(20, 8) * math.sin(math.radians(pinch.open * 3.125) / 2) + 1e-6


def test_a_pin_in_a_slot_pinches_at_its_end_though_its_sides_stay_as_near(tmp_path: Path) -> None:
    """The least gap is 1 mm at the sides all the way; at the end of the travel 61 mm become 61 mm less 40 mm."""
    root = tmp_path
    one, _ = stated_with(root, PIN, SLOTTED, DRIVEN)
    assert {round(gap, 1) for gap in one.travels["up"].sweep.gaps("board", "pin")} == {1.0}
    assert [each.narrow for each in one.travels["up"].pinches] == []
    far = DRIVEN.replace("40 mm", "100 mm")
    one, _ = stated_with(root, PIN, SLOTTED, far)
    (pinch,) = one.travels["up"].pinches
    assert (pinch.wide, pinch.narrow, pinch.closed) == (FINGER_FREE, pytest.approx(1.0, abs=0.25), 8)


def stated_with(root: Path, assembly: str, board: str, positions: str):  # type: ignore[no-untyped-def]
    return state(write(root, positions=positions, assembly=assembly, board=board), "metric")


def test_it_is_told_in_the_step_and_where_no_caution_lists_it_that_is_told(tmp_path: Path) -> None:
    one, found = stated(tmp_path)
    (untold,) = (each for each in found if each.code == "pinch-untold")
    assert untold.message == "The step Cut makes a pinch point that no caution lists: board and another board."
    assert untold.place is not None
    assert untold.place.file == "content/tiny/steps/01-cut.md"
    (row,) = one.statement.lists["pinch_points"]
    assert row.cells == {
        "One": "board", "Other": "another board", "From": "25 mm or more", "To": "3 mm", "While": "lift 15 mm to 40 mm",
        "Guarded": "", "Step": "cut",
    }  # fmt: skip


SHELVES = (
    "components: {board: {part: board, at: [0 mm, 0 mm, 0 mm]}, flap: {part: flap, at: [0 mm, 0 mm, 63 mm - lift]}}"
)
LISTED = edited("content/tiny/cautions.yaml", "text: They cut.", "text: They cut., lists: pinch_points")


@pytest.mark.parametrize(
    ("heads", "told"),
    [
        # Cut together, the board put up while the flap lies by, and the flap hung: told where it is hung.
        ((("cut", "board, flap", "glue"), ("join", "board", "saws"), ("hang", "flap", "saws")), "hang"),
        # A fixed piece that is put in after the one that moves was hung.
        ((("cut", "board, flap", "glue"), ("hang", "flap", "saws"), ("shelve", "board", "saws")), "shelve"),
        # What is worked on once more later was there before: where it is first listed counts.
        ((("cut", "board, flap", "glue"), ("hang", "board, flap", "saws"), ("level", "flap", "saws")), "hang"),
        ((("make", "board, flap", "saws"), ("join", "board", "saws"), ("level", "flap", "saws")), "make"),
        # Nothing is told too late: where no later step lists what pinches, the first that does has it.
        ((("cut", "board, flap", "glue"), ("join", "board", "saws"), ("hang", "flap", "glue")), "join"),
    ],
)
def test_it_is_told_where_the_last_piece_is_put_in(
    tmp_path: Path, heads: tuple[tuple[str, str, str], ...], told: str
) -> None:
    root = write(tmp_path, positions=DRIVEN, assembly=SHELVES, cautions=LISTED)
    board = (root / "content/tiny/parts/board.yaml").read_text(encoding="utf-8")
    flap = board.replace("number: 7", "number: 8").replace("Board", "Flap").replace("board.middle", "flap.middle")
    (root / "content/tiny/parts/flap.yaml").write_text(flap, encoding="utf-8")
    (root / "content/tiny/steps/01-cut.md").unlink()
    for number, (key, parts, caution) in enumerate(heads, 1):
        head = f"---\ntitle: Step\nparts: [{parts}]\ncautions: [{caution}]\n---\nDo {{{{ part.board }}}}.\n"
        (root / f"content/tiny/steps/{number:02}-{key}.md").write_text(head, encoding="utf-8")
    one, found = state(root, "metric")
    assert one is not None, found
    (row,) = one.statement.lists["pinch_points"]
    assert row.cells["Step"] == told


def test_in_inches_and_with_a_caution_that_lists_them(tmp_path: Path) -> None:
    cautions = edited("content/tiny/cautions.yaml", "text: They cut.", "text: They cut., lists: pinch_points")
    one, found = state(write(tmp_path, positions=DRIVEN, assembly=SHELF, cautions=cautions), "imperial")
    assert "pinch-untold" not in [each.code for each in found]
    (row,) = one.statement.lists["pinch_points"]
    # The board is 19.05 mm thick there: 63 mm less 59.05 mm.
    assert (row.cells["From"], row.cells["To"]) == ("1 in or more", "5/32 in")


def test_what_is_guarded_is_told_with_its_reason_and_needs_no_caution(tmp_path: Path) -> None:
    guard = "guarded: {inside: {between: [board, shelf], because: a panel covers them}}"
    one, found = stated(tmp_path, positions=DRIVEN + guard)
    assert "pinch-untold" not in [each.code for each in found]
    (row,) = one.statement.lists["pinch_points"]
    assert row.cells["Guarded"] == "a panel covers them"


def test_a_guard_names_components(tmp_path: Path) -> None:
    guard = "guarded: {inside: {between: [board, shelv], because: so}}"
    content, found = load(Door(write(tmp_path, positions=DRIVEN + guard, assembly=SHELF)), "tiny")
    assert content is None
    assert codes(found) == ["component-unknown"]


def test_clearance_ahead_is_along_the_line_and_only_of_what_is_in_front() -> None:
    square = np.array([[[5.0, -9, -9], [5, 9, -9], [5, 0, 9]], [[-9.0, 4, -9], [9, 4, -9], [0, 4, 9]]])
    points, ahead = np.zeros((1, 3)), np.array([[1.0, 0, 0]])
    found = clearance_ahead(points, ahead, 6.0, 25.0, Skin(square))
    assert (found.front[0], found.near[0]) == (pytest.approx(5), pytest.approx(4))
    assert found.feet[0] == pytest.approx([5, 0, 0])
    found = clearance_ahead(points, -ahead, 6.0, 25.0, Skin(square))
    assert found.front[0] == 25.0
    assert found.near[0] == pytest.approx(distances(points, square)[0])


@settings(max_examples=60, deadline=None)
@given(seed=st.integers(0, 2**32 - 1), points=st.integers(1, 40), triangles=st.integers(1, 60))
def test_clearance_ahead_passes_over_nothing_that_counts(seed: int, points: int, triangles: int) -> None:
    """Against every triangle looked at for every point, whatever the boxes say."""
    random = np.random.default_rng(seed)
    corners = random.uniform(-60, 60, (triangles, 1, 3)) + random.uniform(-30, 30, (triangles, 3, 3))
    here, ahead = random.uniform(-60, 60, (points, 3)), random.normal(size=(points, 3))
    ahead /= np.linalg.norm(ahead, axis=1, keepdims=True)
    found = clearance_ahead(here, ahead, 6.0, 25.0, Skin(corners))
    for row in range(points):
        feet = np.array([foot_on(here[row], triangle) for triangle in corners]) - here[row]
        along, apart = feet @ ahead[row], np.linalg.norm(feet, axis=1)
        counts = (along >= 0) & (2 * along >= apart) & (apart**2 - along**2 <= 36)
        assert found.front[row] == pytest.approx(min([25.0, *along[counts]]), abs=1e-9)
        if found.front[row] < 25.0:
            assert (found.feet[row] - here[row]) @ ahead[row] == pytest.approx(found.front[row], abs=1e-9)
        else:
            assert found.feet[row] == pytest.approx(here[row])
        assert found.near[row] == pytest.approx(min(apart.min(), 6.0), abs=1e-9)


def foot_on(point: Floats, triangle: Floats) -> Floats:
    """The nearest point of a triangle, by trying its plane, its sides and its corners."""
    a, b, c = triangle
    share = np.linalg.lstsq(np.array([b - a, c - a]).T, point - a, rcond=None)[0]
    found = [a + share @ np.array([b - a, c - a])] if share.min() >= 0 and share.sum() <= 1 else []
    for start, end in ((a, b), (b, c), (c, a)):
        way = end - start
        found.append(start + np.clip((point - start) @ way / (way @ way), 0, 1) * way)
    return min(found, key=lambda foot: float(np.linalg.norm(foot - point)))


def test_the_band_is_as_wide_as_the_widest_of_the_standards() -> None:
    """tests/reference/fingers.yaml: nothing that one of them calls dangerous is left out."""
    text = Path("tests/reference/fingers.yaml").read_text(encoding="utf-8")
    rows = list(YAML(typ="safe").load(text))
    assert min(row["from"] for row in rows if "from" in row) == FINGER_ENTERS
    assert max(row["to"] for row in rows) == FINGER_FREE
