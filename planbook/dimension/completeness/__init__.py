"""Whether a sheet says enough, and nothing twice: printed dimensions as equations over the part's free coordinates.

Only the sheet as written to its file is asked, never the content or what made the sheet.
"""

from planbook.dimension.completeness.check import Adrift, Fault, Implied, Unfixed, check_sheet
from planbook.dimension.completeness.record import SheetRecord, read_sheet_record

__all__ = ["Adrift", "Fault", "Implied", "SheetRecord", "Unfixed", "check_sheet", "read_sheet_record"]
