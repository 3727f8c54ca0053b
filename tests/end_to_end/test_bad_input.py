"""Bad content ends in findings with file, line, column and remedy, exit 1 and nothing written, never in a traceback."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest
from pypdf import PdfReader

SET = "tool-tote"
STRAY_PART = """\
number: 77
title: Stray
stock: sheet_12
quantity: 1
size: [200 mm, 100 mm, stock.sheet_12.thickness]
"""


@dataclass(frozen=True)
class Case:
    """One fault: how it gets into the plan set, and the code and file of the finding that it must give."""

    name: str
    spoil: Callable[[Path], None]
    code: str
    file: str


def append(path: str, text: str) -> Callable[[Path], None]:
    def spoil(folder: Path) -> None:
        target = folder / path
        target.parent.mkdir(parents=True, exist_ok=True)
        before = target.read_text(encoding="utf-8") if target.exists() else ""
        target.write_text(before + text, encoding="utf-8")

    return spoil


def stray(extra: str) -> Callable[[Path], None]:
    return append("parts/stray.yaml", STRAY_PART + extra)


def parameter(text: str) -> Callable[[Path], None]:
    return append("parameters.yaml", f"\nspoilt:\n{text}\n")


def page(text: str) -> Callable[[Path], None]:
    return append("pages/spoilt.md", f"---\ntitle: Spoilt\n---\n# Spoilt\n\n{text}\n")


def reason(text: str) -> Callable[[Path], None]:
    return append("changes.yaml", f'\n"9.0":\n  issued: 2030-01-01\n  summary: Spoilt.\n  reasons:\n    - {text}\n')


def bomb(folder: Path) -> None:
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{i}: &a{i} [{', '.join([f'*a{i - 1}'] * 10)}]" for i in range(1, 30)]
    append("rules.yaml", "\n" + "\n".join(lines) + "\n")(folder)


def huge(folder: Path) -> None:
    with (folder / "parameters.yaml").open("a", encoding="utf-8") as stream:
        line = "# " + "x" * 1021 + "\n"
        for _ in range(50):
            stream.write(line * 1024)


CASES = [
    Case("broken YAML", append("set.yaml", "\nbroken: [1, 2\n"), "yaml-broken", "set.yaml"),
    Case("unknown key", append("set.yaml", "\ncolour: red\n"), "key-unknown", "set.yaml"),
    Case("wrong type", stray("precision: sloppy\n"), "value-choice", "parts/stray.yaml"),
    Case(
        "a reason about nothing",
        reason('{about: "", why: It is about everything.}'),
        "values-together",
        "changes.yaml",
    ),
    Case(
        "a reason about none of several",
        reason("{about: [], why: Nobody reads it.}"),
        "values-together",
        "changes.yaml",
    ),
    Case("duplicate key", stray("title: Again\n"), "key-twice", "parts/stray.yaml"),
    Case(
        "feature outside its part",
        stray("features:\n  far: {hole: 8 mm, at: [900 mm, 50 mm]}\n"),
        "feature-outside-part",
        "parts/stray.yaml",
    ),
    Case(
        "feature deeper than its stock",
        stray("features:\n  deep: {hole: 8 mm, at: [50 mm, 50 mm], depth: 60 mm}\n"),
        "feature-too-deep",
        "parts/stray.yaml",
    ),
    Case(
        "outline that crosses itself",
        stray("outline:\n  a: [0 mm, 0 mm]\n  b: [200 mm, 100 mm]\n  c: [200 mm, 0 mm]\n  d: [0 mm, 100 mm]\n"),
        "outline-crosses-itself",
        "parts/stray.yaml",
    ),
    Case(
        "row of features that leaves its part",
        stray("features:\n  row: {hole: 8 mm, at: [50 mm, 50 mm], repeat: {count: 9, pitch: 30 mm, along: x}}\n"),
        "row-outside-part",
        "parts/stray.yaml",
    ),
    Case(
        "feature that leaves nothing of its part",
        stray("features:\n  all: {notch: [200 mm, 100 mm], corner: rear_left}\n"),
        "part-removed",
        "parts/stray.yaml",
    ),
    Case(
        "feature that splits its part",
        stray("features:\n  gap: {notch: [10 mm, 100 mm], edge: front, start: 90 mm}\n"),
        "part-in-pieces",
        "parts/stray.yaml",
    ),
    Case(
        "wall thinner than is stated",
        stray(
            "least_wall: 3 mm\nfeatures:\n"
            "  a: {hole: 8 mm, at: [50 mm, 50 mm]}\n  b: {hole: 8 mm, at: [60 mm, 50 mm]}\n"
        ),
        "wall-thin",
        "parts/stray.yaml",
    ),
    Case("unknown name", parameter("  one: nowhere.length + 1 mm"), "unknown-name", "parameters.yaml"),
    Case(
        "circle",
        parameter("  one: spoilt.two\n  two: spoilt.three\n  three: spoilt.one"),
        "circular-definition",
        "parameters.yaml",
    ),
    Case("mixed units", parameter("  one: 3 mm + 4 deg"), "mixed-units", "parameters.yaml"),
    Case("division by zero", parameter("  one: 3 mm / (2 - 2)"), "division-by-zero", "parameters.yaml"),
    Case("not finite", parameter("  one: 10^300 * 10^300 * 1 mm"), "not-finite", "parameters.yaml"),
    Case(
        "size that is not positive",
        stray("features:\n  n: {hole: 0 mm, at: [5 mm, 5 mm]}\n"),
        "size-not-positive",
        "parts/stray.yaml",
    ),
    Case(
        "missing picture",
        append("figures.yaml", "\nspoilt: {picture: nowhere.png, caption: None, alt: None}\n"),
        "picture-missing",
        "figures.yaml",
    ),
    Case(
        "path out of the workspace",
        append("figures.yaml", "\nspoilt: {picture: ../../../../etc/passwd, caption: None, alt: None}\n"),
        "path-outside",
        "figures.yaml",
    ),
    Case("page that names no part", page("Cut {{ part.nobody }} first."), "unknown-name", "pages/spoilt.md"),
    Case("bare measure", page("Drill 10 mm deep."), "bare-measure", "pages/spoilt.md"),
    Case("syntax of a page", page("Cut {{ part.nobody first."), "template-syntax", "pages/spoilt.md"),
    Case("Python internals", page("{{ ''.__class__.__mro__ }}"), "forbidden", "pages/spoilt.md"),
    Case("URL", page("![a](https://example.org/a.png)"), "link-in-prose", "pages/spoilt.md"),
    Case("alias bomb", bomb, "yaml-alias", "rules.yaml"),
    Case("50 MB", huge, "file-too-large", "parameters.yaml"),
]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_a_fault_is_a_finding_with_place_and_remedy(case: Case, workspace: Path, planbook, tmp_path: Path) -> None:
    case.spoil(workspace / "content" / SET)
    out = tmp_path / "out"
    outcome = planbook(workspace, ["draft", SET, "--out", str(out)])
    assert outcome.code == 1
    assert not out.exists() or not list(out.rglob("*"))
    found = outcome.findings(case.code)
    assert found, sorted({finding["code"] for finding in outcome.document["findings"]})
    finding = found[0]
    assert finding["file"] == f"content/{SET}/{case.file}"
    assert finding["line"] >= 1
    assert finding["column"] >= 1
    assert finding["message"]
    assert finding["remedy"]
    assert finding["severity"] == "stop"


ODD = """\
  sunk: {part: divider, at: [stock.sheet_19.thickness + divider.at, 20 mm, groove.lift + 40 mm], axes: [y, z]}
  aloft: {part: divider, at: [0 mm, 0 mm, 900 mm]}
