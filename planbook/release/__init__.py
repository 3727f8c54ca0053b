"""Compiling a set, the archive of its releases, and what can be asked of them."""

from planbook.release.across import HeadingAcross, PartAcross
from planbook.release.advising import Advised, add_advisory, read_advised
from planbook.release.checking import check_set
from planbook.release.comparing import compare_set
from planbook.release.drafting import draft_set
from planbook.release.lifting import subject as advisory_subject
from planbook.release.lookup import find
from planbook.release.publishing import release_set
from planbook.release.questions import add_question, list_questions, report_questions
from planbook.release.reports.compared import Compared
from planbook.release.reports.findings import Checked
from planbook.release.reports.issued import Answered, Issued
from planbook.release.reports.traced import Found, Source, Traced
from planbook.release.reports.weighed import Weighed
from planbook.release.starting import start_workspace
from planbook.release.tracing import trace
from planbook.release.verifying import Again, ReleaseVerified, Verified, verify_set
from planbook.release.watching import UNWATCHED, Watcher
from planbook.release.weighing import weigh_set

__all__ = [
    "UNWATCHED",
    "Advised",
    "Again",
    "Answered",
    "Checked",
    "Compared",
    "Found",
    "HeadingAcross",
    "Issued",
    "PartAcross",
    "ReleaseVerified",
    "Source",
    "Traced",
    "Verified",
    "Watcher",
    "Weighed",
    "add_advisory",
    "add_question",
    "advisory_subject",
    "check_set",
    "compare_set",
    "draft_set",
    "find",
    "list_questions",
    "read_advised",
    "release_set",
    "report_questions",
    "start_workspace",
    "trace",
    "verify_set",
    "weigh_set",
]
