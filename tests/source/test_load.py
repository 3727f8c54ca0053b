"""Loading a plan set: all its files to one content, and every fault in them as a finding at its place."""

from pathlib import Path

import pytest

from planbook.source import Door, list_sets, load
from planbook.source.findings import Severity
from planbook.source.models.parameters import ParameterModel
from tests.source.workspace import FILES, SET, line_of, load_with, write

ROOT = Path(__file__).parents[2]


def test_a_good_set_loads_whole(tmp_path: Path) -> None:
    content, findings = load_with(tmp_path, {})
    assert findings == ()
    assert content is not None
    assert (content.key, content.folder) == ("stool", SET)
    assert list(content.parts) == ["seat", "long_leg"]
    assert content.part_files["long_leg"] == f"{SET}/parts/long-leg.yaml"
    assert list(content.markets) == ["europe", "north_america"]
    assert [(step.key, step.number) for step in content.steps] == [("cut_the_legs", 1), ("bore", 2)]
    page = content.pages[0]
    assert (page.key, page.body, str(page.body.place)) == ("how_to", "Read *first*.\n", f"{SET}/pages/how-to.md:5:1")


def test_parameters_are_flattened_with_the_places_of_their_names(tmp_path: Path) -> None:
    content, _ = load_with(tmp_path, {})
    assert content is not None
    assert list(content.parameters) == ["make.length", "make.angle", "seat.width", "seat.length"]
    assert [name.place.line for name in content.parameters] == [2, 3, 5, 6]
    width = content.parameters[list(content.parameters)[2]]
    assert isinstance(width, ParameterModel)
    assert width.by_market == {"europe": "300 mm", "north_america": "12 in"}


def test_every_file_read_is_in_the_log(tmp_path: Path) -> None:
    door = write(tmp_path)
    load(door, "stool")
    assert sorted(door.log) == sorted(FILES)


def test_what_is_optional_may_be_missing_or_commented_out(tmp_path: Path) -> None:
    optional = ("hardware", "rules", "assembly", "positions", "changes")
    content, findings = load_with(
        tmp_path, {f"{SET}/{name}.yaml": None for name in optional} | {f"{SET}/changes.yaml": "# none\n\n"}
    )
    assert findings == ()
    assert content is not None
    assert (content.hardware, content.assembly, content.changes) == ({}, None, {})


def test_pages_may_be_numbered_for_their_order(tmp_path: Path) -> None:
    prose = "---\ntitle: T\n---\nText\n"
    content, _ = load_with(tmp_path, {f"{SET}/pages/2-a.md": prose, f"{SET}/pages/10-c.md": prose})
    assert content is not None
    assert [page.key for page in content.pages] == ["a", "c", "how_to"]


def test_steps_are_in_order_of_their_numbers(tmp_path: Path) -> None:
    content, _ = load_with(tmp_path, {f"{SET}/steps/9-first.md": "---\ntitle: T\n---\nText\n"})
    assert content is not None
    assert [step.key for step in content.steps] == ["first", "cut_the_legs", "bore"]


def test_a_set_lays_its_own_market_and_cautions_over_the_shared_ones(tmp_path: Path) -> None:
    own = """\
stock: {board: {kind: board, title: Ash, material: ash, thickness: 41 mm}}
hardware: {nail: {title: N, measures: {}}}
"""
    caution = "dust: {word: notice, title: Mine, text: x}\npinch: {word: danger, title: Pinch, text: y}\n"
    content, findings = load_with(tmp_path, {f"{SET}/markets/europe.yaml": own, f"{SET}/cautions.yaml": caution})
    assert findings == ()
    assert content is not None
    market = content.markets["europe"]
    assert [stock.title for stock in market.stock.values()] == ["Ash"]
    assert sorted(market.hardware) == ["glue", "nail"]
    assert market.drills == ("1 mm", "2 mm")
    assert {key: caution.title for key, caution in content.cautions.items()} == {"dust": "Mine", "pinch": "Pinch"}


def test_a_set_may_bring_a_market_of_its_own(tmp_path: Path) -> None:
    market = FILES["shared/markets/europe.yaml"]
    content, findings = load_with(tmp_path, {"shared/markets/europe.yaml": None, f"{SET}/markets/europe.yaml": market})
    assert findings == ()
    assert content is not None
    assert content.markets["europe"].title == "Europe"


