"""A tree against the models: every fault at its place, told without the noise of unions, with a remedy that works."""

import pytest

from planbook.source import forms
from planbook.source.findings import Finding
from planbook.source.models.bores import HoleModel, SlotModel
from planbook.source.models.part import PartModel
from planbook.source.text import Formula
from planbook.source.validation import validate
from planbook.source.yaml_tree import read_tree

PART = """\
number: 11
title: Ramp bar
stock: maple
quantity: 2
size: [bar.length, 60 mm, 1.10 in]
outline: {a: [0 mm, 0 mm], b: {at: [bar.length, 0 mm], round: 3 mm}}
features:
  pivot: {hole: 8 mm, at: [pivot.x, 30 mm], repeat: {count: 3, pitch: 40 mm}}
  track: {slot: 8 mm, start: [0 mm, 0 mm], end: [1 mm, 1 mm], on: back}
"""


def read(text: str, form: object = forms.PART) -> tuple[object, tuple[Finding, ...]]:
    tree, findings = read_tree(text, "f.yaml")
    assert tree is not None, findings
    return validate(form, tree)


def only(text: str, form: object = forms.PART) -> Finding:
    value, findings = read(text, form)
    assert value is None
    (finding,) = findings
    return finding


def told(finding: Finding) -> tuple[str, str]:
    place = finding.place
    assert place is not None
    return finding.code, f"{place.line}:{place.column}"


def test_a_part_is_read_with_its_short_forms() -> None:
    part, findings = read(PART)
    assert findings == ()
    assert isinstance(part, PartModel)
    assert (part.number, part.quantity.as_drawn, part.quantity.mirrored) == (11, 2, 0)
    assert part.outline is not None
    assert part.outline["a"].at == ("0 mm", "0 mm")  # type: ignore[index]
    assert [type(feature) for feature in part.features.values()] == [HoleModel, SlotModel]


def test_values_of_models_keep_their_text_and_place() -> None:
    part, _ = read(PART)
    assert isinstance(part, PartModel)
    thickness = part.size[2]
    assert (type(thickness), thickness, str(thickness.place)) == (Formula, "1.10 in", "f.yaml:5:27")
    assert [str(name.place) for name in part.features] == ["f.yaml:8:3", "f.yaml:9:3"]


@pytest.mark.parametrize(
    ("old", "new", "code", "place", "words"),
    [
        ("title: Ramp bar", "titel: Ramp bar", "key-missing", "1:1", "title"),
        ("number: 11", "number: eleven", "value-kind", "1:9", "number: 1"),
        ("number: 11", "number: 0", "value-range", "1:9", "at least 1"),
        ("number: 11", "number: 1_1", "value-kind", "1:9", "whole number"),
        ("number: 11", "number: 11\nkind: jigg", "value-choice", "2:7", "`jig`"),
        ("number: 11", "number: 11\nsheet: A-1", "value-form", "2:8", "12a"),
        ("quantity: 2", "quantity: 1.5", "value-kind", "4:11", "`1.5`"),
        ("quantity: 2", "quantity: {drawn: 2}", "key-missing", "4:11", "as_drawn: 1"),
        ("1.10 in]", "1.10 in, 3]", "value-kind", "5:7", "a list of 4"),
        ("60 mm, 1.10 in]", "60 mm]", "value-kind", "5:7", "3 values"),
        ("60 mm", "[60 mm]", "value-kind", "5:20", "a measure or a formula"),
        ("size: [bar.length, 60 mm, 1.10 in]", "size: bar.length", "value-kind", "5:7", "[18 mm, 18 mm, 18 mm]"),
        ("a: [0 mm, 0 mm]", "a: [0 mm]", "value-kind", "6:14", "[18 mm, 18 mm]"),
        ("b: {at", "B1: {at", "name-form", "6:28", "`b1`"),
        ("hole: 8 mm", "hoel: 8 mm", "kind-missing", "8:3", "`hole`"),
        ("hole: 8 mm", "hole: 8 mm, slot: 3 mm", "kind-double", "8:3", "`hole` and `slot`"),
        ("hole: 8 mm", "hole: 8 mm, deep: 3 mm", "key-unknown", "8:23", "Did you mean `depth: 3 mm`?"),
        ("at: [pivot.x, 30 mm], ", "", "key-missing", "8:10", "at: [18 mm, 18 mm]"),
        ("count: 3", "count: 1", "value-range", "8:61", "at least 2"),
        ("on: back", "on: bak", "value-choice", "9:67", "Did you mean `back`?"),
        ("  pivot: {", "  2pivot: {", "name-form", "8:3", "`n_2pivot`"),
    ],
)
def test_a_fault_is_told_at_its_place(old: str, new: str, code: str, place: str, words: str) -> None:
    assert old in PART
    _, findings = read(PART.replace(old, new))
    assert (code, place) in [told(finding) for finding in findings]
    finding = next(finding for finding in findings if finding.code == code)
    assert words in f"{finding.message} {finding.remedy}"
    assert "Model" not in finding.message + finding.remedy


