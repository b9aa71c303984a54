"""`formsheet build`: the handouts."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path

from formsheet.commands.files import ERRORS, FINE, Job, Teller, UsageError, examined, jobs
from formsheet.language.files import LESSON_SUFFIX
from formsheet.report.table import summary


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
    teller = Teller()
    status = FINE
    for number, (job, each) in enumerate(examined(work), start=1):
        progress = f"[{number}/{len(work)}] {each.name}"
        teller.tell(each.problems)
        if not (each.in_order and each.tune):
            print(f"{progress}: not built, {summary(each.problems)}", file=sys.stderr)
            status = ERRORS
            continue
        from formsheet.pack.build import build_pack  # WeasyPrint is slow to import

        for written in build_pack(each, targets[job], page_size=arguments.page):
            print(f"{progress}: {written}", file=sys.stderr)
    return status