SPOILT = [
    ("set.yaml", "market: europe", "market: eurpe", "market-unknown", "set.yaml:9:98", "`europe`"),
    ("set.yaml", "cover: seat_view", "cover: set_view", "figure-unknown", "set.yaml:12:8", "`seat_view`"),
    ("set.yaml", "cautions: [dust]", "cautions: [dusk]", "caution-unknown", "set.yaml:13:12", "`dust`"),
    ("set.yaml", "editions:\n", "editions: {}\nother:\n", "value-empty", "set.yaml:8:1", "editions: {name:"),
    ("parameters.yaml", "  length: 0.5 mm", "  length: [1, 2]", "parameters-form", "parameters.yaml:2:11", "a list"),
    ("parameters.yaml", "seat:\n", "Seat:\n", "name-form", "parameters.yaml:4:1", "`seat`"),
    ("parameters.yaml", "means:", "meens:", "key-unknown", "parameters.yaml:5:79", "`means: across the grain`"),
    (
        "parameters.yaml",
        "  angle: 0.5 deg",
        "  angle: {means: x}",
        "values-together",
        "parameters.yaml:3:10",
        "is: 18 mm",
    ),
    ("parameters.yaml", "{by_market", "{is: 1 mm, by_market", "values-together", "parameters.yaml:5:10", "both"),
    ("parts/seat.yaml", "stock: board", "stock: bord", "stock-unknown", "parts/seat.yaml:3:8", "`board`"),
    (
        "parts/seat.yaml",
        "depth: 20 mm",
        "method: {how: drilled_with, part: leg}",
        "part-unknown",
        "parts/seat.yaml:7:79",
        "`long_leg`",
    ),
    ("parts/long-leg.yaml", "number: 2", "number: 1", "part-number-twice", "parts/seat.yaml:1:1", "number: 2"),
    ("parts/long-leg.yaml", "number: 2", "number: 2\nsheet: 1", "sheet-number-twice", "parts/long-leg.yaml:2:8", "1a"),
    ("hardware.yaml", "item: glue", "item: gleu", "hardware-unknown", "hardware.yaml:1:14", "`glue`"),
    ("hardware.yaml", "long_leg]", "long_legs]", "part-unknown", "hardware.yaml:1:69", "`long_leg`"),
    ("figures.yaml", "part: seat,", "part: sit,", "part-unknown", "figures.yaml:1:19", "parts/"),
    ("figures.yaml", "[socket]", "[pocket]", "feature-unknown", "figures.yaml:1:37", "`socket`"),
    (
        "figures.yaml",
        "part: seat, emphasise: [socket]",
        "elevation: front, show: [seet]",
        "component-unknown",
        "figures.yaml:1:38",
        "`seat`",
    ),
    (
        "figures.yaml",
        "part: seat, emphasise: [socket]",
        "isometric: front_left, show: [seet]",
        "component-unknown",
        "figures.yaml:1:43",
        "`seat`",
    ),
    (
        "figures.yaml",
        "part: seat, emphasise: [socket]",
        "exploded: front_left, apart: [{move: [seet], by: [0 mm, 0 mm, 9 mm]}]",
        "component-unknown",
        "figures.yaml:1:51",
        "`seat`",
    ),
    (
        "figures.yaml",
        "part: seat, emphasise: [socket]",
        "step: boar",
        "step-unknown",
        "figures.yaml:1:19",
        "`bore`",
    ),
    (
        "figures.yaml",
        "part: seat, emphasise: [socket]",
        "elevation: front, position: stand",
        "position-unknown",
        "figures.yaml:1:41",
        "`standing`",
    ),
    (
        "figures.yaml",
        "part: seat, emphasise: [socket]",
        "picture: photo.png",
        "picture-missing",
        "figures.yaml:1:22",
        "",
    ),
    (
        "figures.yaml",
        "part: seat, emphasise: [socket]",
        "picture: ../../secret.png",
        "path-outside",
        "figures.yaml:1:22",
        "",
    ),
    (
        "figures.yaml",
        "part: seat, emphasise: [socket]",
        "picture: 'https://a.b/c.png'",
        "path-url",
        "figures.yaml:1:23",
        "",
    ),
    (
        "figures.yaml",
        "part: seat, emphasise: [socket]",
        "picture: set.yaml",
        "picture-kind",
        "figures.yaml:1:22",
        ".png",
    ),
    ("assembly.yaml", "part: seat", "part: seet", "part-unknown", "assembly.yaml:2:16", "`seat`"),
    (
        "positions.yaml",
        "driver: seat.width",
        "driver: seat.with",
        "parameter-unknown",
        "positions.yaml:1:9",
        "`seat.width`",
    ),
    (
        "steps/10-cut-the-legs.md",
        "[long_leg]",
        "[log_leg]",
        "part-unknown",
        "steps/10-cut-the-legs.md:3:9",
        "`long_leg`",
    ),
    ("steps/20-bore.md", "[dust]", "[rust]", "caution-unknown", "steps/20-bore.md:4:12", "`dust`"),
    ("steps/20-bore.md", "parts:", "party:", "key-unknown", "steps/20-bore.md:3:1", "`parts`"),
    ("pages/how-to.md", "slot: front\n---", "slot: front", "head-open", "pages/how-to.md:1:1", "---"),
    ("pages/how-to.md", "---\ntitle", "title", "head-missing", "pages/how-to.md:1:1", "---"),
    ("pages/how-to.md", "slot: front", "slot: {front", "yaml-broken", "pages/how-to.md:3:7", "`}`"),
    ("pages/how-to.md", "*first*", "*fi\0rst*", "prose-character", "pages/how-to.md:5:9", ""),
]


