"""What the template library complains of is told in words for authors, and where it stands."""

from __future__ import annotations

import pytest

from planbook.statement.prose.jinja_words import in_our_words

from .test_prose import only


@pytest.mark.parametrize(
    ("body", "said"),
    [
        ("a {{ ramp.rise } b", "`}` cannot stand here"),
        ("a {{ ramp.rise @ }} b", "`@` cannot stand here"),
        ("a {{ ramp.rise ramp.run }} b", "`ramp` cannot stand here"),
        ("a {{ ramp.rise", "what the last `{{` or `{%` opens is not closed"),
        ("a {{ }} b", "a name is missing here"),
        ("a {{ ramp. }} b", "a name is missing here"),
        ("{# a", "the comment that `{#` opens is not closed"),
        ("{% if edition.units == 'inch' %}a", "`{% if %}` is not closed by `{% endif %}`"),
        ("{% for a in b %}a", "`{% for %}` is not closed by `{% endfor %}`"),
        ("a {% endif %}", "`{% endif %}` closes nothing"),
        ("a {% iff b %}", "`iff` is no condition"),
        ("{% if edition.units = 'inch' %}a{% endif %}", "`=` cannot stand here"),
    ],
)
def test_it_is_told_in_our_words(body: str, said: str) -> None:
    finding = only(body)
    assert (finding.code, finding.message) == ("template-syntax", f"The template cannot be read: {said}.")


def test_what_we_do_not_know_is_told_as_it_is() -> None:
    assert in_our_words("Something new.") == "Something new"
    assert in_our_words("") == "this is not a template"
