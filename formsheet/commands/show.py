"""`formsheet show`: the assembled tune, note by note."""

from __future__ import annotations

import argparse
import json

from formsheet.commands.files import ERRORS, FINE, Teller, examined_one
from formsheet.commands.named import harp_option
from formsheet.commands.parser import Commands
from formsheet.commands.schema import add_data
from formsheet.report.data import tune_data
from formsheet.report.table import heading, tune_table
from formsheet.suffixes import LESSON_SUFFIX


def add(commands: Commands) -> None:
    """The command and its options."""
    command = commands.add_parser("show", help="print the assembled tune of a lesson")
    command.add_argument("file", metavar="FILE")
    command.add_argument("--harp", metavar="KEY", help="for a student with another harp")
    add_data(command, "show", "the tune")
    command.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Print one assembled tune."""
    each = examined_one(arguments.file, (LESSON_SUFFIX,), harp_option(arguments.harp))
    if arguments.json:
        print(json.dumps(tune_data(each), indent=2, ensure_ascii=False))
    elif each.lesson and each.tune:
        print(heading(each.lesson))
        print("\n".join(tune_table(each.tune, each.fits)))
    else:
        Teller().tell(each.problems)
    return FINE if each.in_order else ERRORS
