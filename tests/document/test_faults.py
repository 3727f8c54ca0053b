"""What an author's own templates, pictures and addresses may do wrong, and what is said about it."""

from __future__ import annotations

import builtins
import io
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from planbook.document import compose, subsetting_is_reproducible
from planbook.document.fetch import FONTS, PICTURES, TEMPLATES, Fetcher, RefusedError
from planbook.document.pictures import PictureError, clean_picture, clean_svg
from planbook.source import Door
from planbook.source.findings import Finding, Place, Severity
from planbook.source.models.figures import PictureModel
from planbook.source.text import Text
from planbook.statement.stated import Stated

from .tote import state

Overriding = Callable[..., tuple[Any, tuple[Finding, ...]]]


@pytest.fixture
def overriding(tmp_path: Path) -> Overriding:
    """Compose the tote in a workspace that has its own copy of some templates."""

    def run(**templates: str) -> tuple[Any, tuple[Finding, ...]]:
        (tmp_path / "templates").mkdir()
        for name, text in templates.items():
            stem, _, ending = name.rpartition("_")
            (tmp_path / "templates" / f"{stem}.{ending}").write_text(text)
        return compose(state(), Door(tmp_path))

    return run


@pytest.mark.parametrize(
    ("template", "line", "words"),
    [
        ("<p>\n{% if %}\n</p>", 2, "Expected an expression"),
        ("<p>\n\n{{ set.titel }}</p>", 3, "'titel'"),
        ("<p>{{ nobody.knows }}</p>", 1, "'nobody' is undefined"),
        ("{{ 1 / 0 }}", 1, "division by zero"),
        ("\n{% include 'nowhere.html' %}", None, "no template nowhere.html"),
        ("\n{{ ''.__class__.__mro__ }}", 2, "__class__"),
    ],
)
def test_a_fault_in_a_template_is_found_at_its_line(
    overriding: Overriding, template: str, line: int | None, words: str
) -> None:
    done, (finding,) = overriding(cover_html=template)
    assert done is None
    assert (finding.code, finding.severity) == ("template", Severity.STOP)
    assert words in finding.message
    assert finding.remedy
    assert finding.place == (None if line is None else Place("templates/cover.html", line, 1))


def test_a_fault_in_a_placed_template_is_reported_once(overriding: Overriding) -> None:
    _, findings = overriding(figure_html="{{ picture }}\n{{ nothing }}")
    assert [finding.place for finding in findings] == [Place("templates/figure.html", 2, 1)]


def test_a_template_that_is_not_text_is_found(tmp_path: Path) -> None:
    (tmp_path / "templates").mkdir()
    (tmp_path / "templates" / "cover.html").write_bytes(b"caf\xe9")
    done, (finding,) = compose(state(), Door(tmp_path))
    assert done is None
    assert finding.code == "file-not-utf8"
    assert finding.place == Place("templates/cover.html", 1, 4)


def test_a_fault_in_the_style_sheet_is_a_note_at_its_place(overriding: Overriding) -> None:
    done, findings = overriding(book_css="body { margin: 0 }\nh1 { colour: red }\n")
    assert done is not None
    assert [(each.code, each.severity, each.place) for each in findings if "colour" in each.message] == [
        ("style-ignored", Severity.NOTE, Place("templates/book.css", 2, 6))
    ]


def test_a_template_cannot_fetch_from_the_network_or_the_machine(overriding: Overriding) -> None:
    done, findings = overriding(
        cover_html='<img src="http://example.com/a.png" alt="a"><img src="file:///etc/hostname" alt="b">'
    )
    assert done is not None
    refused = [finding for finding in findings if finding.code == "failed-url"]
    assert len(refused) == 2
    assert all(finding.severity is Severity.WARN for finding in refused)


@pytest.mark.parametrize(
    "url",
    ["http://example.com/x.png", "file:///etc/passwd", f"{FONTS}../secret.ttf", f"{FONTS}Other.ttf",
     f"{TEMPLATES}../content/set.yaml", f"{TEMPLATES}a/b.svg", f"{PICTURES}other.png", "data:text/plain,x", "ftp://a/b"],
)  # fmt: skip
def test_every_other_address_is_refused(door: Door, url: str) -> None:
    fetcher = Fetcher(door, {"own.png": b"dots"})
    with pytest.raises(RefusedError):
        fetcher.read(url)
    assert fetcher.read(f"{PICTURES}own.png") == b"dots"
    assert fetcher.read(f"{FONTS}SourceSansPro-Regular.ttf")[:4] == b"\0\1\0\0"


def test_a_link_to_nothing_is_a_warning(overriding: Overriding) -> None:
    _, findings = overriding(cover_html='<p><a href="#sheet.99">sheet 99</a></p>')
    assert {(each.code, each.severity) for each in findings} == {("broken-link", Severity.WARN)}


def test_letters_that_the_fonts_lack_are_named(overriding: Overriding) -> None:
    _, findings = overriding(cover_html="<p>\N{CJK UNIFIED IDEOGRAPH-6728}</p>")
    assert any(each.code == "missing-glyph" and "\N{CJK UNIFIED IDEOGRAPH-6728}" in each.message for each in findings)


