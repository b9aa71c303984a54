"""`formsheet check`: a line for each bar, then the problems."""

from __future__ import annotations

import argparse
import gc
import sys
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from shutil import get_terminal_size
from textwrap import indent
from typing import TYPE_CHECKING, NamedTuple

from formsheet.commands.declared import Argument, Command
from formsheet.commands.files import ERRORS, FINE, Job, Teller, examined, jobs
from formsheet.commands.loudness import QUIET, Loudness, loudness
from formsheet.commands.named import fact_option, harp_option
from formsheet.commands.schema import data_options
from formsheet.engine.cores import in_portions, silent
from formsheet.report.table import check_table, heading, summary
from formsheet.suffixes import LESSON_SUFFIX, SHELF_SUFFIX
from formsheet.vocabulary.facts import HARP

if TYPE_CHECKING:
    from formsheet.music.harp import Harp
    from formsheet.problems.problem import Problem
    from formsheet.stages import Examined

#: Files that a core checks before it sweeps its memory: Python keeps small tuples for use again,
#: by the thousand of each length, until then.
_PORTION = 50
_MANY = 3  # problems from which on it is worth a line that they may be corrected at once


class Report(NamedTuple):
    """The report on a file."""

    text: str
    problems: Sequence[Problem]
    in_order: bool
    after: str = ""  # printed below the problems


#: What a report says, of a file that was judged.
Kind = Callable[["Examined"], Report]


def run(arguments: argparse.Namespace) -> int:
    """Report on lessons and shelves, each as soon as it is judged; none is kept."""
    work = jobs(arguments.paths, (LESSON_SUFFIX, SHELF_SUFFIX))
    quiet = loudness(arguments) is Loudness.QUIET
    table = partial(_table, columns=get_terminal_size().columns)
    kind: Kind = _data if arguments.json else _wrong if quiet else table
    make = partial(_reports, kind=kind, harp=harp_option(arguments.harp))
    reports = in_portions(
        make, work, portion=_PORTION, loaded=["formsheet.commands.check"],
        notify=silent if quiet else partial(print, file=sys.stderr),
    )  # fmt: skip
    return _print_data(reports) if arguments.json else _print(reports)


def _reports(work: Sequence[Job], kind: Kind, harp: Harp | None) -> Iterator[Report]:
    for _, each in examined(work, harp):
        yield kind(each)
    if len(work) == _PORTION:  # there may be more to come
        gc.collect()
        gc.freeze()  # what is left stays, and is not looked at again


def _wrong(each: Examined) -> Report:
    """Only errors and warnings: nothing where there are none."""
    from formsheet.problems.problem import Severity

    grave = [problem for problem in each.problems if problem.severity > Severity.REMARK]
    return Report("", grave, each.in_order)


def _table(each: Examined, columns: int) -> Report:
    lines = [f"== {each.name}: {summary(each.problems)}"]
    if each.lesson and each.tune:
        lines += [heading(each.lesson), *check_table(each, columns)]
    return Report("\n".join(lines), each.problems, each.in_order, _at_once(each))


def _at_once(each: Examined) -> str:
    """How many problems `tidy --mend` may correct, where there are several."""
    if len(each.problems) < _MANY:
        return ""
    certain = [p for p in each.problems if any(h.edit and h.edit.certain for h in p.hints())]
    if len(certain) < _MANY:
        return ""
    count = "all" if len(certain) == len(each.problems) else f"{len(certain)} of these"
    name = f'"{each.name}"' if " " in each.name else each.name
    return f"{count} may be corrected at once: formsheet tidy --mend {name}"


def _data(each: Examined) -> Report:
    import json

    from formsheet.report.data import check_data

    text = json.dumps(check_data(each), indent=2)
    return Report(indent(text, "    "), (), each.in_order)


def _print(reports: Iterator[Report]) -> int:
    teller = Teller()
    status = FINE
    for report in reports:
        if report.text:
            print(report.text)
        teller.tell(report.problems)
        if report.after:
            print(report.after)
        if report.text:
            print()
        status = status if report.in_order else ERRORS
    return status


def _print_data(reports: Iterator[Report]) -> int:
    """One JSON object, written piece by piece as it would be as a whole."""
    status = FINE
    print('{\n  "files": [', end="")
    for number, report in enumerate(reports):
        print("," if number else "", report.text, sep="\n", end="")
        status = status if report.in_order else ERRORS
    print("\n  ]\n}")
    return status


COMMAND = Command(
    "check",
    "say what is wrong with lessons, bar by bar",
    run,
    arguments=(Argument("paths", "FILE|DIR", many="+"),),
    options=(
        fact_option(HARP, "for a student with another harp"),
        *data_options("check", "the report"),
        QUIET,
    ),
    examples=(
        "formsheet check lessons/kitchen.lesson",
        "formsheet check lessons --quiet",
        "formsheet check lessons/kitchen.lesson --harp G",
    ),
)