def test_all_faults_are_told_at_once() -> None:
    spoilt = PART.replace("stock: maple\n", "").replace("8 mm, at", "8 mm, att").replace("number: 11", "number: x")
    _, findings = read(spoilt)
    assert sorted(finding.code for finding in findings) == ["key-missing", "key-missing", "key-unknown", "value-kind"]


@pytest.mark.parametrize(
    ("feature", "words"),
    [
        ("{notch: [1 mm, 1 mm]}", "`corner`"),
        ("{notch: [1 mm, 1 mm], corner: front_left, edge: left}", "`corner`"),
        ("{notch: [1 mm, 1 mm], edge: left}", "start"),
        ("{notch: [1 mm, 1 mm], corner: front_left, start: 1 mm}", "Delete `start`"),
        ("{tenon: [1 mm, 1 mm, 1 mm], end: front}", "`end: left`"),
        (
            "{hole: 1 mm, at: [0 mm, 0 mm], counterbore: {diameter: 2 mm, depth: 1 mm}, countersink: {diameter: 2 mm}}",
            "",
        ),
        ("{hole: 1 mm, at: [0 mm, 0 mm], method: {how: marked_from}}", "part: NAME"),
        ("{hole: 1 mm, at: [0 mm, 0 mm], method: {how: to_number, part: x}}", "no part"),
    ],
)
def test_values_that_do_not_go_together_are_told(feature: str, words: str) -> None:
    finding = only(f"number: 1\ntitle: a\nstock: b\nquantity: 1\nsize: [a, b, c]\nfeatures:\n  bit: {feature}\n")
    assert finding.code == "values-together"
    assert finding.place is not None
    assert finding.place.line == 7
    assert words in f"{finding.message} {finding.remedy}"


@pytest.mark.parametrize(
    ("form", "text", "code", "place"),
    [
        (forms.CHANGES, "first: {issued: 2026-01-01, summary: x}", "value-form", "1:1"),
        (forms.CHANGES, "1.0: {issued: 1.2.2026, summary: x}", "value-kind", "1:15"),
        (forms.CHANGES, "1.0: {issued: 2026-02-30, summary: x}", "value-kind", "1:15"),
        (forms.CHANGES, "1.0: {issued: 1767225600, summary: x}", "value-kind", "1:15"),
        (forms.RULES, "knee.room: {because: x}", "values-together", "1:1"),
        (forms.RULES, "knee.Room: {require: a, because: x}", "name-form", "1:1"),
        (forms.FIGURES, "lift: {caption: x, alt: y}", "kind-missing", "1:1"),
        (forms.FIGURES, "lift: {elevation: front, chart: a, caption: x, alt: y}", "kind-double", "1:1"),
        (forms.FIGURES, "lift: {elevation: font, caption: x, alt: y}", "value-choice", "1:19"),
        (forms.FIGURES, "lift: {isometric: front, caption: x, alt: y}", "value-choice", "1:19"),
        (forms.FIGURES, "lift: {elevation: front, isometric: front_left, caption: x, alt: y}", "kind-double", "1:1"),
        (forms.FIGURES, "lift: {elevation: front, label: yes, caption: x, alt: y}", "value-kind", "1:33"),
        (forms.FIGURES, "lift: a picture", "kind-missing", "1:1"),
        (forms.PART, "number: 1\ntitle: a\nstock: b\nquantity: 0\nsize: [a, b, c]\n", "values-together", "4:1"),
        (forms.ASSEMBLY, "components: {a: {at: [a, b, c]}}", "values-together", "1:14"),
        (forms.ASSEMBLY, "components: {a: {part: b, at: [a, b, c], axes: [x, -x]}}", "values-together", "1:14"),
        (forms.ASSEMBLY, "components: {a: {part: b, at: [a, b, c], turn: 3 deg}}", "values-together", "1:14"),
        (forms.ASSEMBLY, "components: {a: {part: b, at: [a, b, c], axes: [x, w]}}", "value-choice", "1:52"),
        (forms.ASSEMBLY, "components: [a]", "value-kind", "1:13"),
        (forms.ASSEMBLY, "[a]", "value-kind", "1:1"),
        (forms.HARDWARE, "just words", "value-kind", "1:1"),
        (forms.HARDWARE, "a: {item: b, quantity: 1, spares: many, use: c}", "value-kind", "1:35"),
    ],
)
def test_other_files_are_judged_alike(form: object, text: str, code: str, place: str) -> None:
    assert told(only(text, form)) == (code, place)
