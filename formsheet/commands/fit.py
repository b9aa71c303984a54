"""`formsheet fit`: where a lick may go in a form, how well, and why not."""

from __future__ import annotations

import argparse
import json
from collections.abc import Sequence

from formsheet.commands.files import ERRORS, FINE, Teller, UsageError
from formsheet.commands.named import named_form
from formsheet.commands.opened import open_licks, over_form
from formsheet.commands.parser import Commands
from formsheet.commands.schema import add_data
from formsheet.judge.where import placements
from formsheet.lesson.model import Facts
from formsheet.music.form import FORMS, Form
from formsheet.report.where import fit_data, fit_table


def add(commands: Commands) -> None:
    """The command and its options."""
    command = commands.add_parser("fit", help="say where licks may go in a form, and how well")
    command.add_argument("file", metavar="FILE", help="a lesson or a shelf")
    command.add_argument("licks", nargs="*", metavar="LICK", help="all of the file's if none")
    command.add_argument(
        "--form", metavar="NAME", help="a built-in form, or `all`; else the lesson's own"
    )
    add_data(command, "fit", "the table")
    command.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Print a table for each lick and form."""
    opened = open_licks(arguments.file)
    if opened.lesson is None or not opened.examined.in_order:
        Teller().tell(opened.examined.problems)
        return ERRORS
    chosen = opened.chosen(arguments.licks).values()
    data, lines = [], []
    for form in _forms(arguments.form, opened.lesson.facts):
        lesson = over_form(opened.lesson, form)
        for lick in chosen:
            found = placements(lick, form, lesson)
            data.append(fit_data(lick, form, found))
            lines += [*fit_table(lick, form, found, lesson), ""]
    print(json.dumps(data, indent=2) if arguments.json else "\n".join(lines))
    return FINE


def _forms(name: str | None, facts: Facts) -> Sequence[Form]:
    if name == "all":
        return list(FORMS.values())
    if name:
        return [named_form(name)]
    if facts.form:
        return [facts.form]
    raise UsageError("a shelf has no form of its own: name one with --form, or --form all")
