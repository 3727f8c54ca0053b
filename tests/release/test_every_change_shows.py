"""Any single change to a content file shows in the comparison, in the right class, or stops the set."""

from __future__ import annotations

import random
import re
import shutil
from pathlib import Path

import pytest

from planbook.release.compilation import prepare, state_all
from planbook.release.occasion import Occasion
from planbook.source import Door
from planbook.source.findings import stops
from planbook.statement import compare
from planbook.statement.comparison import Kind, Touch
from planbook.statement.model import Statement

WORKSPACE = Path(__file__).parents[2]
SET = "content/tool-tote"
EDITION = "metric"
SAID_ONLY = "changes.yaml"
"""What the author says of versions is not part of what a version tells."""
TOLD_AS = {"assembly.yaml": Kind.FIGURE, "fits.yaml": Kind.FIT, "rules.yaml": Kind.RULE}
"""Files whose measures are on no sheet: what a builder sees of them."""
MEASURE = re.compile(r"\d+(?:\.\d+)? mm")
WORD = re.compile(r"\b[a-z]{5,}\b(?= [a-z])")
FILES = sorted(
    path.relative_to(WORKSPACE).as_posix()
    for path in (WORKSPACE / SET).rglob("*")
    if path.suffix in {".yaml", ".md"} and path.name != SAID_ONLY
)


@pytest.fixture(scope="module")
def root(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("mutated")
    for name in (SET, "shared", "templates"):
        shutil.copytree(WORKSPACE / name, folder / name)
    return folder


@pytest.fixture(scope="module")
def before(root: Path) -> Statement:
    statement = state(root)
    assert statement is not None
    return statement


def state(root: Path) -> Statement | None:
    """What the metric edition tells; None where a finding stops it."""
    door = Door(root)
    prepared, findings = prepare(door, Path(SET).name)
    if prepared is None or stops(findings):
        return None
    told, more = state_all(door, prepared, Occasion("", prepared.content.plan_set.issued, None), (EDITION,))
    return None if stops(more) else told[EDITION].statement


def occurrences(path: Path, pattern: re.Pattern[str]) -> list[re.Match[str]]:
    """Where a file has a measure or a word outside of comments."""
    text = path.read_text(encoding="utf-8")
    bare = re.sub(r"(?m)(?:^|(?<=\s))#.*$", lambda each: " " * len(each[0]), text) if path.suffix == ".yaml" else text
    return [*pattern.finditer(bare)]


def mutated(path: Path, pattern: re.Pattern[str]) -> str:
    """The file with a measure 3 mm longer, or a word spelled backwards; which, is by chance."""
    text = path.read_text(encoding="utf-8")
    each = random.Random(f"{path.name}{pattern.pattern}").choice(occurrences(path, pattern))
    other = f"{float(each[0][:-3]) + 3:g} mm" if pattern is MEASURE else each[0][::-1]
    return text[: each.start()] + other + text[each.end() :]


def after(root: Path, file: str, pattern: re.Pattern[str]) -> Statement | None:
    path = root / file
    text = path.read_text(encoding="utf-8")
    path.write_text(mutated(path, pattern), encoding="utf-8")
    try:
        return state(root)
    finally:
        path.write_text(text, encoding="utf-8")


MEASURED = [file for file in FILES if file.endswith(".yaml") and occurrences(WORKSPACE / file, MEASURE)]
WORDED = [file for file in FILES if occurrences(WORKSPACE / file, WORD)]


@pytest.mark.parametrize("file", MEASURED)
def test_a_measure_that_grew_is_told_as_one(root: Path, before: Statement, file: str) -> None:
    now = after(root, file, MEASURE)
    if now is None:
        return
    comparison = compare(before, now)
    kind = TOLD_AS.get(Path(file).name)
    if kind is None:
        assert comparison.major
    else:
        assert not comparison.major
        assert kind in {change.kind for change in comparison.told}


@pytest.mark.parametrize("file", WORDED)
def test_a_word_that_is_another_is_told_as_words(root: Path, before: Statement, file: str) -> None:
    now = after(root, file, WORD)
    if now is None:
        return
    told = compare(before, now).told
    assert told
    assert {change.touch for change in told} == {Touch.TEXT}
    if file.endswith(".md"):
        assert {change.kind for change in told} <= {Kind.PROSE, Kind.STEP, Kind.LIST}
