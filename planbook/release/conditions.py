"""What must hold before a set is released, beyond what every check asks for."""

from __future__ import annotations

from planbook.release.tools import check_reproducible
from planbook.release.version import Version, meant_version, read_version
from planbook.source.content import Content
from planbook.source.findings import Finding, Severity
from planbook.statement import missing_cautions


def check_conditions(content: Content) -> tuple[Finding, ...]:
    """Cautions, and PDF bytes that can be made again."""
    return (*missing_cautions(content), *check_reproducible())


def read_wanted(text: str) -> tuple[Version | None, tuple[Finding, ...]]:
    """The version number that a person typed."""
    version = read_version(text)
    if version:
        return version, ()
    meant = meant_version(text)
    return None, (
        Finding(
            code="version-malformed",
            severity=Severity.STOP,
            message=f"`{text}` is not a version number: that is two whole numbers with a dot between them.",
            remedy=f"Did you mean `{meant}`?" if meant else "Give one such as 1.0 or 2.1.",
        ),
    )
