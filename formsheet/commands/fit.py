"""`formsheet fit`: where a lick may go in a form, how well, and why not."""

from __future__ import annotations

import argparse
import json
from collections.abc import Sequence

from formsheet.commands.declared import Argument, Command
from formsheet.commands.files import ERRORS, FINE, Teller, UsageError
from formsheet.commands.named import fact_option, named_form
from formsheet.commands.opened import open_licks, over_form
from formsheet.commands.schema import data_options
from formsheet.judge.where import placements
from formsheet.lesson.model import Facts
from formsheet.music.form import FORMS, Form
from formsheet.report.where import fit_data, fit_table
from formsheet.vocabulary.facts import FORM


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


COMMAND = Command(
    "fit",
    "say where licks may go in a form, and how well",
    run,
    arguments=(
        Argument("file", "FILE", "a lesson or a shelf"),
        Argument("licks", "LICK", "all of the file's if none", many="*"),
    ),
    options=(
        fact_option(FORM, "a built-in form, or `all`; else the lesson's own"),
        *data_options("fit", "the table"),
    ),
    examples=(
        "formsheet fit lessons/kitchen.lesson porch",
        'formsheet fit lessons/shelf/turnarounds.licks home --form "8-bar ending I"',
    ),
)