@pytest.mark.parametrize("spoilt", SPOILT, ids=lambda spoilt: f"{spoilt[0]}-{spoilt[3]}")
def test_a_fault_in_a_file_stops_and_is_told_once(tmp_path: Path, spoilt: tuple[str, ...]) -> None:
    file, old, new, code, place, words = spoilt
    path = f"{SET}/{file}"
    assert old in FILES[path]
    content, findings = load_with(tmp_path, {path: FILES[path].replace(old, new)})
    assert content is None
    finding = next((each for each in findings if each.code == code), None)
    assert finding is not None, findings
    assert (line_of(finding), finding.severity) == (place, Severity.STOP)
    assert words in f"{finding.message} {finding.remedy}"
    assert len(findings) == 1 or code == "value-empty"


def test_what_only_one_market_lacks_is_told_for_its_edition(tmp_path: Path) -> None:
    market = FILES["shared/markets/north_america.yaml"].replace("{board: {", "{plank: {").replace("glue", "gum")
    content, findings = load_with(tmp_path, {"shared/markets/north_america.yaml": market})
    assert content is None
    assert [(each.code, each.edition) for each in findings] == [
        ("stock-unknown", "inch"), ("stock-unknown", "inch"), ("hardware-unknown", "inch")
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("files", "code", "place"),
    [
        ({"parts/long_leg.yaml": FILES[f"{SET}/parts/long-leg.yaml"]}, "file-name-twice", "parts/long_leg.yaml:1:1"),
        ({"parts/Seat 2.yaml": "a: b\n"}, "file-name", "parts/Seat 2.yaml:1:1"),
        ({"steps/20-saw.md": "---\ntitle: a\n---\n"}, "step-number-twice", "steps/20-saw.md:1:1"),
        ({"steps/saw.md": "---\ntitle: a\n---\n"}, "step-number-missing", "steps/saw.md:1:1"),
        ({"steps/30-bore.md": "---\ntitle: a\n---\n"}, "file-name-twice", "steps/30-bore.md:1:1"),
        ({"set.yaml": None}, "file-missing", "set.yaml:1:1"),
        ({"parameters.yaml": None}, "file-missing", "parameters.yaml:1:1"),
        ({"parameters.yaml": ""}, "yaml-empty", "parameters.yaml:1:1"),
        ({"rules.yaml": ""}, "yaml-empty", "rules.yaml:1:1"),
        ({"parameters.yaml": "- a\n"}, "parameters-form", "parameters.yaml:1:1"),
        ({"rules.yaml": b"\xff"}, "file-not-utf8", "rules.yaml:1:1"),
        ({"rules.yaml": b"a" * 4_000_001}, "file-too-large", "rules.yaml:1:1"),
        ({"assembly.yaml": None, "figures.yaml": "seat_view: {elevation: front, caption: c, alt: a}\n"},
         "assembly-missing", "figures.yaml:1:1"),
    ],
)  # fmt: skip
def test_a_fault_of_files_is_told(tmp_path: Path, files: dict[str, str | bytes | None], code: str, place: str) -> None:
    content, findings = load_with(tmp_path, {f"{SET}/{name}": text for name, text in files.items()})
    assert content is None
    assert (code, place) in [(each.code, line_of(each)) for each in findings]


