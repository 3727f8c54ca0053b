"""The content of one plan set as read: typed models with every value's place, nothing evaluated yet."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field

from planbook.source.findings import Place
from planbook.source.models.assembly import AssemblyModel, PositionsModel
from planbook.source.models.calculations import CalculationModel, StackModel
from planbook.source.models.changes import VersionNotesModel
from planbook.source.models.cutting import CuttingModel, FinishUseModel
from planbook.source.models.figures import AnyFigure
from planbook.source.models.fits import FitModel
from planbook.source.models.handbook import PublishedModel
from planbook.source.models.loads import LoadModel
from planbook.source.models.market import CautionModel, HardwareUseModel, MarketModel
from planbook.source.models.page import PageHead, StepHead, TranslationHead
from planbook.source.models.parameters import ParameterModel
from planbook.source.models.part import PartModel
from planbook.source.models.plan_set import SetModel
from planbook.source.models.prices import PricesModel
from planbook.source.models.question import QuestionHead
from planbook.source.models.rules import RuleModel
from planbook.source.text import Text


@dataclass(frozen=True, slots=True)
class Page:
    """A page of prose. `body` is the Markdown after the head; its first line is line `body.place.line` of the file."""

    key: str
    file: str
    head: PageHead
    body: Text


@dataclass(frozen=True, slots=True)
class Step:
    """A build step, in file order; `number` counts from 1."""

    key: str
    number: int
    file: str
    head: StepHead
    body: Text


@dataclass(frozen=True, slots=True)
class Translation:
    """A page, step or question in another language: what stands in the place of the original's words and body."""

    language: str
    original: str
    """The original's file."""
    file: str
    head: TranslationHead
    body: Text


Path = tuple[str, ...]
"""Of a text in a YAML file: the names that lead to it, and of a list the place in it, from 0."""


@dataclass(frozen=True, slots=True)
class Wording:
    """The words of a YAML file in another language.

    `originals` are the files whose words these are: the set's own, and the shared one that it is laid over. `of` is
    the released version that was translated; None for the words of today.
    """

    language: str
    originals: tuple[str, ...]
    file: str
    of: Text | None
    texts: Mapping[Path, Text]


@dataclass(frozen=True, slots=True)
class Question:
    """What a buyer asked. `body` is the answer in Markdown, blank while it is open."""

    key: str
    file: str
    head: QuestionHead
    body: Text

    @property
    def answered(self) -> bool:
        """Whether it has an answer."""
        return bool(self.body.strip())


@dataclass(frozen=True)
class Content:
    """Everything a plan set says. Keys of parts, pages and steps come from file names, hyphens as underscores."""

    key: str
    """Folder name under content/, as in `planbook check KEY`."""
    plan_set: SetModel
    parameters: Mapping[Text, ParameterModel]
    """Flattened: dotted name (a Text with the place of its key) to leaf, in file order; calculations come last."""
    parts: Mapping[str, PartModel]
    """By key, ordered by part number."""
    part_files: Mapping[str, str]
    """Workspace path of each part's file."""
    markets: Mapping[str, MarketModel]
    """The markets that the editions name."""
    hardware: Mapping[Text, HardwareUseModel] = field(default_factory=dict)
    cutting: CuttingModel = field(default_factory=CuttingModel)
    finishing: Mapping[Text, FinishUseModel] = field(default_factory=dict)
    prices: Mapping[str, PricesModel] = field(default_factory=dict)
    """By market, those that an edition names."""
    cautions: Mapping[Text, CautionModel] = field(default_factory=dict)
    """Shared ones, with the set's own laid over."""
    handbook: Mapping[Text, PublishedModel] = field(default_factory=dict)
    """Shared published numbers, by `what.measure`."""
    calculations: Mapping[Text, CalculationModel] = field(default_factory=dict)
    """Each is a parameter too."""
    stacks: Mapping[Text, StackModel] = field(default_factory=dict)
    rules: Mapping[Text, RuleModel] = field(default_factory=dict)
    fits: Mapping[Text, FitModel] = field(default_factory=dict)
    loads: Mapping[Text, LoadModel] = field(default_factory=dict)
    figures: Mapping[Text, AnyFigure] = field(default_factory=dict)
    assembly: AssemblyModel | None = None
    positions: PositionsModel | None = None
    pages: tuple[Page, ...] = ()
    steps: tuple[Step, ...] = ()
    translations: tuple[Translation, ...] = ()
    wordings: tuple[Wording, ...] = ()
    written: Mapping[str, Mapping[Path, Text]] = field(default_factory=dict)
    """By YAML file every text as it stands in it; empty where nothing is translated."""
    questions: tuple[Question, ...] = ()
    """In the order of their names, which is that in which they were asked."""
    changes: Mapping[Text, VersionNotesModel] = field(default_factory=dict)
    folder: str = ""
    """Workspace path of the set's folder (posix), where pictures are looked for."""

    @property
    def prose(self) -> Mapping[str, Page | Step]:
        """Pages and steps by file."""
        every: tuple[Page | Step, ...] = (*self.pages, *self.steps)
        return {each.file: each for each in every}

    @property
    def bodies(self) -> Mapping[str, Page | Step | Question]:
        """The same, and the questions that are answered."""
        return {**self.prose, **{each.file: each for each in self.questions if each.answered}}

    def place_in_part(self, part: str, features: Collection[str] = ()) -> Place:
        """The first of these features in the part's file, else the top of that file."""
        written = (name.place for name in self.parts[part].features if str(name) in features)
        return next(written, Place(self.part_files[part], 1, 1))
