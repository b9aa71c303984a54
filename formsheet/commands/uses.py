"""`formsheet uses`: where licks, rhythms and shelves are used, across a folder of lessons."""

from __future__ import annotations

import argparse
import json

from formsheet.commands.declared import Argument, Command, Option
from formsheet.commands.files import FINE, UsageError, jobs
from formsheet.commands.schema import data_options
from formsheet.lesson.shelves import Shelves
from formsheet.library.likeness import alike
from formsheet.library.named import Named, What, known, named
from formsheet.library.usage import Library, library
from formsheet.problems.nearest import nearest
from formsheet.report.uses import changes_report, uses_report
from formsheet.report.uses_data import uses_data
from formsheet.suffixes import LESSON_SUFFIX, SHELF_SUFFIX


def run(arguments: argparse.Namespace) -> int:
    """Print what is used where."""
    found = _library(arguments.paths)
    if arguments.of:
        parts = [_changes(found, each) for each in _named(found, arguments.of)]
        print("\n\n".join("\n".join(lines) for lines in parts))
        return FINE
    groups = alike(found.licks.values())
    if arguments.json:
        print(json.dumps(uses_data(found, groups), indent=2, ensure_ascii=False))
    else:
        print("\n".join(uses_report(found, groups, whole=arguments.all)))
    return FINE


def _library(paths: list[str]) -> Library:
    shelves: dict[object, Shelves] = {}
    work = jobs(paths, (LESSON_SUFFIX, SHELF_SUFFIX))
    return library(
        (job.path, str(job.path), shelves.setdefault(job.folder, Shelves(job.folder)))
        for job in work
    )


def _named(found: Library, words: str) -> list[Named]:
    matches = named(found, words)
    if not matches:
        near = nearest(words.rpartition(":")[2], known(found))
        hint = f"; did you mean {near}?" if near else ""
        raise UsageError(f"there is no lick, rhythm or file called {words}{hint}")
    return matches


def _changes(found: Library, each: Named) -> list[str]:
    home = each.home
    what = home.file if each.what is What.FILE else f"{home.name} of {home.file}"
    return changes_report(found, each.what.value, what, each.licks)


COMMAND = Command(
    "uses",
    "say where licks, rhythms and shelves are used",
    run,
    arguments=(Argument("paths", "FILE|DIR", many="+"),),
    options=(
        Option("--all", "the lessons' own licks as well"),
        Option(
            "--of",
            "what changes if this lick, rhythm or shelf is edited; FILE:NAME for one of many",
            value="NAME",
        ),
        *data_options("uses", "all of it"),
    ),
    examples=(
        "formsheet uses lessons",
        "formsheet uses lessons --of turnarounds",
    ),
)
