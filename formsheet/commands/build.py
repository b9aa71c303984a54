"""`formsheet build`: the handouts."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from formsheet.commands.files import ERRORS, FINE, Teller, examined, jobs
from formsheet.language.files import LESSON_SUFFIX
from formsheet.report.table import summary


def run(arguments: argparse.Namespace) -> int:
    """Make the handouts of lessons; nothing is written for one that has errors."""
    work = jobs(arguments.paths, (LESSON_SUFFIX,))
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

        target = Path(arguments.out) / job.path.relative_to(job.folder).with_suffix("")
        for written in build_pack(each, target, page_size=arguments.page):
            print(f"{progress}: {written}", file=sys.stderr)
    return status
