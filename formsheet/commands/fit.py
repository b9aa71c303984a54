"""`formsheet fit`: where a lick may go in a form, how well, and why not."""

from __future__ import annotations

import argparse
import json
from collections.abc import Sequence

from formsheet.commands.files import ERRORS, FINE, Teller, UsageError, examined_one
from formsheet.commands.named import named_form, named_licks
from formsheet.commands.parser import Commands
from formsheet.commands.schema import add_data
from formsheet.judge.where import placements
from formsheet.lesson.model import Facts, Lesson, Lick
from formsheet.music.form import FORMS, Form
from formsheet.music.key import song_key
from formsheet.report.where import fit_data, fit_table
from formsheet.stages import Examined
from formsheet.suffixes import LESSON_SUFFIX, SHELF_SUFFIX


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
    each = examined_one(arguments.file, (LESSON_SUFFIX, SHELF_SUFFIX))
    facts, licks = _facts_and_licks(each)
    if facts is None or not each.in_order:
        Teller().tell(each.problems)
        return ERRORS
    chosen = (named_licks(arguments.licks, licks) or licks).values()
    data, lines = [], []
    for form in _forms(arguments.form, facts):
        lesson = _lesson(each, facts, form)
        for lick in chosen:
            found = placements(lick, form, lesson)
            data.append(fit_data(lick, form, found))
            lines += [*fit_table(lick, form, found, lesson), ""]
    print(json.dumps(data, indent=2) if arguments.json else "\n".join(lines))
    return FINE


def _facts_and_licks(each: Examined) -> tuple[Facts | None, dict[str, Lick]]:
    if each.lesson:
        return each.lesson.facts, each.lesson.licks
    if each.shelf:
        return each.shelf.facts, {n: lick for n, lick in each.shelf.licks.items() if lick}
    return None, {}


def _forms(name: str | None, facts: Facts) -> Sequence[Form]:
    if name == "all":
        return list(FORMS.values())
    if name:
        return [named_form(name)]
    if facts.form:
        return [facts.form]
    raise UsageError("a shelf has no form of its own: name one with --form, or --form all")


def _lesson(each: Examined, facts: Facts, form: Form) -> Lesson:
    """The lesson as if it had this form."""
    key = song_key(facts.harp.key, facts.position, form.minor)
    source = each.lesson.end if each.lesson else next(iter(_shelf_licks(each))).span
    return Lesson(facts, form, key, {}, (), source)


def _shelf_licks(each: Examined) -> list[Lick]:
    return [lick for lick in each.shelf.licks.values() if lick] if each.shelf else []
