"""Whatever stands in the files, loading answers with findings and never raises."""

from pathlib import Path
from tempfile import TemporaryDirectory

from hypothesis import given, settings
from hypothesis import strategies as st

from planbook.source import load
from tests.source.workspace import FILES, write

PIECES = [*"{}[]:\n\t'\"|>#,\0%@a()é\u2028\x85", ": ", "- ", "  ", "&a ", "*a", "!x ", "? ", "---\n", "<<", "{}", "[]"]
PIECES += ["null", "true", "-1", "1e999", "9" * 30, "../", "http://x"]
CUTS = st.lists(st.tuples(st.integers(0, 2000), st.integers(0, 12), st.sampled_from(PIECES)), min_size=1, max_size=4)


def spoilt(text: str, cuts: list[tuple[int, int, str]]) -> str:
    for start, length, piece in cuts:
        at = start % (len(text) + 1)
        text = text[:at] + piece + text[at + length :]
    return text


def load_anyhow(path: str, content: bytes) -> None:
    with TemporaryDirectory() as folder:
        loaded, findings = load(write(Path(folder), {path: content}), "stool")
    assert loaded is not None or findings
    for finding in findings:
        assert finding.message
        assert finding.remedy
        assert finding.place is not None
        assert finding.place.line >= 1
        assert finding.place.column >= 1
        assert not any(word in finding.message for word in ("Traceback", "ruamel", "pydantic", "Model", "__"))


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(sorted(FILES)), st.binary(max_size=200))
def test_any_bytes_at_all(path: str, content: bytes) -> None:
    load_anyhow(path, content)


@settings(max_examples=250, deadline=None)
@given(st.sampled_from(sorted(FILES)), CUTS)
def test_a_good_file_spoilt_anywhere(path: str, cuts: list[tuple[int, int, str]]) -> None:
    load_anyhow(path, spoilt(FILES[path], cuts).encode())
