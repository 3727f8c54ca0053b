"""The door: what it opens, what it refuses, and what it remembers."""

import hashlib
import os
from collections.abc import Callable
from pathlib import Path

import pytest

from planbook.source import Door, Refused
from planbook.source.door import TEXT_LIMIT


def code_of(read: Callable[[str], object], path: str) -> str:
    with pytest.raises(Refused) as refused:
        read(path)
    assert refused.value.finding.remedy
    return refused.value.finding.code


def test_text_is_read_and_logged_by_its_hash(tmp_path: Path) -> None:
    (tmp_path / "a.txt").write_bytes(b"\xef\xbb\xbfone\r\ntwo\rthree\n")
    door = Door(tmp_path)
    assert door.read_text("a.txt") == "one\ntwo\nthree\n"
    assert dict(door.log) == {"a.txt": hashlib.sha256(b"\xef\xbb\xbfone\r\ntwo\rthree\n").hexdigest()}


def test_a_file_that_changes_meanwhile_is_the_same_when_read_twice(tmp_path: Path) -> None:
    (tmp_path / "a.txt").write_text("old")
    door = Door(tmp_path)
    assert door.read_text("a.txt") == "old"
    (tmp_path / "a.txt").write_text("new")
    assert door.read_bytes("a.txt") == b"old"
    assert door.log["a.txt"] == hashlib.sha256(b"old").hexdigest()


@pytest.mark.parametrize("path", ["../a", "a/../../b", "/etc/passwd", "", ".", "a//b", "a\\..\\b", "a\0b", "x" * 5000])
def test_a_path_that_does_not_stay_inside_is_refused(tmp_path: Path, path: str) -> None:
    door = Door(tmp_path)
    assert code_of(door.read_text, path) in ("path-outside", "file-unreadable")
    assert not door.exists(path)
    assert not door.log


@pytest.mark.parametrize("path", ["https://example.org/a.png", "file:///etc/passwd", "data:text/plain,hello", "C:/a"])
def test_an_address_is_refused(tmp_path: Path, path: str) -> None:
    assert code_of(Door(tmp_path).read_bytes, path) == "path-url"


def test_a_link_may_lead_inside_the_workspace_and_nowhere_else(tmp_path: Path) -> None:
    inside = tmp_path / "inside"
    inside.mkdir()
    (inside / "a.txt").write_text("in")
    (tmp_path / "b.txt").write_text("out")
    (inside / "good.txt").symlink_to("a.txt")
    (inside / "bad.txt").symlink_to("../b.txt")
    (inside / "up").symlink_to("..")
    (inside / "ring").symlink_to("ring")
    door = Door(inside)
    assert door.read_text("good.txt") == "in"
    assert code_of(door.read_text, "bad.txt") == "path-outside"
    assert code_of(door.read_text, "up/b.txt") == "path-outside"
    assert code_of(door.list_files, "up") == "path-outside"
    assert code_of(door.read_text, "ring") == "path-outside"


def test_a_file_of_the_defaults_is_told_from_the_workspace_s_own(tmp_path: Path) -> None:
    root, defaults = tmp_path / "own", tmp_path / "defaults"
    for path in (root / "shared/a.yaml", defaults / "shared/a.yaml", defaults / "shared/b.yaml"):
        path.parent.mkdir(parents=True, exist_ok=True)
        path.touch()
    door = Door(root, defaults)
    assert [door.is_packaged(f"shared/{name}.yaml") for name in "abc"] == [False, True, False]
    assert not Door(defaults, defaults).is_packaged("shared/b.yaml")
    assert not door.is_packaged("../b.yaml")


def test_a_large_text_is_refused_by_its_size_before_it_is_read(tmp_path: Path) -> None:
    with (tmp_path / "a.yaml").open("wb") as file:
        file.truncate(50_000_000)
    assert code_of(Door(tmp_path).read_text, "a.yaml") == "file-too-large"


def test_the_text_limit_holds_for_a_file_read_as_bytes_before(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"a" * (TEXT_LIMIT + 1))
    door = Door(tmp_path)
    assert len(door.read_bytes("a")) == TEXT_LIMIT + 1
    assert code_of(door.read_text, "a") == "file-too-large"


def test_only_ordinary_files_are_opened(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    (tmp_path / "folder").mkdir()
    door = Door(tmp_path)
    assert code_of(door.read_text, "pipe") == "file-kind"
    assert code_of(door.read_text, "folder") == "file-kind"
    assert code_of(door.read_text, "nothing") == "file-missing"
    assert code_of(door.read_text, "nothing/at/all") == "file-missing"


def test_bytes_that_are_no_text_are_placed(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes("ä\nüb".encode() + b"\xff")
    with pytest.raises(Refused) as refused:
        Door(tmp_path).read_text("a")
    finding = refused.value.finding
    assert (finding.code, str(finding.place)) == ("file-not-utf8", "a:2:3")


def test_files_are_listed_in_order_without_hidden_ones_and_folders(tmp_path: Path) -> None:
    for name in ("b.yaml", "a.yaml", ".c.yaml", "d.txt"):
        (tmp_path / name).touch()
    (tmp_path / "sub.yaml").mkdir()
    (tmp_path / "inner").mkdir()
    (tmp_path / "inner/x.yaml").touch()
    door = Door(tmp_path.parent)
    here = tmp_path.name
    assert door.list_files(here, ".yaml") == (f"{here}/a.yaml", f"{here}/b.yaml")
    assert door.list_folders(here) == (f"{here}/inner", f"{here}/sub.yaml")
    assert door.list_files("no-such-folder") == ()


def test_a_file_name_that_is_no_text_is_refused(tmp_path: Path) -> None:
    (tmp_path / "in").mkdir()
    (tmp_path / os.fsdecode(b"in/\xff.yaml")).touch()
    assert code_of(Door(tmp_path).list_files, "in") == "file-name-unprintable"


def test_shared_files_and_templates_fall_back_to_the_defaults(tmp_path: Path) -> None:
    mine, defaults = tmp_path / "mine", tmp_path / "defaults"
    for path, text in (
        (mine / "shared/a", "mine"),
        (defaults / "shared/a", "theirs"),
        (defaults / "shared/b", "theirs"),
        (defaults / "content/c", "theirs"),
        (defaults / "templates/d", "theirs"),
    ):
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)
    door = Door(mine, defaults.resolve())
    assert door.read_text("shared/a") == "mine"
    assert door.read_text("shared/b") == "theirs"
    assert door.exists("templates/d")
    assert door.list_files("shared") == ("shared/a", "shared/b")
    assert code_of(door.read_text, "content/c") == "file-missing"
    assert code_of(door.read_text, "shared/../../a") == "path-outside"
    assert not Door(mine, None).exists("shared/b")


def test_the_packaged_defaults_have_the_tables_and_templates(tmp_path: Path) -> None:
    door = Door(tmp_path)
    assert "shared/markets/europe.yaml" in door.list_files("shared/markets", ".yaml")
    assert door.list_files("templates", ".css")


def test_fonts_are_read_by_file_name_and_logged(tmp_path: Path) -> None:
    door = Door(tmp_path)
    content = door.read_font("SourceSansPro-Regular.otf")
    assert content[:4] == b"OTTO"  # the signature of an OpenType font with CFF outlines (ISO/IEC 14496-22)
    assert door.log["fonts/SourceSansPro-Regular.otf"] == hashlib.sha256(content).hexdigest()
    assert code_of(door.read_font, "../__init__.py") == "font-unknown"