"""


def test_what_is_placed_wrongly_is_drawn_and_told(workspace: Path, planbook) -> None:
    append("assembly.yaml", ODD)(workspace / "content" / SET)
    outcome = planbook(workspace, ["check", SET])
    assert outcome.code == 0
    [floats, *_] = outcome.findings("component-floats")
    assert "`aloft`" in floats["message"]
    overlaps = outcome.findings("components-overlap")
    assert any("`divider` and `sunk`" in each["message"] for each in overlaps)
    assert all(each["severity"] == "warn" and each["file"] == f"content/{SET}/assembly.yaml" for each in overlaps)


def test_a_lath_of_six_metres_is_drawn_with_all_its_dimensions(workspace: Path, planbook, tmp_path: Path) -> None:
    lath = STRAY_PART.replace("[200 mm, 100 mm, stock.sheet_12.thickness]", "[6000 mm, 5 mm, 5 mm]")
    holes = "features:\n  a: {hole: 2 mm, at: [1000 mm, 2.5 mm]}\n  b: {hole: 2 mm, at: [5900 mm, 2.5 mm]}\n"
    append("parts/stray.yaml", f"{lath}precision: caliper\n{holes}")(workspace / "content" / SET)
    out = tmp_path / "out"
    outcome = planbook(workspace, ["draft", SET, "--edition", "metric", "--out", str(out)])
    assert outcome.code == 0
    assert not outcome.findings("sheet-crowded")
    assert outcome.findings("larger-than-stock")
    pages = [page.extract_text() for page in PdfReader(next(out.glob("*.pdf"))).pages]
    (sheet,) = [text for text in pages if "Stray" in text and "not to scale" in text]
    for number in ("6000", "5900", "1000", "2.5"):
        assert number in sheet


def test_a_circle_is_shown_whole(workspace: Path, planbook) -> None:
    parameter("  one: spoilt.two\n  two: spoilt.three\n  three: spoilt.one")(workspace / "content" / SET)
    [finding] = planbook(workspace, ["check", SET]).findings("circular-definition")
    for name in ("spoilt.one", "spoilt.two", "spoilt.three"):
        assert name in finding["message"]


def test_a_template_error_is_a_finding(workspace: Path, planbook, tmp_path: Path) -> None:
    """An author may lay own templates over the packaged ones; a slip there has a line too."""
    packaged = Path(__file__).parents[2] / "templates"
    name = sorted(path.name for path in packaged.glob("*.html*"))[0]
    (workspace / "templates").mkdir(exist_ok=True)
    for path in packaged.glob("*.html*"):
        (workspace / "templates" / path.name).write_text("line one\n{% if %}\n", encoding="utf-8")
    outcome = planbook(workspace, ["draft", SET, "--out", str(tmp_path / "out")])
    assert outcome.code == 1
    [finding, *_] = outcome.findings("template")
    assert finding["file"].startswith("templates/")
    assert finding["line"] == 2, name


def test_an_unknown_set_names_the_nearest(workspace: Path, planbook) -> None:
    outcome = planbook(workspace, ["check", "tool-tot"])
    assert outcome.code == 1
    assert any("tool-tote" in finding["message"] + finding["remedy"] for finding in outcome.document["findings"])


def test_wrong_usage_is_exit_2(workspace: Path, planbook) -> None:
    assert planbook(workspace, ["check"]).code == 2
    assert planbook(workspace, ["polish", SET]).code == 2
