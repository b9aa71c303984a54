"""`formsheet joins`: the hardest moves and joins of a tune, breath, and a practice plan."""

from __future__ import annotations

import argparse
import json

from formsheet.commands.declared import Argument, Command
from formsheet.commands.files import ERRORS, FINE, Teller, examined_one
from formsheet.commands.schema import data_options
from formsheet.judge.practice import practice_of
from formsheet.report.joins import joins_data, joins_table
from formsheet.report.table import heading
from formsheet.suffixes import LESSON_SUFFIX


def run(arguments: argparse.Namespace) -> int:
    """Print moves, joins, breath and plan of one lesson."""
    each = examined_one(arguments.file, (LESSON_SUFFIX,))
    if not (each.lesson and each.tune):
        Teller().tell(each.problems)
        return ERRORS
    practice = practice_of(each.tune)
    if arguments.json:
        print(json.dumps(joins_data(practice), indent=2, ensure_ascii=False))
    else:
        print(heading(each.lesson))
        print("\n".join(joins_table(practice)))
    return FINE


COMMAND = Command(
    "joins",
    "rank a tune's moves and joins, with breath and a practice plan",
    run,
    arguments=(Argument("file", "FILE"),),
    options=(*data_options("joins", "the joins"),),
    examples=("formsheet joins lessons/kitchen.lesson",),
)
