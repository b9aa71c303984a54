"""`formsheet build`: the handouts."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from formsheet.commands.files import ERRORS, FINE, Job, Teller, UsageError, examined, jobs
from formsheet.commands.parser import Commands
from formsheet.language.files import LESSON_SUFFIX
from formsheet.pack.build import build_pack
from formsheet.pack.options import Options
from formsheet.pack.parts import PARTS

if TYPE_CHECKING:
    from formsheet.music.harp import Harp


def add(commands: Commands) -> None:
    """The command and its options."""
    command = commands.add_parser("build", help="make the handouts")
    command.add_argument("paths", nargs="+", metavar="FILE|DIR")
    command.add_argument(
        "--out", default="handouts", metavar="DIR",
        help="where the handouts go (default: %(default)s)",
    )  # fmt: skip
    command.add_argument(
        "--page", choices=("A4", "Letter"), type=str.capitalize, default="A4", help="paper size"
    )
    command.add_argument(
        "--only", metavar="PART,PART", help=f"not the whole pack, but of {', '.join(PARTS)}"
    )
    command.add_argument(
        "--harp", metavar="KEY,KEY",
        help="for students with other harps, such as G, Bb or `low F`: the same tab, "
        "a folder for each harp",
    )  # fmt: skip
    command.set_defaults(run=run)


@dataclass(frozen=True)
class _Target:
    """A lesson on a harp (None: its own), and the folder of that handout."""

    job: Job
    harp: Harp | None
    folder: Path


def _targets(work: Sequence[Job], harps: Sequence[Harp | None], out: Path) -> list[_Target]:
    """What is to be made, and where; UsageError where two would share a folder."""
    taken: dict[Path, Job] = {}
    targets = []
    for job in work:
        plain = out / job.path.relative_to(job.folder).with_suffix("")
        for harp in harps:
            folder = plain.with_name(plain.name + _ending(harp)) if harp else plain
            other = taken.setdefault(folder, job)
            if other is not job:
                raise UsageError(f"{other.path} and {job.path} would both go to {folder}")
            targets.append(_Target(job, harp, folder))
    return targets


def _ending(harp: Harp) -> str:
    """What a harp adds to a folder's name: "-harp-low-F", "-harp-C-sharp"."""
    return f"-harp-{harp.name}".replace(" ", "-").replace("#", "-sharp")


def _harps(words: str | None) -> Sequence[Harp | None]:
    if words is None:
        return [None]
    from formsheet.commands.named import named_harp
    from formsheet.music.tunings import RICHTER

    return list(dict.fromkeys(named_harp(word, RICHTER) for word in words.split(",")))


def _parts(words: str | None) -> Sequence[str]:
    """The parts named, in the order in which they are made; UsageError if one is unknown."""
    if words is None:
        return list(PARTS)
    named = [word.strip().lower() for word in words.split(",")]
    for word in named:
        if word not in PARTS:
            raise UsageError(f"there is no part called {word!r}; there are {', '.join(PARTS)}")
    return [part for part in PARTS if part in named]


def run(arguments: argparse.Namespace) -> int:
    """Make the handouts of lessons; nothing is written for one that has errors."""
    from formsheet.report.table import summary

    work = jobs(arguments.paths, (LESSON_SUFFIX,))
    parts = _parts(arguments.only)
    targets = _targets(work, _harps(arguments.harp), Path(arguments.out))
    options = Options(page_size=arguments.page)
    teller = Teller()
    status = FINE
    for number, target in enumerate(targets, start=1):
        _, each = next(examined([target.job], target.harp))
        progress = f"[{number}/{len(targets)}] {each.name}"
        teller.tell(each.problems)
        if not (each.in_order and each.tune):
            print(f"{progress}: not built, {summary(each.problems)}", file=sys.stderr)
            status = ERRORS
            continue
        for written in build_pack(each, target.folder, options, parts):
            print(f"{progress}: {written}", file=sys.stderr)
    return status
