"""What rounding does: the part rebuilt from the printed numbers, and the gaps of what mates at their printed limits."""

from planbook.dimension.audit.fineness import is_held_too_closely, is_rounded_out, is_too_fine
from planbook.dimension.audit.fits import Fit, Gap, Measure, Term, gap_of, holds, is_rounded_against
from planbook.dimension.audit.model import Audit, FitAudit, PartAudit
from planbook.dimension.audit.proposing import Proposal, propose
from planbook.dimension.audit.rebuild import Coordinate, rebuild
from planbook.dimension.audit.record import Limits, Number, limits_of, read_numbers
from planbook.dimension.audit.sums import Sum, read_sum

__all__ = [
    "Audit",
    "Coordinate",
    "Fit",
    "FitAudit",
    "Gap",
    "Limits",
    "Measure",
    "Number",
    "PartAudit",
    "Proposal",
    "Sum",
    "Term",
    "gap_of",
    "holds",
    "is_held_too_closely",
    "is_rounded_against",
    "is_rounded_out",
    "is_too_fine",
    "limits_of",
    "propose",
    "read_numbers",
    "read_sum",
    "rebuild",
]