def test_missing_system_libraries_are_a_finding_with_the_line_that_installs_them(
    monkeypatch: pytest.MonkeyPatch, door: Door
) -> None:
    honest = builtins.__import__

    def failing(name: str, *rest: Any, **named: Any) -> Any:
        if name.startswith("weasyprint"):
            raise OSError("cannot load library 'libpango-1.0-0'")
        return honest(name, *rest, **named)

    monkeypatch.setattr(builtins, "__import__", failing)
    done, (finding,) = compose(state(), door)
    assert done is None
    assert finding.severity is Severity.STOP
    assert "libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0" in finding.remedy
    assert not subsetting_is_reproducible()


def test_a_full_disk_while_pages_are_set_is_a_finding(overriding: Overriding, monkeypatch: pytest.MonkeyPatch) -> None:
    """Fonts are laid down as files for the while."""

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    composed, findings = overriding()
    assert composed is None
    [finding] = [each for each in findings if each.severity is Severity.STOP]
    assert finding.code == "pages-without-room"
    assert "No space left on device" in finding.message
    assert "TMPDIR" in finding.remedy


def test_subsetting_without_harfbuzz_is_noticed(monkeypatch: pytest.MonkeyPatch) -> None:
    assert subsetting_is_reproducible()
    monkeypatch.setattr(sys.modules["weasyprint.text.ffi"], "harfbuzz_subset", None)
    assert not subsetting_is_reproducible()


def with_picture(name: str, place: Place) -> Stated:
    """The tote with a picture file in the place of the part figure."""
    stated = state()
    figures = dict(stated.content.figures)
    figures[Text("face")] = PictureModel(picture=Text(name, place), caption=Text("c"), alt=Text("a"))
    return replace(stated, content=replace(stated.content, figures=figures))


def photograph(kind: str = "JPEG") -> bytes:
    image = Image.new("RGB", (60, 40), "#805020")
    exif = Image.Exif()
    exif[0x010F] = "Secret Camera"
    exif.get_ifd(0x8825)[2] = (51.0, 30.0, 0.0)  # where it was taken
    exif[0x0112] = 6  # lying on its side
    target = io.BytesIO()
    image.save(target, kind, exif=exif, comment=b"made by a person")
    return target.getvalue()


def workspace(root: Path, name: str, data: bytes) -> Door:
    folder = root / "content" / "tote"
    folder.mkdir(parents=True)
    (folder / name).write_bytes(data)
    return Door(root)


def test_a_photograph_is_shown_without_what_it_says_about_itself(tmp_path: Path) -> None:
    data = photograph()
    assert b"Secret Camera" in data
    door = workspace(tmp_path, "bench.jpg", data)
    done, findings = compose(with_picture("bench.jpg", Place("content/tote/figures.yaml", 3, 5)), door)
    assert findings == ()
    assert done is not None
    assert b"Secret Camera" not in done.pdf
    assert "content/tote/bench.jpg" in door.log
    cleaned = clean_picture("bench.jpg", data)
    for secret in (b"Secret", b"Exif", b"made by a person"):
        assert secret not in cleaned.data
    with Image.open(io.BytesIO(cleaned.data)) as image:
        assert image.size == (40, 60)


@pytest.mark.parametrize(
    ("name", "data", "words"),
    [
        ("other.png", b"", "There is no picture content/tote/absent.png"),
        ("absent.png", b"not a picture", "cannot be read as a PNG, JPEG or TIFF picture"),
        ("absent.png", photograph()[:200], "cannot be read as a PNG, JPEG or TIFF picture"),
        ("absent.png", b"<svg/>", "cannot be read"),
    ],
)
def test_a_picture_that_cannot_be_shown_is_found_where_it_is_named(
    tmp_path: Path, name: str, data: bytes, words: str
) -> None:
    place = Place("content/tote/figures.yaml", 12, 12)
    done, (finding,) = compose(with_picture("absent.png", place), workspace(tmp_path, name, data))
    assert done is None
    assert words in finding.message
    assert finding.place == place


def test_an_enormous_picture_is_refused() -> None:
    target = io.BytesIO()
    Image.new("1", (20_000, 20_000)).save(target, "PNG")
    with pytest.raises(PictureError):
        clean_picture("large.png", target.getvalue())


HOSTILE = b"""<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" onload="evil()">
<title>old</title><script>evil()</script><style>@import url(http://example.com/a.css)</style>
<foreignObject><p>words</p></foreignObject><image xlink:href="file:///etc/passwd"/>
<a href="http://example.com"><rect/></a><use xlink:href="http://example.com/x.svg#a"/><use href="#own"/>
<rect id="own" fill="url(#ramp)" style="fill:url(http://example.com)" width="10" height="10"/></svg>"""


def test_an_svg_keeps_its_shapes_and_loses_all_that_acts_or_reaches_out() -> None:
    svg = clean_svg(HOSTILE).decode()
    for gone in ("evil", "example.com", "passwd", "foreignObject", "script", "import"):
        assert gone not in svg
    assert 'href="#own"' in svg
    assert 'fill="url(#ramp)"' in svg


@pytest.mark.parametrize(
    "data",
    [b'<!DOCTYPE svg [<!ENTITY a "b">]><svg xmlns="http://www.w3.org/2000/svg"/>', b"<svg", b"<html/>", b""],
)
def test_what_is_no_plain_svg_is_refused(data: bytes) -> None:
    with pytest.raises(PictureError):
        clean_svg(data)
