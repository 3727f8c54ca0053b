"""planbook question SET add, list and report."""

from __future__ import annotations

import click

from planbook.cli.shell import Shell, chosen_set, columns, shared_options
from planbook.release import Checked, add_question, list_questions, report_questions


@click.group()
@click.argument("set_key", metavar="SET")
@click.pass_context
def question(context: click.Context, set_key: str) -> None:
    """What buyers asked about SET, and what came of it. No name or address of a person is kept.

    \b
    Examples:
      planbook question tool-tote add --version 1.0 --about end/screws/pitch --asked 2026-05-04 "Between centres?"
      planbook question tool-tote list
      planbook question tool-tote report
    """
    context.obj = set_key


@question.command()
@click.option("--version", metavar="V", required=True, help="The released version that it was asked of.")
@click.option("--edition", metavar="E", help="The edition, where it is about one.")
@click.option("--about", metavar="NAME", required=True, help="A part, a dimension's id, a page, a step, as find tells.")
@click.option("--asked", metavar="DAY", required=True, help="The day on which it was asked, as 2026-05-04.")
@click.argument("text", metavar="TEXT")
@shared_options
def add(shell: Shell, version: str, edition: str | None, about: str, asked: str, text: str) -> None:
    """Write a question down in a new file, content/SET/questions/qNNN.md.

    The answer goes into that file, under its head; the next version prints both.
    """
    path, findings = add_question(shell.workspace, chosen_set(), version, edition, about, asked, text)
    if path is None:
        shell.finish(Checked(chosen_set(), findings).document(), [], findings)
    shell.finish({"set": chosen_set(), "file": path}, [f"{path}: write the answer under its head."], findings)


@question.command(name="list")
@shared_options
def list_them(shell: Shell) -> None:
    """Every question: open, answered in the draft, or published, and in which version."""
    asked, findings = list_questions(shell.workspace, chosen_set())
    if asked is None:
        shell.finish(Checked(chosen_set(), findings).document(), [], findings)
    rows = [
        (
            each.question.key,
            f"{each.stand} in {each.published}" if each.published else str(each.stand),
            str(each.question.head.about),
            str(each.question.head.question),
        )
        for each in asked
    ]
    lines = columns(rows) if rows else ["Nothing was asked yet."]
    shell.finish([each.document() for each in asked], lines, findings)


@question.command()
@shared_options
def report(shell: Shell) -> None:
    """Where the plans draw questions, most first, so that you see what to draw better."""
    drawn, findings = report_questions(shell.workspace, chosen_set())
    if drawn is None:
        shell.finish(Checked(chosen_set(), findings).document(), [], findings)
    lines = [
        line
        for each in drawn
        for line in (f"{each.count:>4}  {each.title}", *(f"        {count:>4}  {name}" for name, count in each.about))
    ]
    shell.finish([each.document() for each in drawn], lines or ["Nothing was asked yet."], findings)
