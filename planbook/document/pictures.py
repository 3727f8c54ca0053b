"""Pictures from a plan set's folder, made safe to publish: no place where a photograph was taken, nothing that runs."""

from __future__ import annotations

import io
import re
import xml.etree.ElementTree as ET
from dataclasses import dataclass
from pathlib import PurePosixPath
from typing import Final

from PIL import Image, ImageOps, UnidentifiedImageError

_SVG: Final = "{http://www.w3.org/2000/svg}"
_XLINK_HREF: Final = "{http://www.w3.org/1999/xlink}href"
_DRAWN: Final = frozenset({
    "svg", "g", "defs", "symbol", "use", "path", "rect", "circle", "ellipse", "line", "polyline", "polygon", "text",
    "tspan", "clipPath", "mask", "pattern", "marker", "linearGradient", "radialGradient", "stop", "title",
    "desc", "style",
})  # fmt: skip
_ACTIVE_STYLE: Final = re.compile(r"@import|expression\s*\(|javascript:|\\|url\(\s*['\"]?(?!#)", re.IGNORECASE)
_LONGEST_SIDE: Final = 2400
"""Pixels: 300 dots per inch over a full page width and a margin."""


class PictureError(ValueError):
    """A picture that cannot be shown; the message says why in words for the author."""


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture's bytes and the file name ending that tells their kind."""

    data: bytes
    ending: str


def clean_picture(path: str, data: bytes) -> Picture:
    """The picture without metadata, scripts and references; raises PictureError."""
    if PurePosixPath(path).suffix.lower() == ".svg":
        return Picture(clean_svg(data), ".svg")
    return _clean_bitmap(data)


def _clean_bitmap(data: bytes) -> Picture:
    """Decoded and written anew, upright, so that nothing but its dots is left."""
    try:
        with Image.open(io.BytesIO(data), formats=("PNG", "JPEG", "TIFF")) as image:
            photograph = image.format == "JPEG"
            upright = ImageOps.exif_transpose(image)
            upright.thumbnail((_LONGEST_SIDE, _LONGEST_SIDE))
            bare = upright.convert("RGB" if photograph or "A" not in upright.getbands() else "RGBA")
    except UnidentifiedImageError as error:
        raise PictureError("it cannot be read as a PNG, JPEG or TIFF picture") from error
    except (OSError, SyntaxError, ValueError, Image.DecompressionBombError) as error:
        raise PictureError(f"it cannot be read as a PNG, JPEG or TIFF picture ({error})") from error
    # A new image carries none of the old one's metadata, whatever the format calls it.
    fresh = Image.frombytes(bare.mode, bare.size, bare.tobytes())
    target = io.BytesIO()
    if photograph:
        fresh.save(target, "JPEG", quality=88, optimize=True)
    else:
        fresh.save(target, "PNG", optimize=True)
    return Picture(target.getvalue(), ".jpg" if photograph else ".png")


def clean_svg(data: bytes) -> bytes:
    """An SVG's shapes and words; scripts, links, foreign elements and outside references are left out."""
    if re.search(rb"<!(DOCTYPE|ENTITY)", data, re.IGNORECASE):
        raise PictureError("it declares a document type or entities; save it as plain SVG")
    try:
        root = ET.fromstring(data)
    except ET.ParseError as error:
        raise PictureError(f"it is not well-formed XML ({error})") from error
    if root.tag != f"{_SVG}svg":
        raise PictureError("its first element is not <svg>")
    _strip(root)
    ET.register_namespace("", _SVG.strip("{}"))
    ET.register_namespace("xlink", "http://www.w3.org/1999/xlink")
    return ET.tostring(root)


def _strip(element: ET.Element) -> None:
    for child in list(element):
        if child.tag.removeprefix(_SVG) not in _DRAWN or (_is_style(child) and _ACTIVE_STYLE.search(child.text or "")):
            element.remove(child)
        else:
            _strip(child)
    for name, value in list(element.attrib.items()):
        local = name.rpartition("}")[2].lower()
        outside = local == "href" and not value.startswith("#")
        if local.startswith("on") or outside or (name != _XLINK_HREF and _ACTIVE_STYLE.search(value)):
            del element.attrib[name]


def _is_style(element: ET.Element) -> bool:
    return element.tag == f"{_SVG}style"
