"""The files that a command works on, and what is common in telling of them."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple, TextIO

from formsheet.folder import files_below

if TYPE_CHECKING:  # a build that finds nothing to do needs none of it
    from formsheet.music.harp import Harp
    from formsheet.problems.problem import Problem
    from formsheet.stages import Examined

LESSONS_FOLDER = "lessons"  # as the README has it
FINE, ERRORS, USAGE = 0, 1, 2  # exit statuses
INTERRUPTED, CLOSED_EARLY = 130, 141  # as shells report SIGINT and SIGPIPE: 128 and its number
EXITS = {
    FINE: "all is fine, warnings included",
    ERRORS: "a lesson has errors",
    USAGE: "the command was wrong, or a file, a folder or the output cannot be read or written",
    INTERRUPTED: "ended by Ctrl-C",
    CLOSED_EARLY: "the output was closed before its end, as `head` does",
}


class UsageError(Exception):
    """The command was given something that it cannot work on."""


class Job(NamedTuple):
    """A file to work on, and the lessons folder that it belongs to."""

    path: Path
    folder: Path


def jobs(names: Sequence[str], suffixes: Sequence[str]) -> list[Job]:
    """The files named, and those in the folders named, each once; UsageError if there is none."""
    found: dict[Path, Job] = {}
    for name in names:
        for job in _jobs_of(name, suffixes):
            found.setdefault(job.path.resolve(), job)
    return list(found.values())


def _jobs_of(name: str, suffixes: Sequence[str]) -> list[Job]:
    path, kinds = Path(name), " or ".join(suffixes)
    if path.is_dir():
        inside = files_below(path, suffixes)
        if not inside:
            raise UsageError(f"there is no {kinds} file in {name}")
        return [Job(path / each, path) for each, _ in inside]
    if not path.exists():
        path = _completed(path, suffixes)
    if not path.exists():
        near = _nearest_file(path, suffixes)
        hint = f"; did you mean {near}?" if near else ""
        raise UsageError(f"there is no file or folder called {name}{hint}")
    if path.suffix not in suffixes:
        raise UsageError(f"{name} does not end in {kinds}")
    return [Job(path, path.parent)]


def _completed(path: Path, suffixes: Sequence[str]) -> Path:
    """The file meant by a name without its ending: `kitchen` is kitchen.lesson if that exists."""
    if path.name in ("", ".."):
        return path
    candidates = (path.with_name(path.name + suffix) for suffix in suffixes)
    return next((each for each in candidates if each.is_file()), path)


def _nearest_file(path: Path, suffixes: Sequence[str]) -> Path | None:
    """The file that a misspelt name may mean: where it was looked for, or in `lessons` there."""
    from formsheet.problems.nearest import nearest

    for folder in (path.parent, path.parent / LESSONS_FOLDER):
        if folder.is_dir():
            names = (each.name for each in folder.iterdir() if each.suffix in suffixes)
            if near := nearest(path.name, names):
                return folder / near
    return None


def examined(work: Sequence[Job], harp: Harp | None = None) -> Iterator[tuple[Job, Examined]]:
    """Each file read and judged, one at a time; files of one folder share its shelves.

    `harp` takes the place of each lesson's own.
    """
    from formsheet.lesson.shelves import Shelves
    from formsheet.source import shown_name
    from formsheet.stages import examine_file

    shelves: dict[Path, Shelves] = {}
    for job in work:
        known = shelves.setdefault(job.folder, Shelves(job.folder))
        yield job, examine_file(job.path, shown_name(job.path), known, harp)


def one_job(name: str, suffixes: Sequence[str]) -> Job:
    """The one file named; UsageError if there is none, or a folder."""
    (job, *_) = jobs([name], suffixes)
    if Path(name).is_dir():
        raise UsageError(f"{name} is a folder; name one file")
    return job


def examined_one(name: str, suffixes: Sequence[str], harp: Harp | None = None) -> Examined:
    """One file read and judged."""
    return next(examined([one_job(name, suffixes)], harp))[1]


class Teller:
    """Prints problems, each once, however many lessons share its shelf."""

    def __init__(self, stream: TextIO | None = None) -> None:
        self._stream = stream  # None: where the command prints
        self._told: set[tuple[object, ...]] = set()

    def tell(self, problems: Sequence[Problem]) -> None:
        """Print those that were not printed before."""
        from formsheet.problems.drawing import drawn
        from formsheet.report.paint import painted_problem, paints

        for problem in problems:
            key = (problem.code, problem.span.place, str(problem.fields))
            if key not in self._told:
                self._told.add(key)
                text = drawn(problem)
                stream = self._stream or sys.stdout
                print(painted_problem(text) if paints(stream) else text, file=stream)
