"""Page templates: read through the door, rendered in a sandbox; a fault in one is a finding at its line."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import TracebackType
from typing import Any, Final

from jinja2 import FunctionLoader, StrictUndefined, TemplateError, TemplateNotFound, TemplateSyntaxError
from jinja2.sandbox import ImmutableSandboxedEnvironment

from planbook.document.words import as_html, long_date, version_words
from planbook.source import Door, Refused
from planbook.source.findings import Finding, Place, Severity

FOLDER: Final = "templates/"
_REMEDY: Final = (
    "Mend the template, or delete your copy to take the packaged one; docs/document.md lists what a template gets."
)


def render(door: Door, name: str, values: Mapping[str, Any]) -> tuple[str | None, tuple[Finding, ...]]:
    """The template filled in; None with one finding of severity stop when it cannot be."""
    environment = ImmutableSandboxedEnvironment(
        loader=FunctionLoader(_reader(door)),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters.update(printed=as_html, long_date=long_date, version=version_words)
    try:
        return environment.get_template(name).render(values), ()
    except Refused as refused:
        return None, (refused.finding,)
    except TemplateNotFound as error:
        return None, (_finding(f"there is no template {error.name}", None),)
    except TemplateSyntaxError as error:
        place = Place(error.filename or f"{FOLDER}{error.name}", error.lineno, 1)
        return None, (_finding(error.message or "this is not a template", place),)
    # A template may fail in any way that Python can: whatever it is, it is the template's fault and has a line.
    except Exception as error:
        words = error.message if isinstance(error, TemplateError) and error.message else str(error)
        return None, (_finding(words or type(error).__name__, _last_line(error.__traceback__)),)


def _reader(door: Door) -> Callable[[str], tuple[str, str, None] | None]:
    def read(name: str) -> tuple[str, str, None] | None:
        path = f"{FOLDER}{name}"
        return (door.read_text(path), path, None) if door.exists(path) else None

    return read


def _last_line(trace: TracebackType | None) -> Place | None:
    """Where in a template an error was raised: Jinja gives its frames the template's own lines."""
    place = None
    while trace is not None:
        file = trace.tb_frame.f_code.co_filename
        if file.startswith(FOLDER):
            place = Place(file, trace.tb_lineno, 1)
        trace = trace.tb_next
    return place


def _finding(message: str, place: Place | None) -> Finding:
    told = f"The page template cannot be filled in: {message.rstrip('.')}."
    return Finding("template", Severity.STOP, told, _REMEDY, place)
