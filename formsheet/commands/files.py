"""The files that a command works on, and how their problems are printed."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple, TextIO

from formsheet.folder import files_below

if TYPE_CHECKING:  # not needed by a build that is up to date
    from formsheet.music.harp import Harp
    from formsheet.problems.problem import Problem
    from formsheet.stages import Examined

LESSONS_FOLDER = "lessons"  # as the README has it
FINE, ERRORS, USAGE = 0, 1, 2  # exit statuses
FAILED = 70  # EX_SOFTWARE of sysexits.h
INTERRUPTED, CLOSED_EARLY = 130, 141  # as shells report SIGINT and SIGPIPE: 128 and its number
EXITS = {
    FINE: "no errors; warnings are possible",
    ERRORS: "a lesson has errors",
    USAGE: "the command line is wrong, or a file, a folder or the output cannot be read or written",
    FAILED: "formsheet itself failed",
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
    """The files named, and those in the folders named, each once; UsageError if not found."""
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
            raise UsageError(f"{name} has no {kinds} file")
        return [Job(path / each, path) for each, _ in inside]
    path = completed(path, suffixes)
    if not path.exists():
        raise UsageError(_not_found(name, path, suffixes))
    if path.suffix not in suffixes:
        right = _without_extra_ending(path, suffixes)
        hint = f"; rename it to {right.name}" if right else ""
        raise UsageError(f"{name} does not end in {kinds}{hint}")
    return [Job(path, path.parent)]


def _not_found(name: str, path: Path, suffixes: Sequence[str]) -> str:
    """That a file is not there, and which one may be meant."""
    longer = _with_extra_ending(path, suffixes)
    if longer:
        right = _without_extra_ending(longer, suffixes)
        assert right
        return (
            f"file not found: {name}; {longer} is there: the editor has added {longer.suffix} to "
            f"its name, which folder windows often hide. Rename it to {right.name}"
        )
    near = _nearest_file(path, suffixes)
    hint = f"; did you mean {near}?" if near else ""
    return f"file or folder not found: {name}{hint}"


def _with_extra_ending(path: Path, suffixes: Sequence[str]) -> Path | None:
    """The file kitchen.lesson.txt where kitchen.lesson, or kitchen, is not there."""
    if not path.parent.is_dir() or path.name in ("", ".."):
        return None
    wanted = {path.name.casefold()} | {f"{path.name}{each}".casefold() for each in suffixes}
    for each in sorted(path.parent.iterdir()):
        right = _without_extra_ending(each, suffixes)
        if right and right.name.casefold() in wanted:
            return each
    return None


def _without_extra_ending(path: Path, suffixes: Sequence[str]) -> Path | None:
    """kitchen.lesson for kitchen.lesson.txt; None where the name has no such ending before."""
    right = path.with_suffix("")
    return right if right.suffix in suffixes else None


def completed(path: Path, suffixes: Sequence[str]) -> Path:
    """The file meant by a name without its ending: `kitchen` is kitchen.lesson if that exists."""
    if path.exists() or path.name in ("", ".."):
        return path
    candidates = (path.with_name(path.name + suffix) for suffix in suffixes)
    return next((each for each in candidates if each.is_file()), path)


def _nearest_file(path: Path, suffixes: Sequence[str]) -> Path | None:
    """The file that a misspelt name may mean: where it was looked for, or in `lessons` there."""
    from formsheet.problems.nearest import nearest

    for folder in (path.parent, path.parent / LESSONS_FOLDER):
        if folder.is_dir():
            files = sorted(each for each in folder.iterdir() if each.suffix in suffixes)
            names = {each.stem: each for each in files}
            if near := nearest(path.stem, names):
                return folder / names[near].name
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
    """The one file named; UsageError if it is not found, or is a folder."""
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
        """Print those that were not printed before; without errors under their headings."""
        new = []
        for problem in problems:
            key = (problem.code, problem.span.place, str(problem.fields))
            if key not in self._told:
                self._told.add(key)
                new.append(problem)
        if not new:
            return
        from formsheet.problems.drawing import drawn
        from formsheet.problems.ranked import sections
        from formsheet.report.paint import painted, painted_problem, paints

        stream = self._stream or sys.stdout
        colour = paints(stream)
        for heading, part in sections(new):
            if heading:
                print(painted(heading, "head") if colour else heading, file=stream)
            for problem in part:
                text = drawn(problem)
                print(painted_problem(text) if colour else text, file=stream)
