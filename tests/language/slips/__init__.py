"""Slips as teachers make them, one a lesson, and what is printed for each.

`NAME.lesson` is the lesson, `NAME.txt` the output. `python -m tests.language.slips` writes the
outputs anew: read each change as a teacher would.
"""

from __future__ import annotations

from pathlib import Path

from formsheet.lesson.shelves import Shelves
from formsheet.problems.problem import Edit, Problem
from formsheet.source import Source
from formsheet.stages import examine
from tests.problems.golden import printed

FOLDER = Path(__file__).parent
NAMES = sorted(path.stem for path in FOLDER.glob("*.lesson"))


def text_of(name: str) -> str:
    """The lesson of a slip."""
    return (FOLDER / f"{name}.lesson").read_text(encoding="utf-8")


def problems_of(text: str, name: str) -> tuple[Problem, ...]:
    """All problems of a lesson."""
    return examine(Source(f"{name}.lesson", text), Shelves(FOLDER)).problems


def output_of(name: str) -> str:
    """What is printed for a slip."""
    return printed(problems_of(text_of(name), name)) or "no findings\n"


def edits_of(name: str) -> list[Edit]:
    """The first edit that each problem of a slip offers."""
    found = []
    for problem in problems_of(text_of(name), name):
        found += [hint.edit for hint in problem.hints() if hint.edit][:1]
    return found


def mended(name: str) -> str:
    """The lesson with these edits made."""
    text = Source(name, text_of(name)).text
    for edit in sorted(edits_of(name), key=lambda edit: -edit.span.start):
        text = text[: edit.span.start] + edit.text + text[edit.span.end :]
    return text
