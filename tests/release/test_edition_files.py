"""Which of an edition's files are for buyers of an earlier version."""

from planbook.release.reports.issued import EditionFile

HOME = "versions/tote/2.0/metric"
FILES = (
    f"{HOME}/notices/from-1.0.html",
    f"{HOME}/notices/from-1.0.txt",
    f"{HOME}/sheets/1.svg",
    f"{HOME}/templates/3-rack.pdf",
    f"{HOME}/tote-metric-2.0-from-1.0.pdf",
    f"{HOME}/tote-metric-2.0-supplement.pdf",
)


def test_updates_stand_beside_the_pdf_and_notices_in_their_folder() -> None:
    edition = EditionFile("metric", f"{HOME}/tote-metric-2.0.pdf", 30, 6, 1.0, FILES)
    assert edition.updates == FILES[4:]
    assert edition.notices == (FILES[1],)
