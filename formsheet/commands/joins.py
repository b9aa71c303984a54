"""`formsheet joins`: the joins of a tune, the hardest first, and the tempo ladder."""

from __future__ import annotations

import argparse
import json

from formsheet.commands.declared import Argument, Command
from formsheet.commands.files import ERRORS, FINE, Teller, examined_one
from formsheet.commands.schema import data_options
from formsheet.judge.joins import find_moves
from formsheet.judge.ladder import tune_ladder
from formsheet.report.joins import joins_data, joins_table
from formsheet.report.table import heading
from formsheet.suffixes import LESSON_SUFFIX


def run(arguments: argparse.Namespace) -> int:
    """Print the joins of one lesson."""
    each = examined_one(arguments.file, (LESSON_SUFFIX,))
    if not (each.lesson and each.tune):
        Teller().tell(each.problems)
        return ERRORS
    joins = find_moves(each.tune)
    steps = tune_ladder(joins, each.lesson.facts)
    if arguments.json:
        print(json.dumps(joins_data(joins, steps), indent=2))
    else:
        print(heading(each.lesson))
        print("\n".join(joins_table(joins, steps)))
    return FINE


COMMAND = Command(
    "joins",
    "rank the joins of a tune, with a tempo ladder",
    run,
    arguments=(Argument("file", "FILE"),),
    options=(*data_options("joins", "the joins"),),
    examples=("formsheet joins lessons/kitchen.lesson",),
)
