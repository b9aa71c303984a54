"""The command line: `formsheet check`, `formsheet show`, `formsheet build`."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from formsheet import __version__
from formsheet.language.files import LESSON_SUFFIX, SHELF_SUFFIX
from formsheet.lesson.shelves import Shelves
from formsheet.problems.drawing import drawn
from formsheet.problems.problem import Problem
from formsheet.report.data import check_data, tune_data
from formsheet.report.table import check_table, heading, summary, tune_table
from formsheet.stages import Examined, examine_file

FINE, ERRORS, USAGE = 0, 1, 2


class UsageError(Exception):
    """The command was given something that it cannot work on."""


@dataclass(frozen=True)
class _Job:
    """A file to work on, and the lessons folder that it belongs to."""

    path: Path
    folder: Path


def _jobs(names: Sequence[str], suffixes: Sequence[str]) -> list[_Job]:
    """The files named, and those in the folders named, each once."""
    jobs: dict[Path, _Job] = {}
    for name in names:
        path = Path(name)
        if path.is_dir():
            found = sorted(p for p in path.rglob("*") if p.suffix in suffixes and p.is_file())
            if not found:
                raise UsageError(f"there is no {' or '.join(suffixes)} file in {name}")
            added = [_Job(each, path) for each in found]
        elif not path.exists():
            raise UsageError(f"there is no file or folder called {name}")
        elif path.suffix not in suffixes:
            raise UsageError(f"{name} does not end in {' or '.join(suffixes)}")
        else:
            added = [_Job(path, path.parent)]
        for job in added:
            jobs.setdefault(job.path.resolve(), job)
    return list(jobs.values())


def _examined(jobs: Sequence[_Job]) -> Iterator[tuple[_Job, Examined]]:
    shelves: dict[Path, Shelves] = {}
    for job in jobs:
        known = shelves.setdefault(job.folder, Shelves(job.folder))
        yield job, examine_file(job.path, str(job.path), known)


class _Teller:
    """Prints problems, each once, however many lessons share its shelf."""

    def __init__(self) -> None:
        self.told: set[tuple[object, ...]] = set()

    def tell(self, problems: Sequence[Problem]) -> None:
        for problem in problems:
            key = (problem.slug, problem.span.place, str(problem.facts))
            if key not in self.told:
                self.told.add(key)
                print(drawn(problem))


def check(arguments: argparse.Namespace) -> int:
    """Report on lessons and shelves: a bar a line, then what there is to say."""
    jobs = _jobs(arguments.paths, (LESSON_SUFFIX, SHELF_SUFFIX))
    results = [examined for _, examined in _examined(jobs)]
    if arguments.json:
        print(json.dumps({"files": [check_data(each) for each in results]}, indent=2))
    else:
        teller = _Teller()
        for examined in results:
            _print_check(examined, teller)
    return FINE if all(each.in_order for each in results) else ERRORS


def _print_check(examined: Examined, teller: _Teller) -> None:
    print(f"== {examined.name}: {summary(examined.problems)}")
    if examined.lesson and examined.tune:
        print(heading(examined.lesson))
        print("\n".join(check_table(examined)))
    teller.tell(examined.problems)
    print()


def show(arguments: argparse.Namespace) -> int:
    """Print one assembled tune."""
    jobs = _jobs([arguments.file], (LESSON_SUFFIX,))
    examined = next(_examined(jobs))[1]
    if arguments.json:
        print(json.dumps(tune_data(examined), indent=2, ensure_ascii=False))
    elif examined.lesson and examined.tune:
        print(heading(examined.lesson))
        print("\n".join(tune_table(examined.tune, examined.fits)))
    else:
        _Teller().tell(examined.problems)
    return FINE if examined.in_order else ERRORS


def build(arguments: argparse.Namespace) -> int:
    """Make the handouts of lessons; nothing is written for one that has errors."""
    jobs = _jobs(arguments.paths, (LESSON_SUFFIX,))
    out = Path(arguments.out)
    teller = _Teller()
    worst = FINE
    for number, (job, examined) in enumerate(_examined(jobs), start=1):
        progress = f"[{number}/{len(jobs)}] {examined.name}"
        teller.tell(examined.problems)
        if not (examined.in_order and examined.tune):
            print(f"{progress}: not built, {summary(examined.problems)}", file=sys.stderr)
            worst = ERRORS
            continue
        from formsheet.pack.build import build_pack  # WeasyPrint is slow to import

        target = out / job.path.relative_to(job.folder).with_suffix("")
        for written in build_pack(examined, target, page_size=arguments.page):
            print(f"{progress}: {written}", file=sys.stderr)
    return worst


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="formsheet",
        description="From a plain-text harmonica lesson to a handout a student can learn from.",
        epilog="Exit status: 0 fine (warnings included), 1 errors in a lesson, 2 usage.",
    )
    parser.add_argument("--version", action="version", version=f"formsheet {__version__}")
    commands = parser.add_subparsers(required=True, metavar="COMMAND")

    command = commands.add_parser("check", help="say what is wrong with lessons, bar by bar")
    command.add_argument("paths", nargs="+", metavar="FILE|DIR")
    command.add_argument("--json", action="store_true", help="the report as data")
    command.set_defaults(run=check)

    command = commands.add_parser("show", help="print the assembled tune of a lesson")
    command.add_argument("file", metavar="FILE")
    command.add_argument("--json", action="store_true", help="the tune as data")
    command.set_defaults(run=show)

    command = commands.add_parser("build", help="make the handouts")
    command.add_argument("paths", nargs="+", metavar="FILE|DIR")
    command.add_argument("--out", default="handouts", metavar="DIR",
                         help="where the handouts go (default: %(default)s)")  # fmt: skip
    command.add_argument("--page", choices=("A4", "Letter"), default="A4", help="paper size")
    command.set_defaults(run=build)
    return parser


def main(argv: Sequence[str] | None = None) -> int:
    """Run a command; returns the exit status."""
    arguments = _parser().parse_args(argv)
    try:
        status: int = arguments.run(arguments)
    except UsageError as caught:
        print(f"formsheet: {caught}", file=sys.stderr)
        return USAGE
    except BrokenPipeError:
        sys.stderr.close()  # the reader of a pipe has gone; nothing is wrong
        return FINE
    return status


if __name__ == "__main__":
    sys.exit(main())
