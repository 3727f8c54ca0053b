"""How the content stands to what was released: the number that is due, and what changes.yaml has to say of it."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from planbook.release.archive.reader import Release, list_versions
from planbook.release.compilation import Told
from planbook.release.lifting import check_lifts
from planbook.release.look import looks_as_in
from planbook.release.notes import check_kept, notes_of, warn_of_notes
from planbook.release.numbering import Compared, Due, number_due
from planbook.release.occasion import Occasion
from planbook.release.reasons import check_explained, check_reasons
from planbook.release.remedies import check_remedies
from planbook.source.content import Content
from planbook.source.findings import Finding, Severity


def due_after(root: Path, former: Release, told: Mapping[str, Told]) -> Due:
    """The number that may follow a release with what every edition tells now."""
    return number_due(former.version, compared(former, told), same_look=looks_as_in(root, former.record))


def compared(former: Release, told: Mapping[str, Told]) -> Compared:
    """Every edition of the release and of the content; None for one that only one of them has."""
    return {
        **{edition: one.since for edition, one in told.items()},
        **{edition: None for edition in former.statements if edition not in told},
    }


def check_standing(root: Path, content: Content, occasion: Occasion, told: Mapping[str, Told]) -> tuple[Finding, ...]:
    """What check and draft say of changes.yaml. Of all editions only: one by itself cannot tell what is due.

    Another look of the pages asks for no notes: new versions of the programs are not the author's doing.
    """
    former = occasion.former
    findings = check_kept(content, list_versions(root, content.key), Severity.WARN)
    findings += check_lifts(content, occasion.advisories)
    if set(told) < set(map(str, content.plan_set.editions)):
        return findings
    due = number_due(former.version, compared(former, told), same_look=True) if former else None
    notes = notes_of(content, due.version) if due and due.version else None
    remedies = check_remedies(told, content, notes, Severity.WARN)
    explained = check_explained(told, notes[0], Severity.WARN) if notes else ()
    return findings + check_reasons(told) + explained + warn_of_notes(content, former, due) + remedies
