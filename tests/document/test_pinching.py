"""Pinch points on the page: a row for each, one for all that have the same guard, and all of them in their step."""

from __future__ import annotations

from types import SimpleNamespace

from planbook.document.pinching import pinch_places, pinch_table, pinches_of_step
from planbook.statement.model import RowStated


def row(one: str, other: str, to: str, guarded: str = "") -> RowStated:
    cells = {"One": one, "Other": other, "From": "25 mm or more", "To": to, "While": "lever angle 0° to 9°"}
    return RowStated(f"lift/{one}/{other}", {**cells, "Guarded": guarded, "Step": "fork"})


def plain(html: str) -> str:
    return html.replace("\N{NO-BREAK SPACE}", " ")


PANEL = "a panel covers them"
STATEMENT = SimpleNamespace(
    lists={
        "pinch_points": (
            row("lever", "leg", "2 mm"),
            row("bar", "roller", "3 mm", PANEL),
            row("roller", "top", "5 mm", PANEL),
            row("bush", "pin", "7 mm", PANEL),
        )
    }
)


def test_what_has_one_guard_stands_in_one_row_under_its_reason() -> None:
    table = pinch_table(STATEMENT)["pinch_points"]  # type: ignore[arg-type]
    assert [group.title for group in table.groups] == ["", f"Out of reach: {PANEL}"]
    within, guarded = table.groups
    assert [plain(cell.html) for cell in within.rows[0].cells][:3] == ["Lever and leg", "25 mm or more", "2 mm"]
    (told,) = guarded.rows
    assert [plain(cell.html) for cell in told.cells] == ["Roller with bar and top; bush with pin."]


def test_a_page_that_is_copied_names_those_in_reach_in_a_paragraph() -> None:
    pinching = (*STATEMENT.lists["pinch_points"], row("Leaf, free half", "top", "2 mm"), row("top", "bar", "2 mm"))
    told = pinch_places(SimpleNamespace(lists={"pinch_points": pinching}))  # type: ignore[arg-type]
    assert plain(told) == "<p>By the computed movement: top with leaf (free half) and bar; lever with leg.</p>"
    guarded = SimpleNamespace(lists={"pinch_points": pinching[1:4]})
    assert pinch_places(guarded) == ""  # type: ignore[arg-type]


def test_the_step_tells_all_of_them_for_whoever_builds_has_hands_there() -> None:
    told = plain(" ".join(pinches_of_step(STATEMENT, "fork")))  # type: ignore[arg-type]
    assert "<b>Roller</b> with bar, to 3 mm; with top, to 5 mm" in told
    assert "<b>Lever</b> with leg, to 2 mm" in told
    assert pinches_of_step(STATEMENT, "top") == ()  # type: ignore[arg-type]
