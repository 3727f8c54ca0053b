"""docs/findings.md has a section for every code that the program uses, and for no other."""

import re
from pathlib import Path

import pytest

from tests.source.finding_codes import finding_codes, literals

GUIDE = (Path(__file__).parents[2] / "docs/findings.md").read_text()
SECTIONS = re.split(r"^### ", GUIDE, flags=re.MULTILINE)[1:]
DOCUMENTED = [section.partition("\n")[0].strip("`") for section in SECTIONS]

HOW = """
Write a section into docs/findings.md, under the heading of its subject:

### `{code}`
What is wrong, and why it matters.
*Example:* what an author has written. *Remedy:* what to write instead.
"""


def test_every_code_is_explained() -> None:
    missing = {code: files for code, files in sorted(finding_codes().items()) if code not in DOCUMENTED}
    assert not missing, f"{missing}{HOW}"


def test_nothing_else_is_explained() -> None:
    unused = sorted(set(DOCUMENTED) - literals())
    assert not unused, f"no finding has these codes any more; take their sections out of docs/findings.md: {unused}"


def test_each_code_has_one_section() -> None:
    assert len(DOCUMENTED) == len(set(DOCUMENTED))


@pytest.mark.parametrize("section", SECTIONS, ids=DOCUMENTED)
def test_a_section_has_its_parts(section: str) -> None:
    body = section.partition("\n")[2].split("\n## ")[0]
    what, _, rest = body.partition("*Example:* ")
    example, _, remedy = rest.partition("*Remedy:* ")
    assert min(len(what.strip()), len(example.strip()), len(remedy.strip())) > 3
