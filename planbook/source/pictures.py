"""Pictures that figures name: a file in the plan set's folder that really is what its ending says."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from planbook.source.door import Door, Refused, path_fault
from planbook.source.findings import Finding, Severity
from planbook.source.names import choice_remedy
from planbook.source.text import Text

PNG = b"\x89PNG\r\n\x1a\n"
JPEG = b"\xff\xd8\xff"
TIFF = (b"II*\x00", b"MM\x00*")
"""Little-endian and big-endian (TIFF 6.0, section 2)."""


def check_picture(door: Door, folder: str, name: Text) -> Iterator[Finding]:
    """Findings when the picture is missing, outside the workspace, or no PNG, JPEG, TIFF or SVG file."""
    fault = path_fault(name)
    if fault is not None:
        yield replace(fault, place=name.place)
        return
    path = f"{folder}/{name}"
    try:
        start = door.read_bytes(path)
    except Refused as refused:
        yield _refused(door, folder, name, refused.finding)
        return
    ending = name.rsplit(".", 1)[-1].lower()
    kinds = {
        "png": start.startswith(PNG),
        "jpg": start.startswith(JPEG),
        "jpeg": start.startswith(JPEG),
        "tif": start.startswith(TIFF),
        "tiff": start.startswith(TIFF),
        "svg": _is_svg(start),
    }
    if ending not in kinds:
        yield Finding(
            "picture-kind",
            Severity.STOP,
            f"`{name}` is no picture that can be placed.",
            "Save it as .png, .jpg, .tif or .svg.",
            name.place,
        )
    elif not kinds[ending]:
        yield Finding(
            "picture-kind",
            Severity.STOP,
            f"`{name}` is not what its ending says.",
            f"Save it again as a {ending.upper()} file.",
            name.place,
        )


def _is_svg(content: bytes) -> bool:
    """An SVG file without a document type: entities could make it grow without end."""
    return b"<svg" in content[:2000] and b"<!DOCTYPE" not in content and b"<!ENTITY" not in content


def _refused(door: Door, folder: str, name: Text, finding: Finding) -> Finding:
    """The door's finding, told at the place that names the picture."""
    if finding.code != "file-missing":
        return replace(finding, place=name.place)
    inner = f"{folder}/{name.rsplit('/', 1)[0]}" if "/" in name else folder
    beside = [path.removeprefix(f"{folder}/") for path in door.list_files(inner) if not path.endswith((".yaml", ".md"))]
    return Finding(
        "picture-missing",
        Severity.STOP,
        f"There is no picture `{name}` in the plan set's folder.",
        choice_remedy(name, beside, f"{inner}/") if beside else f"Put it into {inner}/, or correct its name here.",
        name.place,
    )