def test_a_file_that_nothing_reads_is_warned_about(tmp_path: Path) -> None:
    strays = {"rulse.yaml": "a: b\n", "parts/leg.yml": "a: b\n", "pages/notes.txt": "x", "photo.png": "x"}
    content, findings = load_with(tmp_path, {f"{SET}/{name}": text for name, text in strays.items()})
    assert content is not None
    assert [(line_of(each), each.severity) for each in findings] == [
        (f"{name}:1:1", Severity.WARN) for name in ("rulse.yaml", "parts/leg.yml", "pages/notes.txt")
    ]
    assert ["rules.yaml" in findings[0].remedy, "leg.yaml" in findings[1].remedy] == [True, True]


def test_a_file_in_a_folder_that_nothing_reads_is_warned_about(tmp_path: Path) -> None:
    strays = (
        "step/10-cut.md",
        "steps/10-cut/more.md",
        "tables/stock.yaml",
        "translations/de/step/10-cut.md",
        "translations/de/parts/legs/leg.yaml",
    )
    mine = ("notes/for-me.md", "photos/front.png", "parts/photos/leg.png")
    content, findings = load_with(tmp_path, {f"{SET}/{name}": "a: b\n" for name in (*strays, *mine)})
    assert content is not None
    found = {each.place.file.removeprefix(f"{SET}/"): each for each in findings if each.place}
    assert set(found) == set(strays)
    assert {each.code for each in findings} == {"file-stray"}
    assert found["step/10-cut.md"].remedy == f"Did you mean `{SET}/steps/`?"
    assert found["tables/stock.yaml"].remedy == "Delete it, or move it elsewhere."
    assert found["translations/de/step/10-cut.md"].remedy == f"Did you mean `{SET}/translations/de/steps/`?"
    assert (
        found["translations/de/parts/legs/leg.yaml"].remedy == f"Did you mean `{SET}/translations/de/parts/leg.yaml`?"
    )


def test_a_table_of_a_market_that_nobody_asks_for_is_warned_about(tmp_path: Path) -> None:
    market = FILES["shared/markets/europe.yaml"]
    strays = {
        "shared/caution.yaml": "a: b\n",
        "shared/markets/asia.yml": market,
        "shared/markets/europ.yaml": market,
        f"{SET}/markets/north_amerika.yaml": "stock: {}\n",
    }
    content, findings = load_with(tmp_path, dict(strays))
    assert content is not None
    assert [(each.code, each.severity) for each in findings] == [("file-stray", Severity.WARN)] * 4
    assert {each.place.file: each.remedy for each in findings if each.place} == {
        "shared/caution.yaml": "Did you mean `cautions.yaml`?",
        "shared/markets/asia.yml": "Did you mean `asia.yaml`?",
        "shared/markets/europ.yaml": "Did you mean `europe.yaml`?",
        f"{SET}/markets/north_amerika.yaml": "Did you mean `north_america.yaml`?",
    }


def test_what_another_plan_set_asks_for_is_no_stray_and_no_part_of_this_one(tmp_path: Path) -> None:
    market = FILES["shared/markets/europe.yaml"]
    other = FILES[f"{SET}/set.yaml"].replace("market: europe", "market: asia")
    door = write(tmp_path, {"shared/markets/asia.yaml": market, "content/bench/set.yaml": other})
    content, findings = load(door, "stool")
    assert content is not None
    assert findings == ()
    assert "content/bench/set.yaml" not in door.log
    # While the other one cannot be read, nobody knows what it asks for.
    (tmp_path / "content/bench/set.yaml").write_text("title: [", encoding="utf-8")
    assert load(Door(tmp_path, None), "stool")[1] == ()


def test_a_set_without_its_first_file_is_told_what_to_write(tmp_path: Path) -> None:
    remedies = {}
    for name, text in {"nothing": None, "empty": "", "comments": "# soon\n", "words": "soon\n"}.items():
        content, (finding,) = load_with(tmp_path / name, {f"{SET}/set.yaml": text})
        assert content is None
        assert line_of(finding) == "set.yaml:1:1"
        remedies[name] = finding.remedy
    for remedy in remedies.values():
        assert "`title`, `code`" in remedy
        assert "`cautions`" in remedy
    assert not any("delete" in remedy for remedy in remedies.values())
    _, (finding,) = load_with(tmp_path / "ending", {f"{SET}/set.yaml": None, f"{SET}/set.yml": "title: x\n"})
    assert finding.remedy == "Rename `set.yml` to `set.yaml`."


