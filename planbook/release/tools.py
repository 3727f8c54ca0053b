"""The programs that a compilation rests on: their versions, and whether its bytes can be made again."""

from __future__ import annotations

import ctypes
import ctypes.util
import platform
from collections.abc import Mapping
from functools import cache
from importlib.metadata import version

from planbook.document import subsetting_is_reproducible
from planbook.source.findings import Finding, Severity

_PACKAGES = (
    "planbook",
    "weasyprint",
    "pydyf",
    "fonttools",
    "jinja2",
    "markdown",
    "matplotlib",
    "numpy",
    "shapely",
    "ezdxf",
    "ruamel.yaml",
    "lark",
    "pydantic",
    "font-source-sans-pro",
    "font-source-serif-pro",
)
"""Those whose output is in the pages or in the numbers."""


@cache
def tool_versions() -> Mapping[str, str]:
    """Name to version of Python, the packages, and the libraries that set text."""
    return {
        "python": platform.python_version(),
        **{name: version(name) for name in _PACKAGES},
        "pango": _library_version("pango-1.0", "pango_version_string"),
        "harfbuzz": _library_version("harfbuzz", "hb_version_string"),
    }


def _library_version(library: str, function: str) -> str:
    """What a C library says of itself; "unknown" when it is not found under its usual name."""
    path = ctypes.util.find_library(library)
    if path is None:
        return "unknown"
    ask = getattr(ctypes.CDLL(path), function)
    ask.restype = ctypes.c_char_p
    return str(ask().decode())


def check_reproducible() -> tuple[Finding, ...]:
    """A finding when this machine would write other PDF bytes on each run."""
    if subsetting_is_reproducible():
        return ()
    return (
        Finding(
            code="pdf-not-reproducible",
            severity=Severity.STOP,
            message="This machine lacks the library harfbuzz-subset: the same content gives another PDF each time.",
            remedy="Install it (Debian, Ubuntu: apt-get install libharfbuzz-subset0) and release again.",
        ),
    )
