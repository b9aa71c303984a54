"""`formsheet tidy`: lessons and shelves reformatted, their meaning unchanged; mended if asked."""

from __future__ import annotations

import argparse
import sys
from codecs import BOM_UTF8
from collections.abc import Iterator, Sequence
from difflib import unified_diff
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from formsheet.commands.declared import Argument, Command, Option
from formsheet.commands.files import ERRORS, FINE, Job, Teller, jobs
from formsheet.language.files import read_source
from formsheet.language.tidy import tidied
from formsheet.suffixes import LESSON_SUFFIX, SHELF_SUFFIX
from formsheet.whole import write_whole

if TYPE_CHECKING:
    from formsheet.mend import Mended
    from formsheet.problems.problem import Problem
    from formsheet.source import Source


class _File(NamedTuple):
    """The text of a file as it is and as it is to be."""

    before: str = ""
    after: str = ""
    unread: Sequence[Problem] = ()  # why it cannot be reformatted
    mended: Mended | None = None


def run(arguments: argparse.Namespace) -> int:
    """Reformat files in place; a file that cannot be read is reported and left alone."""
    teller = Teller()
    files: list[_File] = []
    work = jobs(arguments.paths, (LESSON_SUFFIX, SHELF_SUFFIX))
    if arguments.mend:  # shelves first: lessons take from them
        work.sort(key=lambda job: job.path.suffix != SHELF_SUFFIX)
    for job in work:
        file = _mended(job) if arguments.mend else _tidied(job)
        files.append(file)
        if file.mended and not arguments.diff:
            print("".join(f"{line}\n" for line in _said(job, file)), end="")
        teller.tell(file.unread)
        if file.after != file.before:
            _tell(job, file.before, file.after, arguments)
    if not arguments.diff:
        print(_summary(files, done=not arguments.check))
    unread = any(file.unread for file in files)
    changed = any(file.after != file.before for file in files)
    return ERRORS if unread or (arguments.check and changed) else FINE


def _tidied(job: Job) -> _File:
    source, problems = read_source(job.path, str(job.path))
    if source is None:
        return _File(unread=problems)
    text, problems = tidied(source)
    return _File(source.written, source.written if text is None else text, problems)


def _mended(job: Job) -> _File:
    """The file mended, then reformatted if it can be read."""
    from formsheet.lesson.shelves import Shelves
    from formsheet.mend import mended

    source, problems = read_source(job.path, str(job.path))
    if source is None:
        return _File(unread=problems)
    found = mended(source, Shelves(job.folder))
    text, problems = tidied(found.source)
    before = _as_stored(job.path, source)
    if text is None:
        return _File(before, found.applied(before), problems, found)
    return _File(before, before if text == source.written else text, mended=found)


def _as_stored(path: Path, source: Source) -> str:
    """The text with its control characters and old line ends, which a source replaces."""
    text = path.read_bytes().removeprefix(BOM_UTF8).decode("utf-8")
    return text if len(text) == len(source.written) else source.written


def _said(job: Job, file: _File) -> Iterator[str]:
    """What was mended, a line each; of a reformatted file, how many errors are left."""
    if file.mended is None:
        return
    for change in file.mended.changes:
        name, line, column = change.edit.span.place
        yield f"{name}:{line}:{column}: {change.words} [{change.problem.code}]"
    if file.mended.errors and not file.unread:
        many = "s" if file.mended.errors != 1 else ""
        yield f"{job.path}: {file.mended.errors} error{many} left, see formsheet check"


def _tell(job: Job, before: str, after: str, arguments: argparse.Namespace) -> None:
    if arguments.diff:
        old, new = (text.splitlines(keepends=True) for text in (before, after))
        sys.stdout.writelines(unified_diff(old, new, str(job.path), f"{job.path} (tidy)"))
    else:
        print(job.path)
    if not (arguments.diff or arguments.check):
        _write(job.path.resolve(), after)


def _write(path: Path, text: str) -> None:
    """Write a file in place; a byte order mark that it began with stays."""
    mark = BOM_UTF8 if path.read_bytes().startswith(BOM_UTF8) else b""
    write_whole(path, mark + text.encode("utf-8"))


def _summary(files: Sequence[_File], done: bool) -> str:
    """How many files were or would be reformatted."""
    changed = sum(file.after != file.before and not file.unread for file in files)
    unread = sum(bool(file.unread) for file in files)
    verb = "tidied" if done else "to be tidied"
    left = f"{unread} left alone because of errors"
    parts = [f"{changed} of {len(files)} file{'s' if len(files) != 1 else ''} {verb}"]
    if any(file.mended for file in files):
        edits = sum(len(file.mended.changes) for file in files if file.mended)
        verb = "made" if done else "to be made"
        parts.insert(0, f"{edits} correction{'s' if edits != 1 else ''} {verb}")
        left = f"{unread} cannot be read"
    return "; ".join([*parts, left] if unread else parts)


COMMAND = Command(
    "tidy",
    "line up lessons and shelves, comments kept",
    run,
    arguments=(Argument("paths", "FILE|DIR", many="+"),),
    options=(
        Option(
            "--mend",
            "first make each correction that is the only possible one, and list them",
        ),
        Option("--check", "only list the files that would change (status 1 if any)", rivals="only"),
        Option("--diff", "only show what would change", rivals="only"),
    ),
    examples=(
        "formsheet tidy lessons",
        "formsheet tidy --mend kitchen.lesson",
        "formsheet tidy lessons --diff",
    ),
)
