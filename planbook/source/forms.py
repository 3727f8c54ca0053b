"""Which model each content file has: the one table that reading, schemas and documentation share."""

from __future__ import annotations

from typing import Any

from planbook.source.models.assembly import AssemblyModel, PositionsModel
from planbook.source.models.base import DottedName, Name, Version
from planbook.source.models.calculations import AnyCalculation
from planbook.source.models.changes import VersionNotesModel
from planbook.source.models.cutting import CuttingModel, FinishUseModel
from planbook.source.models.figures import AnyFigure
from planbook.source.models.fits import FitModel
from planbook.source.models.handbook import PublishedModel
from planbook.source.models.loads import LoadModel
from planbook.source.models.market import CautionModel, HardwareUseModel, MarketAdditionsModel, MarketModel
from planbook.source.models.page import PageHead, StepHead, TranslationHead
from planbook.source.models.parameters import ParameterModel
from planbook.source.models.part import PartModel
from planbook.source.models.plan_set import SetModel
from planbook.source.models.prices import PricesModel
from planbook.source.models.question import QuestionHead
from planbook.source.models.rules import RuleModel

SET = SetModel
PART = PartModel
HARDWARE = dict[Name, HardwareUseModel]
CUTTING = CuttingModel
FINISHING = dict[Name, FinishUseModel]
PRICES = PricesModel
CAUTIONS = dict[Name, CautionModel]
RULES = dict[DottedName, RuleModel]
CALCULATIONS = dict[DottedName, AnyCalculation]
FITS = dict[DottedName, FitModel]
LOADS = dict[Name, LoadModel]
FIGURES = dict[Name, AnyFigure]
CHANGES = dict[Version, VersionNotesModel]
ASSEMBLY = AssemblyModel
POSITIONS = PositionsModel
MARKET = MarketModel
HANDBOOK = dict[Name, dict[Name, PublishedModel]]
MARKET_ADDITIONS = MarketAdditionsModel
PAGE_HEAD = PageHead
STEP_HEAD = StepHead
QUESTION_HEAD = QuestionHead
TRANSLATION_HEAD = TranslationHead

PARAMETERS = dict[DottedName, ParameterModel]
"""Written as groups in groups, and read by `parameter_tree`."""

SET_FILES: dict[str, Any] = {
    "set": SET,
    "hardware": HARDWARE,
    "cutting": CUTTING,
    "finishing": FINISHING,
    "cautions": CAUTIONS,
    "calculations": CALCULATIONS,
    "rules": RULES,
    "fits": FITS,
    "loads": LOADS,
    "figures": FIGURES,
    "changes": CHANGES,
    "assembly": ASSEMBLY,
    "positions": POSITIONS,
}
"""Files right in a plan set's folder, by name without `.yaml`."""
SET_FILE_NAMES = frozenset(f"{name}.yaml" for name in (*SET_FILES, "parameters"))
HEADS: dict[str, Any] = {
    "page-head": PAGE_HEAD,
    "step-head": STEP_HEAD,
    "question-head": QUESTION_HEAD,
    "translation-head": TRANSLATION_HEAD,
}
"""Heads of prose files, by the names of their schemas."""
FOLDER_FILES: dict[str, Any] = {
    "part": PART,
    "handbook": HANDBOOK,
    "market": MARKET,
    "market-additions": MARKET_ADDITIONS,
    "prices": PRICES,
}
"""Files that a folder holds several of: parts/, shared/markets/, markets/, prices/."""
SET_FOLDERS: dict[str, str] = {
    "parts": ".yaml",
    "markets": ".yaml",
    "prices": ".yaml",
    "pages": ".md",
    "steps": ".md",
    "questions": ".md",
}
"""Folders of a plan set in which every file has this ending."""
SHARED_CAUTIONS = "shared/cautions.yaml"
SHARED_HANDBOOK = "shared/handbook.yaml"
SHARED_MARKETS = "shared/markets"
"""What several plan sets use."""
