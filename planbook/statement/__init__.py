"""What an edition tells the builder: prose, build, file form, comparison with the version before."""

from planbook.statement.asking import part_about, prints_question, question_page
from planbook.statement.changes import Changes, Revision, changed_in, changed_sheets, print_changes
from planbook.statement.changes_lines import Line
from planbook.statement.changes_log import ChangeLog, Heading, log_changes, log_text, tell_changes
from planbook.statement.changes_names import SORTS, groups_of, reason_name, with_sort
from planbook.statement.compare import as_seen, compare
from planbook.statement.comparison import Change, Comparison, Kind, PartVerdict, Touch, Verdict
from planbook.statement.edition import state_edition
from planbook.statement.effects import Effect, effects
from planbook.statement.files import UnreadableError, read_places, read_statement, write_places, write_statement
from planbook.statement.marking import mark_changes
from planbook.statement.marks import Marks, Removed, SheetMark
from planbook.statement.model import Statement
from planbook.statement.places import PlaceOnPage, Places
from planbook.statement.stated import Prose, Stated
from planbook.statement.using import missing_cautions

__all__ = [
    "SORTS",
    "Change",
    "ChangeLog",
    "Changes",
    "Comparison",
    "Effect",
    "Heading",
    "Kind",
    "Line",
    "Marks",
    "PartVerdict",
    "PlaceOnPage",
    "Places",
    "Prose",
    "Removed",
    "Revision",
    "SheetMark",
    "Stated",
    "Statement",
    "Touch",
    "UnreadableError",
    "Verdict",
    "as_seen",
    "changed_in",
    "changed_sheets",
    "compare",
    "effects",
    "groups_of",
    "log_changes",
    "log_text",
    "mark_changes",
    "missing_cautions",
    "part_about",
    "print_changes",
    "prints_question",
    "question_page",
    "read_places",
    "read_statement",
    "reason_name",
    "state_edition",
    "tell_changes",
    "with_sort",
    "write_places",
    "write_statement",
]
