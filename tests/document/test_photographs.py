"""Photographs in the PDF: nothing of what a camera adds, and the version that they show."""

from __future__ import annotations

import io
from dataclasses import replace
from pathlib import Path

import pytest
from PIL import Image
from pypdf import PdfReader

from planbook.document import compose
from planbook.document.pictures import clean_picture
from planbook.source import Door
from planbook.source.models.figures import PictureModel, ShowsModel
from planbook.source.text import Text

from .readback import page_texts
from .tote import state

# Exif 2.32, table 4: ImageDescription is tag 0x010E, the GPS directory 0x8825; in that 1 and 2 are the latitude.
DESCRIPTION, GPS, LATITUDE_REF, LATITUDE = 0x010E, 0x8825, 1, 2
SECRET = "kitchen of the maker"
COMMENT = "taken at home"


def photograph(kind: str) -> bytes:
    """A picture with a description and the place where it was taken, as cameras write them."""
    image = Image.new("RGB", (64, 48), (180, 120, 60))
    exif = Image.Exif()
    exif[DESCRIPTION] = SECRET
    exif.get_ifd(GPS)[LATITUDE_REF] = "N"
    exif.get_ifd(GPS)[LATITUDE] = (58.0, 26.0, 13.0)
    target = io.BytesIO()
    image.save(target, kind, exif=exif, **({"comment": COMMENT.encode()} if kind == "JPEG" else {}))
    return target.getvalue()


@pytest.fixture(params=[("JPEG", "jpg"), ("PNG", "png"), ("TIFF", "tif")], ids=lambda each: each[0])
def taken(request: pytest.FixtureRequest) -> tuple[bytes, str]:
    kind, ending = request.param
    return photograph(kind), ending


def test_the_sample_does_hold_what_must_not_be_published(taken: tuple[bytes, str]) -> None:
    with Image.open(io.BytesIO(taken[0])) as image:
        assert image.getexif()[DESCRIPTION] == SECRET
        # Pillow writes no directory of places into a TIFF file; its description stands for all that is in one.
        assert taken[1] == "tif" or image.getexif().get_ifd(GPS)[LATITUDE] == (58.0, 26.0, 13.0)


def test_a_photograph_in_the_pdf_has_lost_its_place_and_words(taken: tuple[bytes, str], tmp_path: Path) -> None:
    data, ending = taken
    folder = tmp_path / "content" / "tote"
    folder.mkdir(parents=True)
    (folder / f"bench.{ending}").write_bytes(data)
    stated = state()
    shows = ShowsModel(version=Text("1.0"), parts=(Text("side"),))
    model = PictureModel(picture=Text(f"bench.{ending}"), shows=shows, caption=Text("The bench"), alt=Text("A bench."))
    figures = {**stated.content.figures, Text("face"): model}
    face = replace(stated.statement.figures["face"], caption="The bench", shows_version="1.0")
    told = {**stated.statement.figures, "face": face}
    done, findings = compose(
        replace(
            stated,
            content=replace(stated.content, figures=figures),
            statement=replace(stated.statement, figures=told),
        ),
        Door(tmp_path),
    )
    assert done is not None, findings
    reader = PdfReader(io.BytesIO(done.pdf))
    every = {image.name: image for page in reader.pages for image in page.images}
    pictures = [image for image in every.values() if image.image and image.image.size == (64, 48)]
    assert len(pictures) == 1
    assert pictures[0].image is not None
    assert not pictures[0].image.getexif()
    everything = (
        done.pdf
        + b"".join(
            each.get_data() if hasattr(each, "get_data") else b""
            for each in (reader.get_object(number) for number in range(1, len(reader.xref[0]) + 1))
        )
        + b"".join(image.data for image in pictures)
    )
    for trace in (SECRET, COMMENT, "Exif"):
        assert trace.encode() not in everything
    assert any("The bench. As built from version 1.0." in " ".join(text.split()) for text in page_texts(done.pdf))


def test_a_picture_with_a_colour_is_not_lost_with_its_metadata(taken: tuple[bytes, str]) -> None:
    data, ending = taken
    cleaned = clean_picture(f"bench.{ending}", data)
    assert SECRET.encode() not in cleaned.data
    with Image.open(io.BytesIO(cleaned.data)) as image:
        red, green, blue = image.convert("RGB").getpixel((30, 20))  # type: ignore[misc]
    assert max(abs(red - 180), abs(green - 120), abs(blue - 60)) <= 4
