"""The golden set: a lesson with one mistake of each kind, and what is printed for it.

`tests/errors/SLUG.lesson` is the lesson, or `tests/errors/SLUG/tune.lesson` where shelves lie
beside it; `tests/errors/SLUG.txt` is the whole output. To add a kind: write its lesson, run
`python -m tests.problems.rewrite`, and read the new output as a teacher would.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import ExitStack, chdir, contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from unittest.mock import patch

from formsheet.language.files import LARGEST_FILE
from formsheet.lesson.shelves import Shelves
from formsheet.problems.drawing import drawn
from formsheet.problems.problem import Problem
from formsheet.source import Source
from formsheet.stages import examine, examine_file

ERRORS = Path(__file__).parent.parent / "errors"

#: Kinds whose file cannot lie in the folder: there is none, or it is made when it is needed.
WITHOUT_FILE = ("file-missing", "file-too-large", "file-unreadable")


def golden_file(slug: str) -> Path:
    """Where the expected output of a kind stands."""
    return ERRORS / f"{slug}.txt"


def lesson_file(slug: str) -> Path:
    """The lesson of a kind, from the folder of the golden set."""
    in_folder = Path(slug) / "tune.lesson"
    return in_folder if (ERRORS / in_folder).exists() else Path(f"{slug}.lesson")


@contextmanager
def _surroundings(slug: str) -> Iterator[None]:
    """Where the lesson of a kind is found by its relative name."""
    with ExitStack() as stack:
        if slug not in WITHOUT_FILE:
            stack.enter_context(chdir(ERRORS))
        else:
            stack.enter_context(chdir(stack.enter_context(TemporaryDirectory())))
        if slug == "file-too-large":
            Path(f"{slug}.lesson").write_bytes(b"#" * (LARGEST_FILE + 1))
        if slug == "file-unreadable":
            Path(f"{slug}.lesson").touch()
            refused = PermissionError(13, "Permission denied")
            stack.enter_context(patch.object(Path, "open", side_effect=refused))
        if slug == "problems-left":
            stack.enter_context(patch("formsheet.problems.problem.MOST_SHOWN", 0))
        yield


def problems_of(slug: str) -> tuple[Problem, ...]:
    """All problems of the lesson of a kind."""
    with _surroundings(slug):
        path = lesson_file(slug)
        return examine_file(path, path.as_posix(), Shelves(path.parent)).problems


def printed(problems: tuple[Problem, ...]) -> str:
    """What a golden file holds."""
    return "".join(f"{drawn(problem)}\n" for problem in problems)


def text_of(slug: str) -> str:
    """The lesson of a kind."""
    return (ERRORS / lesson_file(slug)).read_text(encoding="utf-8")


def problems_with(slug: str, text: str) -> tuple[Problem, ...]:
    """The problems that are left when a text is put in the place of the lesson of a kind."""
    with _surroundings(slug):
        path = lesson_file(slug)
        return examine(Source(path.as_posix(), text, path), Shelves(path.parent)).problems
