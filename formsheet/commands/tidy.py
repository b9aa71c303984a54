"""`formsheet tidy`: lessons and shelves set anew, what they say unchanged."""

from __future__ import annotations

import argparse
import sys
from codecs import BOM_UTF8
from difflib import unified_diff
from pathlib import Path

from formsheet.commands.declared import Argument, Command, Option
from formsheet.commands.files import ERRORS, FINE, Job, Teller, jobs
from formsheet.language.files import read_source
from formsheet.language.tidy import tidied
from formsheet.suffixes import LESSON_SUFFIX, SHELF_SUFFIX
from formsheet.whole import write_whole


def run(arguments: argparse.Namespace) -> int:
    """Set files anew in place; a file that cannot be read is told and left as it is."""
    teller = Teller()
    changed = unreadable = 0
    work = jobs(arguments.paths, (LESSON_SUFFIX, SHELF_SUFFIX))
    for job in work:
        source, problems = read_source(job.path, str(job.path))
        text = None
        if source:
            text, problems = tidied(source)
        if source is None or text is None:
            teller.tell(problems)
            unreadable += 1
        elif text != source.written:
            changed += 1
            _tell(job, source.written, text, arguments)
    if not arguments.diff:
        print(_summary(len(work), changed, unreadable, done=not arguments.check))
    return ERRORS if unreadable or (arguments.check and changed) else FINE


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


def _summary(files: int, changed: int, unreadable: int, done: bool) -> str:
    """How many files were or would be set anew."""
    verb = "tidied" if done else "to be tidied"
    parts = [f"{changed} of {files} file{'s' if files != 1 else ''} {verb}"]
    if unreadable:
        they = "it is: it" if unreadable == 1 else "they are: they"
        parts.append(f"{unreadable} left as {they} cannot be read")
    return "; ".join(parts)


COMMAND = Command(
    "tidy",
    "line up lessons and shelves, comments kept",
    run,
    arguments=(Argument("paths", "FILE|DIR", many="+"),),
    options=(
        Option("--check", "only say which files would change (status 1 if any)", rivals="only"),
        Option("--diff", "only show what would change", rivals="only"),
    ),
    examples=(
        "formsheet tidy lessons",
        "formsheet tidy lessons --diff",
    ),
)
