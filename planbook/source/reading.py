"""Reading the files of a plan set one by one into typed content, collecting what is wrong in each."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any, TypeVar

from planbook.source import forms
from planbook.source.content import Content, Page, Question, Step, Translation, Wording
from planbook.source.door import Door, Refused
from planbook.source.expected import whole_file
from planbook.source.file_names import check_step_names, key_files
from planbook.source.findings import Finding, Place, Related, Severity
from planbook.source.markdown_file import split_prose
from planbook.source.models.base import Version
from planbook.source.models.calculations import StackModel
from planbook.source.models.market import MarketAdditionsModel, MarketModel
from planbook.source.models.part import PartModel
from planbook.source.models.plan_set import SetModel
from planbook.source.models.prices import PricesModel
from planbook.source.names import choice_remedy, is_name
from planbook.source.numbering import check_numbers
from planbook.source.parameter_tree import read_parameters
from planbook.source.text import Text
from planbook.source.translating import FOLDER as TRANSLATIONS
from planbook.source.translating import PROSE_FOLDERS
from planbook.source.tree import Node, texts_in
from planbook.source.validation import validate
from planbook.source.yaml_tree import is_blank, read_tree

T = TypeVar("T")


class Reading:
    """One pass over a plan set's files. `findings` grows; a file that cannot be used is left out."""

    def __init__(self, door: Door, set_key: str) -> None:
        self.door = door
        self.set_key = set_key
        self.folder = f"content/{set_key}"
        self.findings: list[Finding] = []
        self._trees: dict[str, Node] = {}
        """Of the YAML files of content, as they stand there."""

    def read_content(self) -> Content | None:
        """Every file of the set, or None when set.yaml itself cannot be used."""
        plan_set: SetModel | None = self._yaml(f"{self.folder}/set.yaml", forms.SET)
        parts, part_files = self._parts()
        parameters, worked_out = self._parameters(), self._optional("calculations") or {}
        stacks = {name: each for name, each in worked_out.items() if isinstance(each, StackModel)}
        calculations = {name: each for name, each in worked_out.items() if name not in stacks}
        self.findings.extend(_named_twice(parameters, calculations))
        content = {
            "parameters": {**parameters, **{name: each.parameter for name, each in calculations.items()}},
            "calculations": calculations,
            "stacks": stacks,
            "parts": parts,
            "part_files": part_files,
            "markets": self._markets(plan_set) if plan_set else {},
            "cautions": self._cautions(),
            "cutting": self._optional("cutting") or forms.CUTTING(),
            "prices": self._prices(plan_set) if plan_set else {},
            **{
                name: self._optional(name) or {}
                for name in ("hardware", "finishing", "rules", "fits", "loads", "figures", "changes")
            },
            "handbook": self._handbook(),
            **{name: self._optional(name) for name in ("assembly", "positions")},
            "pages": self._pages(),
            "steps": self._steps(),
            "questions": self._questions(),
            "translations": (translations := tuple(self._translations())),
            "wordings": (wordings := tuple(self._wordings())),
            "written": self._written() if translations or wordings else {},
        }
        return Content(key=self.set_key, folder=self.folder, plan_set=plan_set, **content) if plan_set else None

    def _text(self, path: str) -> str | None:
        try:
            return self.door.read_text(path)
        except Refused as refused:
            self.findings.append(refused.finding)
            return None

    def _keep(self, answer: tuple[T, Iterable[Finding]]) -> T:
        """The value of an answer; its findings join the others."""
        self.findings.extend(answer[1])
        return answer[0]

    def _tree(self, path: str, annotation: Any) -> Node | None:
        text = self._text(path)
        if text is not None and is_blank(text):
            self.findings.append(_empty(path, annotation))
            return None
        tree = None if text is None else self._keep(read_tree(text, path))
        if tree is not None:
            self._trees[path] = tree
        return tree

    def _yaml(self, path: str, annotation: Any) -> Any:
        tree = self._tree(path, annotation)
        return None if tree is None else self._keep(validate(annotation, tree))

    def _optional(self, name: str) -> Any:
        """A file that may be missing, or have all its lines commented out."""
        path = f"{self.folder}/{name}.yaml"
        if not self.door.exists(path):
            return None
        text = self._text(path) or ""
        if text.strip() and is_blank(text):
            return None
        return self._yaml(path, forms.SET_FILES[name])

    def _parameters(self) -> Any:
        tree = self._tree(f"{self.folder}/parameters.yaml", forms.PARAMETERS)
        return {} if tree is None else self._keep(read_parameters(tree))

    def _parts(self) -> tuple[dict[str, PartModel], dict[str, str]]:
        files = self._keep(key_files(self.door.list_files(f"{self.folder}/parts", ".yaml")))
        read = {key: self._yaml(path, forms.PART) for key, path in files.items()}
        good = [(key, part) for key, part in read.items() if part is not None]
        parts = dict(sorted(good, key=lambda item: (item[1].number, item[0])))
        self.findings.extend(check_numbers(parts, files))
        return parts, {key: files[key] for key in parts}

    def _markets(self, plan_set: SetModel) -> dict[str, MarketModel]:
        wanted = {str(edition.market): edition.market for edition in plan_set.editions.values()}
        read = {name: self._market(used) for name, used in wanted.items()}
        return {name: market for name, market in read.items() if market is not None}

    def _market(self, name: Text) -> MarketModel | None:
        """The shared market with the set's own additions, or the set's own market when there is no shared one."""
        shared, own = f"{forms.SHARED_MARKETS}/{name}.yaml", f"{self.folder}/markets/{name}.yaml"
        if not is_name(name) or not (self.door.exists(shared) or self.door.exists(own)):
            self.findings.append(self._unknown_market(name))
            return None
        if not self.door.exists(shared):
            return self._yaml(own, forms.MARKET)  # type: ignore[no-any-return]
        market: MarketModel | None = self._yaml(shared, forms.MARKET)
        added: MarketAdditionsModel | None = None
        if self.door.exists(own):
            added = self._yaml(own, forms.MARKET_ADDITIONS)
        return _laid_over(market, added) if market and added else market

    def _prices(self, plan_set: SetModel) -> dict[str, PricesModel]:
        """Of each market that an edition names, where the set has them."""
        wanted = dict.fromkeys(str(edition.market) for edition in plan_set.editions.values())
        files = {name: f"{self.folder}/prices/{name}.yaml" for name in wanted if is_name(name)}
        read = {name: self._yaml(path, forms.PRICES) for name, path in files.items() if self.door.exists(path)}
        return {name: prices for name, prices in read.items() if prices is not None}

    def _unknown_market(self, name: Text) -> Finding:
        files = (
            *self.door.list_files(forms.SHARED_MARKETS, ".yaml"),
            *self.door.list_files(f"{self.folder}/markets", ".yaml"),
        )
        known = {path.rsplit("/", 1)[-1].removesuffix(".yaml") for path in files}
        remedy = choice_remedy(name, known, f"{forms.SHARED_MARKETS}/")
        return Finding("market-unknown", Severity.STOP, f"There is no market `{name}`.", remedy, name.place)

    def _cautions(self) -> dict[Text, Any]:
        shared = self._yaml(forms.SHARED_CAUTIONS, forms.CAUTIONS) if self.door.exists(forms.SHARED_CAUTIONS) else None
        return {**(shared or {}), **(self._optional("cautions") or {})}

    def _handbook(self) -> dict[Text, Any]:
        if not self.door.exists(forms.SHARED_HANDBOOK):
            return {}
        read: dict[Text, dict[Text, Any]] = self._yaml(forms.SHARED_HANDBOOK, forms.HANDBOOK) or {}
        every = ((what, measure, each) for what, group in read.items() for measure, each in group.items())
        return {Text(f"{what}.{measure}", measure.place): each for what, measure, each in every}

    def _pages(self) -> tuple[Page, ...]:
        files = self._keep(key_files(self.door.list_files(f"{self.folder}/pages", ".md"), numbered=True))
        read = [(key, path, self._prose(path, forms.PAGE_HEAD)) for key, path in files.items()]
        return tuple(Page(key, path, *prose) for key, path, prose in read if prose is not None)

    def _steps(self) -> tuple[Step, ...]:
        paths = self.door.list_files(f"{self.folder}/steps", ".md")
        self.findings.extend(check_step_names(paths))
        files = self._keep(key_files(paths, numbered=True))
        read = [(key, path, self._prose(path, forms.STEP_HEAD)) for key, path in files.items()]
        good = [(key, path, prose) for key, path, prose in read if prose is not None]
        return tuple(Step(key, number, path, *prose) for number, (key, path, prose) in enumerate(good, 1))

    def _translations(self) -> Iterator[Translation]:
        for folder in self.door.list_folders(f"{self.folder}/{TRANSLATIONS}"):
            language = folder.rsplit("/", 1)[-1]
            for inner in PROSE_FOLDERS:
                for path in self.door.list_files(f"{folder}/{inner}", ".md"):
                    prose = self._prose(path, forms.TRANSLATION_HEAD)
                    if prose is not None:
                        yield Translation(language, f"{self.folder}/{inner}/{path.rsplit('/', 1)[-1]}", path, *prose)

    def _written(self) -> dict[str, dict[tuple[str, ...], Text]]:
        return {path: dict(texts_in(tree)) for path, tree in self._trees.items()}

    def _wordings(self) -> Iterator[Wording]:
        for folder in self.door.list_folders(f"{self.folder}/{TRANSLATIONS}"):
            for inner in ("", "/parts", "/markets", "/prices"):
                for path in self.door.list_files(f"{folder}{inner}", ".yaml"):
                    yield from self._wording(folder, path)

    def _wording(self, folder: str, path: str) -> Iterator[Wording]:
        tree = self._keep(read_tree(self._text(path) or "", path))
        inner = path.removeprefix(f"{folder}/")
        texts = {} if tree is None else dict(texts_in(tree))
        of = texts.pop(("of",), None)
        version = None if of is None else self._keep(validate(Version, of))
        if texts and (of is None or version is not None):
            originals = (f"{self.folder}/{inner}", f"shared/{inner}")
            yield Wording(folder.rsplit("/", 1)[-1], originals, path, version, texts)

    def _questions(self) -> tuple[Question, ...]:
        files = self._keep(key_files(self.door.list_files(f"{self.folder}/questions", ".md")))
        read = [(key, path, self._prose(path, forms.QUESTION_HEAD)) for key, path in files.items()]
        return tuple(Question(key, path, *prose) for key, path, prose in read if prose is not None)

    def _prose(self, path: str, head_form: Any) -> tuple[Any, Text] | None:
        text = self._text(path)
        parts = None if text is None else self._keep(split_prose(text, path))
        head = None if parts is None else self._keep(validate(head_form, parts[0]))
        return None if parts is None or head is None else (head, parts[1])


def _empty(path: str, annotation: Any) -> Finding:
    needed = path.rsplit("/", 1)[-1] in ("set.yaml", "parameters.yaml")
    remedy = f"Write {whole_file(annotation)}{'' if needed else '; or delete the file'}."
    return Finding("yaml-empty", Severity.STOP, "The file says nothing.", remedy, Place(path, 1, 1))


def _named_twice(parameters: Iterable[Text], calculations: Iterable[Text]) -> Iterator[Finding]:
    """What parameters.yaml and calculations.yaml both define."""
    known = {name: name for name in parameters}
    for name in calculations:
        if name in known:
            message = f"`{name}` is a parameter already."
            remedy = "Delete it in one of the two files: a calculation is a parameter, and prints its working too."
            related = (Related(known[name].place, "here it is defined as a parameter"),)
            yield Finding("calculation-twice", Severity.STOP, message, remedy, name.place, related=related)


def _laid_over(market: MarketModel, added: MarketAdditionsModel) -> MarketModel:
    return market.model_copy(
        update={
            "stock": {**market.stock, **added.stock},
            "hardware": {**market.hardware, **added.hardware},
            "drills": market.drills if added.drills is None else added.drills,
            "finishes": {**market.finishes, **added.finishes},
        }
    )