def test_where_there_is_no_plan_set_yet_the_way_to_one_is_told(tmp_path: Path) -> None:
    (tmp_path / "content").mkdir()
    _, (finding,) = load(Door(tmp_path, None), "stool")
    assert (finding.code, "planbook start" in finding.remedy) == ("set-unknown", True)


@pytest.mark.parametrize(
    ("name", "content", "good"),
    [
        ("a.png", b"\x89PNG\r\n\x1a\n...", True),
        ("a.jpg", b"\xff\xd8\xff\xe0...", True),
        ("inner/a.svg", b'<?xml version="1.0"?>\n<svg xmlns="http://www.w3.org/2000/svg"/>', True),
        ("a.png", b"\xff\xd8\xff\xe0...", False),
        ("a.svg", b"<html></html>", False),
        ("a.svg", b'<!DOCTYPE svg [<!ENTITY a "b">]><svg/>', False),
        ("a.gif", b"GIF89a", False),
    ],
)
def test_a_picture_is_what_its_ending_says(tmp_path: Path, name: str, content: bytes, good: bool) -> None:
    figure = f"seat_view: {{picture: {name}, caption: c, alt: a}}\n"
    _, findings = load_with(tmp_path, {f"{SET}/figures.yaml": figure, f"{SET}/{name}": content})
    assert [each.code for each in findings] == ([] if good else ["picture-kind"])


def test_faults_of_several_files_are_told_at_once(tmp_path: Path) -> None:
    _, findings = load_with(
        tmp_path,
        {
            f"{SET}/rules.yaml": "a: [",
            f"{SET}/parts/seat.yaml": "number: 1\n",
            f"{SET}/pages/how-to.md": "no head",
            "shared/markets/europe.yaml": "title: x\n",
        },
    )
    assert {each.place.file for each in findings if each.place} == {
        f"{SET}/rules.yaml", f"{SET}/parts/seat.yaml", f"{SET}/pages/how-to.md", "shared/markets/europe.yaml"
    }  # fmt: skip


def test_a_name_from_a_broken_file_is_no_further_fault(tmp_path: Path) -> None:
    _, findings = load_with(tmp_path, {f"{SET}/parts/seat.yaml": "number: ["})
    assert [each.code for each in findings] == ["yaml-broken"]


def test_plan_sets_are_listed_and_an_unknown_one_is_a_finding(tmp_path: Path) -> None:
    door = write(tmp_path, {"content/empty/readme.txt": "", "content/bench/set.yaml": ""})
    assert list_sets(door) == ("bench", "stool")
    for wrong in ("stol", "../stool", "", "/", "stool/../stool", "http://x"):
        content, (finding,) = load(door, wrong)
        assert content is None
        assert finding.code == "set-unknown"
        assert "`stool`" in finding.remedy


def test_a_set_whose_folder_cannot_name_files_is_refused(tmp_path: Path) -> None:
    door = write(tmp_path, {"content/My Stool/set.yaml": ""})
    content, (finding,) = load(door, "My Stool")
    assert content is None
    assert (finding.code, "`my-stool`" in finding.remedy) == ("set-name", True)


def test_a_folder_that_leads_out_of_the_workspace_is_refused(tmp_path: Path) -> None:
    (tmp_path / "out").mkdir()
    (tmp_path / "out/1-secret.md").write_text("---\ntitle: secret\n---\n")
    door = write(tmp_path / "in", {f"{SET}/steps/10-cut-the-legs.md": None, f"{SET}/steps/20-bore.md": None})
    (tmp_path / "in" / SET / "steps").symlink_to(tmp_path / "out")
    content, findings = load(door, "stool")
    assert content is None
    assert [each.code for each in findings] == ["path-outside"]


@pytest.mark.parametrize("key", list_sets(Door(ROOT)))
def test_the_plan_sets_of_the_repository_load(key: str) -> None:
    content, findings = load(Door(ROOT), key)
    assert findings == ()
    assert content is not None
