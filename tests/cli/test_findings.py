"""Findings for people: place, severity, code, message, the line with a caret, remedy, related places."""

from __future__ import annotations

from io import StringIO
from pathlib import Path

from rich.console import Console

from planbook.cli.findings import print_findings
from planbook.source import Door
from planbook.source.findings import Finding, Place, Related, Severity

FILE = "content/tote/parameters.yaml"


def shown(findings: list[Finding], root: Path, *, terminal: bool = False) -> str:
    stream = StringIO()
    colours = "standard" if terminal else "auto"
    console = Console(file=stream, soft_wrap=True, highlight=False, force_terminal=terminal, color_system=colours)
    print_findings(console, findings, Door(root))
    return stream.getvalue()


def workspace(root: Path, text: str) -> Path:
    path = root / FILE
    path.parent.mkdir(parents=True)
    path.write_text(text, encoding="utf-8")
    return root


def finding(line: int, column: int, **more: object) -> Finding:
    return Finding(
        "unknown-name",
        Severity.STOP,
        "There is no `lenght`.",
        "Did you mean `length`?",
        Place(FILE, line, column),
        **more,
    )


def test_a_finding_shows_its_line_and_points_at_the_column(tmp_path: Path) -> None:
    root = workspace(tmp_path, "tote:\n  length: 300 mm\n  half: tote.lenght / 2\n")
    related = (Related(Place(FILE, 2, 3), "the nearest name"),)
    assert shown([finding(3, 9, edition="metric", related=related)], root) == (
        "content/tote/parameters.yaml:3:9: stop unknown-name (metric edition)\n"
        "  There is no `lenght`.\n"
        "    3 |   half: tote.lenght / 2\n"
        "      |         ^\n"
        "  To mend it: Did you mean `length`?\n"
        "  See content/tote/parameters.yaml:2:3: the nearest name\n"
        "\n"
        "1 stop\n"
    )


def test_a_finding_without_a_place_or_a_line_is_shown_without(tmp_path: Path) -> None:
    root = workspace(tmp_path, "a: 1\n")
    nowhere = Finding("archive-busy", Severity.WARN, "Busy.", "Wait.")
    assert shown([nowhere], root) == "warn archive-busy\n  Busy.\n  To mend it: Wait.\n\n1 warn\n"
    for place in (Place(FILE, 99, 1), Place("content/none.yaml", 1, 1), Place("../x", 1, 1), Place("http://x", 1, 1)):
        told = shown([Finding("a", Severity.NOTE, "M.", "R.", place)], root)
        assert told == f"{place}: note a\n  M.\n  To mend it: R.\n\n1 note\n"


def test_the_count_is_by_severity(tmp_path: Path) -> None:
    told = [Finding("a", severity, "M.", "R.") for severity in (Severity.WARN, Severity.STOP, Severity.WARN)]
    assert shown(told, tmp_path).endswith("\n1 stop, 2 warn\n")
    assert shown([], tmp_path) == ""


def test_content_cannot_move_the_cursor_or_change_colours(tmp_path: Path) -> None:
    root = workspace(tmp_path, "a: \x1b[31mred\x1b[0m \x07\tend [bold]not markup[/bold]\n")
    told = shown([finding(1, 4, related=(Related(Place("x\x1b[2J", 1, 1), "\x1b]0;title\x07"),))], root)
    assert "\x1b" not in told
    assert "\x07" not in told
    assert "[bold]not markup[/bold]" in told


def test_a_long_line_is_cut_round_the_column(tmp_path: Path) -> None:
    root = workspace(tmp_path, f"a: {'x' * 5000}HERE{'y' * 5000}\n")
    lines = shown([finding(1, 5004)], root).splitlines()
    excerpt, caret = lines[2], lines[3]
    assert len(excerpt) < 200
    assert excerpt[caret.index("^") :].startswith("HERE")


def test_colours_only_on_a_terminal(tmp_path: Path) -> None:
    root = workspace(tmp_path, "a: 1\n")
    assert "\x1b[" in shown([finding(1, 1)], root, terminal=True)
    assert "\x1b[" not in shown([finding(1, 1)], root)


def test_messages_read_as_sentences_however_a_room_words_them(tmp_path: Path) -> None:
    told = shown([Finding("a", Severity.NOTE, "the hole is too deep", "make it 10 mm deep")], tmp_path)
    assert "  The hole is too deep.\n  To mend it: Make it 10 mm deep.\n" in told
    for message in ("changes.yaml says nothing", "`a` is no name", "handle_bar is thin"):
        assert f"  {message}.\n" in shown([Finding("a", Severity.NOTE, message, "R.")], tmp_path)
    quoted = "It says: \N{LEFT DOUBLE QUOTATION MARK}Stop.\N{RIGHT DOUBLE QUOTATION MARK}"
    assert f"  {quoted}\n" in shown([Finding("a", Severity.NOTE, quoted, "R.")], tmp_path)
