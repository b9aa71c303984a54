"""Sheets of random lessons, printed and read back.

    python -m tests.sheet.many_sheets COUNT [FIRST] [portrait]

prints as many, from a seed on, and tells what is wrong with each.
"""

from __future__ import annotations

import sys

from formsheet.sheet.make_view import make_view
from formsheet.sheet.options import PageSize
from formsheet.sheet.view import Sheet
from tests.helpers import examined
from tests.random_lessons import random_lesson
from tests.sheet.faults import faults


def random_sheet(seed: int) -> Sheet | None:
    """The sheet of a random lesson; None where the lesson has errors."""
    found = examined(random_lesson(seed))
    if not (found.in_order and found.tune):
        return None
    return make_view(found.tune, found.fits, f"random-{seed}.lesson")


def main(count: int, first: int = 0, page_size: PageSize = "A4") -> int:
    """Print and read sheets; gives how many are faulty, or made of no lesson half of the time."""
    valid = faulty = 0
    for seed in range(first, first + count):
        if sheet := random_sheet(seed):
            valid += 1
            told = list(faults(sheet, page_size))
            faulty += bool(told)
            for fault in told[:8]:
                print(f"seed {seed}: {fault}", flush=True)
            if len(told) > 8:
                print(f"seed {seed}: and {len(told) - 8} more", flush=True)
    print(f"seeds {first} to {first + count - 1}: {valid} lessons in order, {faulty} faulty sheets")
    return faulty or int(valid * 2 < count)


if __name__ == "__main__":
    size: PageSize = "A4 portrait" if "portrait" in sys.argv else "A4"
    count, first, *_ = [*map(int, filter(str.isdigit, sys.argv[1:])), 0]
    sys.exit(main(count, first, size) != 0)
