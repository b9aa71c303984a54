"""`formsheet check`: a bar a line, then what there is to say."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from shutil import get_terminal_size
from textwrap import indent
from typing import TYPE_CHECKING

from formsheet.commands.files import ERRORS, FINE, Teller, examined, jobs
from formsheet.commands.loudness import Loudness, add_loudness, loudness
from formsheet.commands.named import harp_option
from formsheet.commands.parser import Commands
from formsheet.commands.schema import add_data
from formsheet.report.table import check_table, heading, summary
from formsheet.suffixes import LESSON_SUFFIX, SHELF_SUFFIX

if TYPE_CHECKING:
    from formsheet.stages import Examined


def add(commands: Commands) -> None:
    """The command and its options."""
    command = commands.add_parser("check", help="say what is wrong with lessons, bar by bar")
    command.add_argument("paths", nargs="+", metavar="FILE|DIR")
    command.add_argument("--harp", metavar="KEY", help="for a student with another harp")
    add_data(command, "check", "the report")
    add_loudness(command, verbose=False)
    command.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Report on lessons and shelves, each as soon as it is judged; none is kept."""
    work = jobs(arguments.paths, (LESSON_SUFFIX, SHELF_SUFFIX))
    results = (each for _, each in examined(work, harp_option(arguments.harp)))
    if arguments.json:
        return _print_data(results)
    if loudness(arguments) is Loudness.QUIET:
        return _print_wrong(results)
    return _print_tables(results)


def _print_wrong(results: Iterator[Examined]) -> int:
    """Errors and warnings alone: nothing where all is fine."""
    from formsheet.problems.problem import Severity

    teller = Teller()
    status = FINE
    for each in results:
        teller.tell([p for p in each.problems if p.severity > Severity.REMARK])
        status = status if each.in_order else ERRORS
    return status


def _print_tables(results: Iterator[Examined]) -> int:
    teller = Teller()
    status = FINE
    for each in results:
        print(f"== {each.name}: {summary(each.problems)}")
        if each.lesson and each.tune:
            print(heading(each.lesson))
            print("\n".join(check_table(each, get_terminal_size().columns)))
        teller.tell(each.problems)
        print()
        status = status if each.in_order else ERRORS
    return status


def _print_data(results: Iterator[Examined]) -> int:
    """One JSON object, written piece by piece as it would be as a whole."""
    import json

    from formsheet.report.data import check_data

    status = FINE
    print('{\n  "files": [', end="")
    for number, each in enumerate(results):
        text = indent(json.dumps(check_data(each), indent=2), "    ")
        print("," if number else "", text, sep="\n", end="")
        status = status if each.in_order else ERRORS
    print("\n  ]\n}")
    return status
