"""The command line itself: usage, streams, exit codes, help. What the commands do is tested in their rooms."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import click
import pytest
from click.testing import CliRunner, Result

from planbook.cli import main
from planbook.release import Checked, Issued
from planbook.source.findings import Finding, Place, Severity

SET = "tool-tote"
FINDING = Finding("unknown-name", Severity.STOP, "There is no `a`.", "Say `b`.", Place("content/x.yaml", 1, 1))


def run(*words: str) -> Result:
    return CliRunner().invoke(main, list(words))


@pytest.fixture
def workspace(tmp_path: Path) -> Path:
    (tmp_path / "content").mkdir()
    return tmp_path


def found(findings: tuple[Finding, ...]) -> object:
    """In the place of check_set: these findings, without compiling."""
    return lambda _door, set_key, _watcher, _pieces: Checked(set_key, findings)


def test_every_command_has_help_with_an_example() -> None:
    assert " ".join(main.commands) == ("start check draft release compare trace find question advisory archive schemas")
    for name in ("", *main.commands):
        words = [name, "--help"] if name else ["--help"]
        told = run(*words)
        assert told.exit_code == 0
        assert "Examples:" in told.stdout
        assert f"planbook {name or 'start'} " in told.stdout.split("Examples:")[1] or name == "schemas"


@pytest.mark.parametrize(
    "words",
    [
        ["polish"],
        ["check"],
        ["check", SET, "--colour"],
        ["release", SET],
        ["compare", SET],
        ["trace", SET],
        ["find", SET],
        ["check", SET, "too", "many"],
    ],
)
def test_wrong_usage_ends_with_2_and_says_so(words: list[str]) -> None:
    outcome = run(*words)
    assert outcome.exit_code == 2
    assert "Error:" in outcome.stderr
    assert outcome.stdout == ""


def test_a_folder_that_is_no_workspace_is_wrong_usage(tmp_path: Path) -> None:
    outcome = run("check", SET, "--workspace", str(tmp_path))
    assert outcome.exit_code == 2
    assert "planbook start" in outcome.stderr


def test_whoever_stands_inside_a_workspace_is_told_which(workspace: Path) -> None:
    outcome = run("check", SET, "--workspace", str(workspace / "content"))
    assert outcome.exit_code == 2
    assert f"Your workspace is {workspace.resolve()}:" in " ".join(outcome.stderr.split())


def test_findings_that_stop_end_with_1(workspace: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("planbook.cli.commands.check.check_set", found((FINDING,)))
    outcome = run("check", SET, "--workspace", str(workspace))
    assert outcome.exit_code == 1
    assert outcome.stdout == ""
    assert "content/x.yaml:1:1: stop unknown-name" in outcome.stderr


def test_findings_that_do_not_stop_end_with_0(workspace: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    warning = Finding("a", Severity.WARN, "M.", "R.")
    monkeypatch.setattr("planbook.cli.commands.check.check_set", found((warning,)))
    outcome = run("check", SET, "--workspace", str(workspace))
    assert outcome.exit_code == 0
    assert "nothing stops it" in outcome.stdout
    assert "1 warn" in outcome.stderr


def test_json_is_one_document_on_stdout_and_people_read_stderr(
    workspace: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("planbook.cli.commands.check.check_set", found((FINDING,)))
    outcome = run("check", SET, "--json", "--workspace", str(workspace))
    assert outcome.exit_code == 1
    assert json.loads(outcome.stdout) == {
        "set": SET,
        "findings": [
            {
                "code": "unknown-name",
                "severity": "stop",
                "edition": "",
                "file": "content/x.yaml",
                "line": 1,
                "column": 1,
                "message": "There is no `a`.",
                "remedy": "Say `b`.",
                "related": [],
            }
        ],
    }
    assert "unknown-name" in outcome.stderr


def test_a_draft_goes_to_build_unless_told_otherwise(workspace: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[object] = []

    def draft_set(
        _door: object,
        set_key: str,
        out: Path,
        edition: str | None,
        _watcher: object,
        supposed: tuple[object, ...],
        pieces: int,
    ) -> Issued:
        asked.append((out, edition, *map(str, supposed), pieces))
        return Issued(set_key, "draft", (), ())

    monkeypatch.setattr("planbook.cli.commands.draft.draft_set", draft_set)
    run("draft", SET, "--workspace", str(workspace))
    run("draft", SET, "--workspace", str(workspace), "--out", "elsewhere", "--edition", "metric")
    run("draft", SET, "--workspace", str(workspace), "--with", "a.b=7 in")
    run("draft", SET, "--workspace", str(workspace), "--pieces", "8")
    own = workspace / "build" / f"{SET}-one-off"
    assert asked == [
        (workspace / "build" / SET, None, 1),
        (Path("elsewhere"), "metric", 1),
        (own, None, "a.b = 7 in", 1),
        (own, None, 8),
    ]


def test_check_says_that_a_change_is_told_of_one_piece(workspace: Path) -> None:
    outcome = run("check", SET, "--workspace", str(workspace), "--with", "a.b=7 in", "--pieces", "8")
    assert outcome.exit_code == 2
    assert "`planbook draft` takes both" in " ".join(outcome.output.split())


def test_start_refuses_a_folder_that_holds_something(tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_text("mine", encoding="utf-8")
    outcome = run("start", str(tmp_path))
    assert outcome.exit_code == 2
    assert [path.name for path in tmp_path.iterdir()] == ["mine.txt"]
    assert run("start", str(tmp_path / "mine.txt")).exit_code == 2


def test_start_makes_a_workspace_with_a_first_version_to_release(tmp_path: Path) -> None:
    folder = tmp_path / "new" / "workshop"
    outcome = run("start", str(folder))
    assert outcome.exit_code == 0
    assert f"planbook draft {SET}" in outcome.stdout
    assert list((folder / "shared" / "markets").glob("*.yaml"))
    changes = (folder / "content" / SET / "changes.yaml").read_text(encoding="utf-8")
    assert changes.count("issued:") == 1
    assert '"1.0":' in changes
    assert not list(folder.rglob(".*"))


def test_the_module_runs_as_the_command() -> None:
    done = subprocess.run([sys.executable, "-m", "planbook", "--version"], capture_output=True, text=True, check=True)
    assert done.stdout.startswith("planbook, version ")


def test_interrupting_ends_quietly_with_130(workspace: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(*_: object) -> Checked:
        raise KeyboardInterrupt

    monkeypatch.setattr("planbook.cli.commands.check.check_set", interrupted)
    outcome = run("check", SET, "--workspace", str(workspace))
    assert outcome.exit_code == 130
    assert outcome.stdout == ""
    assert outcome.stderr.strip() == ""


def test_a_real_interrupt_ends_with_130_and_no_traceback(tmp_path: Path) -> None:
    """A process that signals itself while it checks a set."""
    (tmp_path / "content").mkdir()
    program = (
        "import os, signal, sys\n"
        "signal.signal(signal.SIGINT, signal.default_int_handler)\n"  # a shell ignores it in the background
        "import planbook.cli.commands.check as room\n"
        "room.check_set = lambda *_: os.kill(os.getpid(), signal.SIGINT) or __import__('time').sleep(60)\n"
        "from planbook.cli import main\n"
        "main(['check', 'x', '--workspace', sys.argv[1]])\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program, str(tmp_path)], capture_output=True, text=True, check=False, timeout=60
    )
    assert done.returncode == 128 + signal.SIGINT
    assert "Traceback" not in done.stderr


def test_an_interrupt_while_it_is_loaded_ends_the_same_way() -> None:
    """A process that signals itself at the first of the libraries that the command line loads."""
    program = (
        "import os, signal, sys\n"
        "signal.signal(signal.SIGINT, signal.default_int_handler)\n"  # a shell ignores it in the background
        "class Interrupting:\n"
        "    def find_spec(self, name, *_):\n"
        "        return os.kill(os.getpid(), signal.SIGINT) if name == 'click' else None\n"
        "sys.meta_path.insert(0, Interrupting())\n"
        "from planbook.__main__ import run\n"
        "run()\n"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=False, timeout=60)
    assert (done.returncode, done.stderr) == (128 + signal.SIGINT, "")


@pytest.mark.parametrize("surroundings", [{"NO_COLOR": "1"}, {}])
def test_a_pipe_gets_no_colours_and_no_progress(tmp_path: Path, surroundings: dict[str, str]) -> None:
    (tmp_path / "content").mkdir()
    done = subprocess.run(
        [sys.executable, "-m", "planbook", "check", "none", "--workspace", str(tmp_path)],
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, **surroundings},
    )
    assert done.returncode == 1
    assert "\x1b" not in done.stderr + done.stdout
    assert "none" in done.stderr


def test_schemas_are_written_where_they_are_asked_for(tmp_path: Path) -> None:
    outcome = run("schemas", "--out", str(tmp_path / "a" / "schema"))
    assert outcome.exit_code == 0
    written = sorted((tmp_path / "a" / "schema").glob("*.schema.json"))
    assert [str(path) for path in written] == sorted(outcome.stdout.split())
    assert written
    assert all(json.loads(path.read_text(encoding="utf-8"))["$schema"] for path in written)


def commands(group: click.Group = main) -> Iterator[tuple[str, click.Command]]:
    """All that can be run, those of groups among them."""
    for name, command in group.commands.items():
        if isinstance(command, click.Group):
            yield from commands(command)
        else:
            yield name, command


def test_all_commands_but_start_and_schemas_take_json_and_workspace() -> None:
    for name, command in commands():
        options = {option for each in command.params if isinstance(each, click.Option) for option in each.opts}
        assert name in ("start", "schemas") or {"--json", "--workspace"} <= options


def test_the_next_commands_of_a_start_can_be_pasted_as_they_are(tmp_path: Path) -> None:
    outcome = run("start", str(tmp_path / "other shop"))
    assert outcome.exit_code == 0
    assert f"  cd '{tmp_path / 'other shop'}'" in outcome.stdout


def test_a_folder_that_cannot_be_made_is_said_in_plain_words() -> None:
    outcome = run("start", "/proc/x")
    assert outcome.exit_code == 2
    assert "No workspace can be made at /proc/x" in outcome.stderr
    assert "where you may write" in outcome.stderr


def test_a_finding_in_an_archive_shows_no_line_of_its_file() -> None:
    whole = Finding(
        "archive-damaged", Severity.STOP, "It was altered.", "Bring it back.", Place("versions/a.json", 0, 0)
    )
    assert str(whole.place) == "versions/a.json"
