"""Reading the files of a plan set one by one into typed content, collecting what is wrong in each."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from itertools import pairwise
from typing import Any

from planbook.source import forms
from planbook.source.content import Content, Page, Step
from planbook.source.door import Door, Refused
from planbook.source.findings import Finding, Place, Related, Severity
from planbook.source.markdown_file import split_prose
from planbook.source.models.market import MarketAdditionsModel, MarketModel
from planbook.source.models.part import PartModel
from planbook.source.models.plan_set import SetModel
from planbook.source.names import choice_remedy, is_name, proposed_name
from planbook.source.parameter_tree import read_parameters
from planbook.source.text import Text
from planbook.source.tree import Node
from planbook.source.validation import validate
from planbook.source.yaml_tree import read_tree


class Reading:
    """One pass over a plan set's files. `findings` grows; a file that cannot be used is left out."""

    def __init__(self, door: Door, set_key: str) -> None:
        self.door = door
        self.set_key = set_key
        self.folder = f"content/{set_key}"
        self.findings: list[Finding] = []

    def read_content(self) -> Content | None:
        """Everything, or None when the set or its parameters cannot be read at all."""
        plan_set: SetModel | None = self._yaml(f"{self.folder}/set.yaml", forms.SET)
        parameters = self._parameters()
        parts, part_files = self._parts()
        markets = self._markets(plan_set) if plan_set else {}
        rest = {name: self._optional(name) for name in ("hardware", "rules", "figures", "changes")}
        assembly = self._optional("assembly", None)
        positions = self._optional("positions", None)
        cautions = self._cautions()
        pages, steps = self._pages(), self._steps()
        if plan_set is None:
            return None
        return Content(
            self.set_key,
            plan_set,
            parameters,
            parts,
            part_files,
            markets,
            cautions=cautions,
            **rest,
            assembly=assembly,
            positions=positions,
            pages=pages,
            steps=steps,
            folder=self.folder,
        )

    def _tree(self, path: str) -> Node | None:
        try:
            tree, findings = read_tree(self.door.read_text(path), path)
        except Refused as refused:
            self.findings.append(refused.finding)
            return None
        self.findings.extend(findings)
        return tree

    def _validate(self, annotation: Any, tree: Node | None) -> Any:
        if tree is None:
            return None
        value, findings = validate(annotation, tree)
        self.findings.extend(findings)
        return value

    def _yaml(self, path: str, annotation: Any) -> Any:
        return self._validate(annotation, self._tree(path))

    def _optional(self, name: str, without: Any = {}) -> Any:  # noqa: B006, never changed
        path = f"{self.folder}/{name}.yaml"
        if not self.door.exists(path):
            return without
        return self._yaml(path, forms.SET_FILES[name]) or without

    def _parameters(self) -> dict[Text, Any]:
        tree = self._tree(f"{self.folder}/parameters.yaml")
        if tree is None:
            return {}
        parameters, findings = read_parameters(tree)
        self.findings.extend(findings)
        return parameters

    def _parts(self) -> tuple[dict[str, PartModel], dict[str, str]]:
        files = self._keyed(self.door.list_files(f"{self.folder}/parts", ".yaml"))
        read = {key: part for key, path in files.items() if (part := self._yaml(path, forms.PART)) is not None}
        parts = dict(sorted(read.items(), key=lambda item: (item[1].number, item[0])))
        self._numbers_once(parts, files)
        return parts, {key: files[key] for key in parts}

    def _numbers_once(self, parts: Mapping[str, PartModel], files: Mapping[str, str]) -> None:
        for (one, first), (other, second) in pairwise(parts.items()):
            if first.number == second.number:
                self._find(
                    "part-number-twice",
                    f"`{one}` and `{other}` both have part number {second.number}.",
                    f"Give `{other}` a number of its own; {max(p.number for p in parts.values()) + 1} is free.",
                    Place(files[other], 1, 1),
                    Related(Place(files[one], 1, 1), "has the number too"),
                )
        sheets: dict[str, str] = {}
        for key, part in parts.items():
            sheet = str(part.sheet if part.sheet is not None else part.number)
            other = sheets.setdefault(sheet, key)
            if other != key and part.number != parts[other].number:
                place = part.sheet.place if part.sheet is not None else Place(files[key], 1, 1)
                self._find(
                    "sheet-number-twice",
                    f"`{other}` and `{key}` are both on sheet {sheet}.",
                    f"Give one of them a sheet of its own, for example `sheet: {sheet}a`.",
                    place,
                    Related(Place(files[other], 1, 1), "is on this sheet too"),
                )

    def _markets(self, plan_set: SetModel) -> dict[str, MarketModel]:
        markets: dict[str, MarketModel] = {}
        wanted = {str(edition.market): edition.market for edition in plan_set.editions.values()}
        for name, used in wanted.items():
            market = self._market(used)
            if market is not None:
                markets[name] = market
        return markets

    def _market(self, name: Text) -> MarketModel | None:
        shared, own = f"shared/markets/{name}.yaml", f"{self.folder}/markets/{name}.yaml"
        if not is_name(name) or not (self.door.exists(shared) or self.door.exists(own)):
            known = {*self._stems("shared/markets"), *self._stems(f"{self.folder}/markets")}
            self._find(
                "market-unknown",
                f"There is no market `{name}`.",
                choice_remedy(name, known, "shared/markets/"),
                name.place,
            )
            return None
        if not self.door.exists(shared):
            return self._yaml(own, forms.MARKET)  # type: ignore[no-any-return]
        market: MarketModel | None = self._yaml(shared, forms.MARKET)
        added: MarketAdditionsModel | None = None
        if self.door.exists(own):
            added = self._yaml(own, forms.MARKET_ADDITIONS)
        return _laid_over(market, added) if market and added else market

    def _stems(self, folder: str) -> tuple[str, ...]:
        return tuple(path.rsplit("/", 1)[-1].removesuffix(".yaml") for path in self.door.list_files(folder, ".yaml"))

    def _cautions(self) -> dict[Text, Any]:
        shared = self._yaml("shared/cautions.yaml", forms.CAUTIONS) if self.door.exists("shared/cautions.yaml") else {}
        return {**(shared or {}), **self._optional("cautions")}

    def _pages(self) -> tuple[Page, ...]:
        files = self._keyed(self.door.list_files(f"{self.folder}/pages", ".md"))
        prose = {key: self._prose(path, forms.PAGE_HEAD) for key, path in files.items()}
        return tuple(Page(key, files[key], *read) for key, read in prose.items() if read is not None)

    def _steps(self) -> tuple[Step, ...]:
        numbered: dict[str, int] = {}
        for path in self.door.list_files(f"{self.folder}/steps", ".md"):
            number = re.match(r"([0-9]{1,4})-(?=.)", path.rsplit("/", 1)[-1])
            if number is None:
                self._find(
                    "step-name",
                    "The name of a step's file starts with its number.",
                    f"Call it, for example, `10-{path.rsplit('/', 1)[-1]}`.",
                    Place(path, 1, 1),
                )
                continue
            numbered[path] = int(number[1])
        self._step_numbers_once(numbered)
        files = self._keyed(sorted(numbered, key=lambda path: (numbered[path], path)), r"[0-9]+-")
        prose = {key: self._prose(path, forms.STEP_HEAD) for key, path in files.items()}
        read = [(key, each) for key, each in prose.items() if each is not None]
        return tuple(Step(key, number, files[key], *each) for number, (key, each) in enumerate(read, 1))

    def _step_numbers_once(self, numbered: Mapping[str, int]) -> None:
        for one, other in pairwise(sorted(numbered, key=lambda path: (numbered[path], path))):
            if numbered[one] == numbered[other]:
                self._find(
                    "step-number-twice",
                    f"Two steps have the number {numbered[one]}.",
                    "Rename one of the files; numbers may have gaps.",
                    Place(other, 1, 1),
                    Related(Place(one, 1, 1), "has the number too"),
                )

    def _prose(self, path: str, head_form: Any) -> tuple[Any, Text] | None:
        try:
            parts, findings = split_prose(self.door.read_text(path), path)
        except Refused as refused:
            self.findings.append(refused.finding)
            return None
        self.findings.extend(findings)
        if parts is None:
            return None
        head = self._validate(head_form, parts[0])
        return None if head is None else (head, parts[1])

    def _keyed(self, paths: Iterable[str], prefix: str = "") -> dict[str, str]:
        """Paths by key: the file name without `prefix` and ending, hyphens as underscores."""
        files: dict[str, str] = {}
        for path in paths:
            name, ending = path.rsplit("/", 1)[-1].rsplit(".", 1)
            stem = re.sub(f"^{prefix}", "", name)
            key = stem.replace("-", "_")
            if not is_name(key):
                proposed = proposed_name(stem).replace("_", "-")
                self._find(
                    "file-name",
                    f"The file name `{stem}` gives no name that content can use.",
                    f"Call it `{proposed}.{ending}`: lower-case letters, digits and hyphens.",
                    Place(path, 1, 1),
                )
            elif key in files:
                self._find(
                    "file-key-twice",
                    f"This file and `{files[key]}` both give the name `{key}`.",
                    "Rename one of them.",
                    Place(path, 1, 1),
                    Related(Place(files[key], 1, 1), "gives it too"),
                )
            else:
                files[key] = path
        return files

    def _find(self, code: str, message: str, remedy: str, place: Place, *related: Related) -> None:
        self.findings.append(Finding(code, Severity.STOP, message, remedy, place, related=related))


def _laid_over(market: MarketModel, added: MarketAdditionsModel) -> MarketModel:
    return market.model_copy(
        update={
            "stock": {**market.stock, **added.stock},
            "hardware": {**market.hardware, **added.hardware},
            "drills": market.drills if added.drills is None else added.drills,
        }
    )
