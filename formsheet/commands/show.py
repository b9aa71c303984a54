"""`formsheet show`: the assembled tune, note by note."""

from __future__ import annotations

import argparse
import json

from formsheet.commands.declared import Argument, Command
from formsheet.commands.files import ERRORS, FINE, Teller, examined_one
from formsheet.commands.named import fact_option, harp_option
from formsheet.commands.schema import data_options
from formsheet.judge.practice import practice_of
from formsheet.judge.practice_words import slow_words
from formsheet.report.data import tune_data
from formsheet.report.table import heading, tune_table
from formsheet.suffixes import LESSON_SUFFIX
from formsheet.vocabulary.facts import HARP


def run(arguments: argparse.Namespace) -> int:
    """Print one assembled tune."""
    each = examined_one(arguments.file, (LESSON_SUFFIX,), harp_option(arguments.harp))
    if arguments.json:
        print(json.dumps(tune_data(each), indent=2, ensure_ascii=False))
    elif each.lesson and each.tune:
        print("\n".join(filter(None, (heading(each.lesson), slow_words(practice_of(each.tune))))))
        print("\n".join(tune_table(each.tune, each.fits)))
    else:
        Teller().tell(each.problems)
    return FINE if each.in_order else ERRORS


COMMAND = Command(
    "show",
    "print the assembled tune of a lesson",
    run,
    arguments=(Argument("file", "FILE"),),
    options=(
        fact_option(HARP, "for a student with another harp"),
        *data_options("show", "the tune"),
    ),
    examples=("formsheet show lessons/kitchen.lesson",),
)
