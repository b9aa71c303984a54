"""`formsheet build`: the handouts."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path

from formsheet.commands.files import ERRORS, FINE, Job, Teller, UsageError, examined, jobs
from formsheet.commands.parser import Commands
from formsheet.language.files import LESSON_SUFFIX
from formsheet.pack.build import build_pack, write_library
from formsheet.pack.options import MARK_STYLES, UPRIGHT, Options, PageSize
from formsheet.report.table import summary


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
        "--compressed", action="store_true",
        help="clips as MP3 instead of WAV: a tenth of the size, and slower to make",
    )  # fmt: skip
    command.add_argument("--portrait", action="store_true", help="upright paper")
    command.add_argument(
        "--marks", choices=MARK_STYLES, default=MARK_STYLES[0],
        help="how blow and draw are shown (default: %(default)s)",
    )  # fmt: skip
    command.add_argument(
        "--compact", action="store_true", help="print a lick that comes again once"
    )
    command.add_argument("--large", action="store_true", help="large print")
    command.set_defaults(run=run)


def _options(arguments: argparse.Namespace) -> Options:
    page_size: PageSize = arguments.page
    if arguments.portrait:
        page_size = UPRIGHT[page_size]
    return Options(
        page_size=page_size,
        marks=arguments.marks,
        compact=arguments.compact,
        large=arguments.large,
        compressed=arguments.compressed,
    )


def _targets(work: Sequence[Job], out: Path) -> dict[Job, Path]:
    """The folder of each lesson's handout; UsageError where two would share one."""
    targets: dict[Job, Path] = {}
    for job in work:
        target = out / job.path.relative_to(job.folder).with_suffix("")
        for other, taken in targets.items():
            if taken == target:
                raise UsageError(f"{other.path} and {job.path} would both go to {target}")
        targets[job] = target
    return targets


def run(arguments: argparse.Namespace) -> int:
    """Make the handouts of lessons; nothing is written for one that has errors."""
    work = jobs(arguments.paths, (LESSON_SUFFIX,))
    targets = _targets(work, Path(arguments.out))
    options = _options(arguments)
    teller = Teller()
    status = FINE
    for number, (job, each) in enumerate(examined(work), start=1):
        progress = f"[{number}/{len(work)}] {each.name}"
        teller.tell(each.problems)
        if not (each.in_order and each.tune):
            print(f"{progress}: not built, {summary(each.problems)}", file=sys.stderr)
            status = ERRORS
            continue
        for written in build_pack(each, targets[job], options):
            print(f"{progress}: {written}", file=sys.stderr)
    if library := write_library(Path(arguments.out)):
        print(library, file=sys.stderr)
    return status
