"""`formsheet check`: a bar a line, then what there is to say."""

from __future__ import annotations

import argparse
import json
from shutil import get_terminal_size

from formsheet.commands.files import ERRORS, FINE, Teller, examined, jobs
from formsheet.commands.named import harp_option
from formsheet.commands.parser import Commands
from formsheet.commands.schema import PrintSchema
from formsheet.report.data import check_data
from formsheet.report.table import check_table, heading, summary
from formsheet.stages import Examined
from formsheet.suffixes import LESSON_SUFFIX, SHELF_SUFFIX


def add(commands: Commands) -> None:
    """The command and its options."""
    command = commands.add_parser("check", help="say what is wrong with lessons, bar by bar")
    command.add_argument("paths", nargs="+", metavar="FILE|DIR")
    command.add_argument("--harp", metavar="KEY", help="for a student with another harp")
    command.add_argument("--json", action="store_true", help="the report as data")
    command.add_argument("--schema", action=PrintSchema, command="check")
    command.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Report on lessons and shelves."""
    work = jobs(arguments.paths, (LESSON_SUFFIX, SHELF_SUFFIX))
    results = [each for _, each in examined(work, harp_option(arguments.harp))]
    if arguments.json:
        print(json.dumps({"files": [check_data(each) for each in results]}, indent=2))
    else:
        teller = Teller()
        for each in results:
            _print(each, teller)
    return FINE if all(each.in_order for each in results) else ERRORS


def _print(each: Examined, teller: Teller) -> None:
    print(f"== {each.name}: {summary(each.problems)}")
    if each.lesson and each.tune:
        print(heading(each.lesson))
        print("\n".join(check_table(each, get_terminal_size().columns)))
    teller.tell(each.problems)
    print()
