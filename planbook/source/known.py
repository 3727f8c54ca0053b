"""Names that must lead to something: a table of every market, a part, a figure."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from planbook.source.content import Content
from planbook.source.findings import Finding, Severity
from planbook.source.names import choice_remedy
from planbook.source.text import Text


def in_every_market(code: str, kind: str, content: Content, name: Text) -> Iterator[Finding]:
    """`kind` is the table: stock, hardware or finishes. One finding when no market has the name, else one per edition
    without it."""
    tables: dict[str, Iterable[str]] = {key: getattr(market, kind) for key, market in content.markets.items()}
    without = [key for key, table in tables.items() if name not in table]
    if len(without) == len(tables):
        everywhere = {each for table in tables.values() for each in table}
        remedy = choice_remedy(name, everywhere, "the market tables")
        yield _unknown(code, f"There is no {kind} `{name}` in the market tables.", remedy, name)
        return
    for edition, model in content.plan_set.editions.items():
        if model.market in without:
            remedy = f"Add it to the market's table, or to {content.folder}/markets/{model.market}.yaml."
            yield _unknown(code, f"The market `{model.market}` has no {kind} `{name}`.", remedy, name, edition)


def known_parts(content: Content, names: Iterable[Text]) -> Iterator[Finding]:
    """A finding for each of these that is no part of the set."""
    yield from known("part-unknown", "part", names, content.parts, "parts/")


def known(code: str, what: str, names: Iterable[Text], known: Iterable[str], where: str) -> Iterator[Finding]:
    """A finding for each name that is not among the known ones, which `where` has."""
    choices = list(known)
    for name in names:
        if name not in choices:
            yield _unknown(code, f"There is no {what} `{name}`.", choice_remedy(name, choices, where), name)


def _unknown(code: str, message: str, remedy: str, name: Text, edition: str = "") -> Finding:
    return Finding(code, Severity.STOP, message, remedy, name.place, str(edition))
