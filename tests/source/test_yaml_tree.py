"""YAML to a tree: values as typed, places where an editor shows them, and trouble told in an author's words."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbook.source.findings import Finding
from planbook.source.text import Text
from planbook.source.tree import Group, Node, Series
from planbook.source.yaml_tree import read_tree


def tree_of(text: str) -> Node:
    tree, findings = read_tree(text, "f.yaml")
    assert findings == ()
    assert tree is not None
    return tree


def only(text: str) -> Finding:
    tree, findings = read_tree(text, "f.yaml")
    assert tree is None
    (finding,) = findings
    return finding


def spot(finding: Finding) -> tuple[str, int, int]:
    assert finding.place is not None
    return finding.code, finding.place.line, finding.place.column


@pytest.mark.parametrize(
    "typed",
    [
        "1.10",
        "1:30",
        "yes",
        "no",
        "null",
        "~",
        "0x1F",
        "007",
        "1e3",
        ".inf",
        "2026-05-31",
        "3/4 in",
        "1 1/2 in",
        "12_000",
    ],
)
def test_values_stay_as_typed(typed: str) -> None:
    assert tree_of(f"a: {typed}\nb: [{typed}]\nc: {{d: {typed}}}\n{typed}: e\n") == {
        "a": typed, "b": [typed], "c": {"d": typed}, typed: "e"
    }  # fmt: skip


def test_every_node_and_name_has_its_place() -> None:
    tree = tree_of("top:\n  size: [1 mm, '2 mm']\n")
    assert isinstance(tree, Group)
    top = tree["top"]
    assert isinstance(top, Group)
    size = top["size"]
    assert isinstance(size, Series)
    places = [tree.key("top"), top, top.key("size"), size, size[0], size[1]]
    assert [(node.place.line, node.place.column) for node in places] == [
        (1, 1),
        (2, 3),
        (2, 3),
        (2, 9),
        (2, 10),
        (2, 17),
    ]
    assert isinstance(size[0], Text)


@pytest.mark.parametrize(
    ("typed", "line", "column"),
    [("a: some\n", 1, 4), ("a:   'some'\n", 1, 7), ("a: |\n   some\n", 2, 4), ("a: >-  # so\n\n  some\n", 3, 3)],
)
def test_a_value_starts_where_its_own_text_does(typed: str, line: int, column: int) -> None:
    tree = tree_of(typed)
    assert isinstance(tree, Group)
    assert (tree["a"].place.line, tree["a"].place.column) == (line, column)


def test_places_count_from_the_first_line_given() -> None:
    tree, _ = read_tree("a: b", "f.md", first_line=7)
    assert isinstance(tree, Group)
    assert str(tree.key("a").place) == "f.md:7:1"


@pytest.mark.parametrize(
    ("text", "where"),
    [
        ("a: {is: max(a, b)}", ("comma-split", 1, 9)),
        ("a: [max(a, b), c]", ("comma-split", 1, 5)),
        ("a: {is: min(max(a, b), c), means: x}", ("comma-split", 1, 9)),
        ("a: {is: 3 mm, means: left, where it hangs}", ("comma-split", 1, 22)),
        ("a:\nb: 1", ("value-missing", 1, 1)),
        ("a: {b}", ("value-missing", 1, 5)),
        ("a:\n  -\n  - 1", ("value-missing", 2, 4)),
        ("a: 1\nb: 2\na: 3", ("key-twice", 3, 1)),
        ("a: {b: 1, b: 2}", ("key-twice", 1, 11)),
        ("a: &x 1", ("yaml-alias", 1, 4)),
        ("a: *x", ("yaml-alias", 1, 4)),
        ("a: {<<: b}", ("yaml-alias", 1, 5)),
        ("a: !!str 1", ("yaml-tag", 1, 4)),
        ("a: !python/object:os.system x", ("yaml-tag", 1, 4)),
        ("", ("yaml-empty", 1, 1)),
        ("# only a remark\n", ("yaml-empty", 1, 1)),
        ("---\n", ("yaml-empty", 1, 1)),
        ("a: 1\n---\nb: 1", ("yaml-documents", 2, 1)),
        ("%YAML 1.1\n---\na: 1", ("yaml-directive", 1, 1)),
        ("? [a, b]\n: 1", ("yaml-key", 1, 3)),
        (": 1", ("yaml-key", 1, 1)),
        ("a:\n\tb: 1", ("yaml-tab", 2, 1)),
        ("[" * 60, ("yaml-depth", 1, 51)),
        ("[" * 1_000_000, ("yaml-depth", 1, 51)),
        ("a: 'b", ("yaml-broken", 1, 4)),
        ('a: "b\n\nc: d', ("yaml-broken", 1, 4)),
        ('a: "\\q"', ("yaml-broken", 1, 6)),
        ('a: "\\UFFFFFFFF"', ("yaml-broken", 1, 5)),
        ("a: [1, 2\nb: 3", ("yaml-broken", 1, 4)),
        ("a: {b: 1", ("yaml-broken", 1, 4)),
        ("a: b: c", ("yaml-broken", 1, 5)),
        ("a: 1\n  b: 2", ("yaml-broken", 2, 4)),
        ("a: @b", ("yaml-broken", 1, 4)),
        ("a: %b", ("yaml-broken", 1, 4)),
        ("a: 'b' c", ("yaml-broken", 1, 8)),
        ("  a: 1\n b: 2", ("yaml-broken", 2, 2)),
        ("a: 1\nword\nb: 1", ("yaml-broken", 2, 1)),
        ("a: & b", ("yaml-broken", 1, 4)),
        ("a: b\0", ("yaml-character", 1, 5)),
        ('a: "\\0"', ("yaml-character", 1, 5)),
        ('a: "\\ud800"', ("yaml-character", 1, 5)),
    ],
)
def test_trouble_is_found_where_it_is(text: str, where: tuple[str, int, int]) -> None:
    finding = only(text)
    assert spot(finding) == where
    assert finding.remedy


@pytest.mark.parametrize(
    ("text", "remedy"),
    [
        ("a: {is: max(a, b)}", '"max(a, b)"'),
        ("a: [min(max(a, b), c), d]", '"min(max(a, b), c)"'),
        ("a: {means: left, where it hangs}", 'means: "left, where it hangs"'),
        ("text: note: this", 'text: "note: this"'),
        ("a: {europe: 0,5 mm}", "europe: 0.5 mm."),
        ("a: `b` c", "'`b` c'"),
    ],
)
def test_the_remedy_is_the_authors_own_value_corrected(text: str, remedy: str) -> None:
    assert remedy in only(text).remedy


def test_a_name_that_stands_twice_shows_both_places() -> None:
    finding = only("a:\n  b: 1\n  c: 2\n  b: 3\n")
    assert spot(finding) == ("key-twice", 4, 3)
    assert [str(related.place) for related in finding.related] == ["f.yaml:2:3"]


def test_an_alias_bomb_is_found_before_it_grows() -> None:
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{n}: &a{n} [{', '.join(f'*a{n - 1}' for _ in range(9))}]" for n in range(1, 30)]
    tree, findings = read_tree("\n".join(lines), "f.yaml")
    assert tree is None
    assert {finding.code for finding in findings} == {"yaml-alias"}
    assert len(findings) <= 50


def test_several_faults_of_a_file_are_found_at_once() -> None:
    _, findings = read_tree("a: &x 1\nb:\nb: 2\nc: {is: max(a, b)}\n", "f.yaml")
    assert [finding.code for finding in findings] == ["yaml-alias", "value-missing", "key-twice", "comma-split"]


@given(st.text() | st.text(alphabet="ab:- \n\t[]{},#&*!|>'\"%@`?<~0\\"))
def test_whatever_the_text_the_answer_is_a_tree_or_findings(text: str) -> None:
    tree, findings = read_tree(text, "f.yaml")
    assert (tree is None) == bool(findings)
    lines = text.split("\n")
    for finding in findings:
        assert finding.place is not None
        assert 1 <= finding.place.line <= len(lines)
        assert 1 <= finding.place.column <= len(lines[finding.place.line - 1]) + 1
        assert "expected <" not in finding.message  # a word of the parser's


SCALARS = st.text(alphabet="abcxyz0189./ ()+é–", min_size=1, max_size=12).map(str.strip).filter(bool)
NAMES = st.from_regex(r"[a-z][a-z0-9_]{0,8}", fullmatch=True)
NODES = st.recursive(
    SCALARS,
    lambda inner: st.lists(inner, min_size=1, max_size=3) | st.dictionaries(NAMES, inner, min_size=1, max_size=3),
    max_leaves=12,
)


def written(node: object, indent: int, draw: st.DataObject) -> str:
    """The node as YAML, in block or bracket style by the draw; starts on a new line or after a space."""
    pad = "\n" + " " * indent
    if isinstance(node, str):
        return " " + draw.draw(st.sampled_from([f"'{node}'", f'"{node}"']))
    if draw.draw(st.booleans()):
        return " " + bracketed(node)
    if isinstance(node, list):
        return "".join(f"{pad}-{written(each, indent + 2, draw)}" for each in node)
    assert isinstance(node, dict)
    return "".join(f"{pad}{key}:{written(each, indent + 2, draw)}" for key, each in node.items())


def bracketed(node: object) -> str:
    if isinstance(node, list):
        return "[" + ", ".join(map(bracketed, node)) + "]"
    if isinstance(node, dict):
        return "{" + ", ".join(f"{key}: {bracketed(each)}" for key, each in node.items()) + "}"
    return f"'{node}'"


def texts(node: Node) -> list[Text]:
    if isinstance(node, Text):
        return [node]
    if isinstance(node, Series):
        return [text for each in node for text in texts(each)]
    return [text for key, each in node.items() for text in (key, *texts(each))]


@given(st.dictionaries(NAMES, NODES, min_size=1, max_size=4), st.data())
def test_a_text_has_the_place_at_which_it_stands(document: dict[str, object], data: st.DataObject) -> None:
    text = written(document, 0, data)
    tree = tree_of(text)
    assert tree == document
    lines = text.split("\n")
    for each in texts(tree):
        rest = lines[each.place.line - 1][each.place.column - 1 :]
        assert rest.startswith(each)
