"""A workspace of its own for each test: the packaged plan set, as `planbook start` writes it."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from planbook.cli import main


@dataclass(frozen=True)
class Outcome:
    """What a command gave: exit code, the JSON document of stdout (None when it is not JSON), and both streams."""

    code: int
    document: Any
    stdout: str
    stderr: str

    def findings(self, code: str) -> list[dict[str, Any]]:
        return [finding for finding in self.document["findings"] if finding["code"] == code]


Run = Callable[[Path, Sequence[str]], Outcome]


def run_planbook(workspace: Path, words: Sequence[str]) -> Outcome:
    """Run one command with --json in `workspace`; an exception that leaves the program fails the test."""
    result = CliRunner().invoke(main, [*words, "--json", "--workspace", str(workspace)])
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    try:
        document = json.loads(result.stdout)
    except json.JSONDecodeError:
        document = None
    return Outcome(result.exit_code, document, result.stdout, result.stderr)


@pytest.fixture
def planbook() -> Run:
    return run_planbook


@pytest.fixture
def workspace(tmp_path: Path) -> Path:
    folder = tmp_path / "workshop"
    result = CliRunner().invoke(main, ["start", str(folder)])
    assert result.exit_code == 0, result.output
    return folder
