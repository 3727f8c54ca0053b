"""A handful of names, as an edition in inches would have them."""

from planbook.measure.dimensionality import ANGLE, LENGTH
from planbook.measure.printed import Printed
from planbook.source.findings import Place
from planbook.source.text import Text
from planbook.statement.prose import Line, Named, Names, Sort, caution

INCH = 25_400_000.0


def quantity(path, mark, printed, dimensionality=LENGTH):
    return Named(path, Sort.QUANTITY, mark, printed=printed, dimensionality=dimensionality)


def inches(path, text, other, value, mark=None):
    return quantity(path, mark or f"parameter:{path}", Printed(text, other, value * INCH, "in", "mm"))


NAMED = (
    inches("ramp.rise", "3", "76", 3),
    inches("ramp.run", "12 1/2", "318", 12.5),
    inches("top.length", "59", "1499", 59),
    quantity("ramp.slope", "parameter:ramp.slope", Printed("13.5", "", 13.5, "°"), ANGLE),
    inches("stock.sheet_19.thickness", "23/32", "18", 23 / 32),
    inches("hardware.bolt_6.clearance", "9/32", "7", 9 / 32),
    Named("hardware.bolt_6.title", Sort.WORDS, plain="1/4-20 hex bolt"),
    inches("dim.ramp_bar.pivot.diameter", "1/4", "6", 0.25, "dimension:ramp_bar/pivot/diameter"),
    inches("dim.ramp_bar.outline.heel.x", "5", "127", 5, "dimension:ramp_bar/outline.heel/x"),
    Named("part.ramp_bar", Sort.LINK, "part.ramp_bar", "ramp bar (part 11)"),
    Named("sheet.ramp_bar", Sort.LINK, "sheet.11", "sheet 11", paged=True),
    Named("page.how_to", Sort.LINK, "page.how_to", "How to use the plans", paged=True),
    Named("step.frames", Sort.LINK, "step.frames", "step 3", paged=True),
    Named("see.lift", Sort.SEE, "figure.lift", paged=True),
    Named("see.stowed", Sort.SEE, "figure.stowed", paged=True),
    Named("see.hardware", Sort.LINK, "table.hardware", "hardware list", paged=True),
    Named("figure.lift", Sort.FIGURE, "lift", "The lift."),
    Named("figure.stowed", Sort.FIGURE, "stowed", "The desk, stowed."),
    Named("table.hardware", Sort.TABLE, "hardware"),
    caution("pinch", "warning", "Pinch", Line("Keep fingers out.", "Keep fingers out.", frozenset())),
)
EDITION = {"edition.units": "inch", "edition.market": "north_america", "edition.name": "imperial"}
NAMES = Names({named.path: named for named in NAMED}, EDITION)


def text(body, line=1, column=1):
    return Text(body, Place("pages/test.md", line, column))
