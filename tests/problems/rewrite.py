"""Writes the golden files anew, on purpose: `python -m tests.problems.rewrite [SLUG ...]`.

Look at what has changed before you keep it: the place, the mark, the words, the hints.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence

from formsheet.problems.registry import KINDS
from tests.problems.golden import golden_file, lesson_file, printed, problems_of


def rewrite(slugs: Sequence[str]) -> None:
    """The golden files of these kinds; tells those that have changed."""
    for slug in slugs:
        path = golden_file(slug)
        before = path.read_text(encoding="utf-8") if path.exists() else ""
        problems = problems_of(slug)
        if slug not in {problem.code for problem in problems}:
            sys.exit(f"{slug}: its lesson, {lesson_file(slug)}, does not have the problem")
        after = printed(problems)
        if after != before:
            path.write_text(after, encoding="utf-8")
            print(path.name)


if __name__ == "__main__":
    rewrite(sys.argv[1:] or list(KINDS))
