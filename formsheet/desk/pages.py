"""The pages of the preview: the list of all lessons, and one lesson."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from time import localtime, strftime
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from formsheet.desk.board import Board, Known, Standing
from formsheet.problems.drawing import LineParts, hint_texts, line_parts, shown_text
from formsheet.problems.ranked import sections
from formsheet.report.table import summary
from formsheet.resources import resource
from formsheet.sheet.templating import environment
from formsheet.source import shown_name
from formsheet.suffixes import LESSON_SUFFIX

if TYPE_CHECKING:
    from formsheet.problems.problem import Problem
    from formsheet.source import Span


@dataclass(frozen=True)
class ShownLine:
    """A line of a lesson with the marked place in it, and its notes."""

    parts: LineParts
    label: str = ""
    elsewhere: str = ""  # the file, if it is not the problem's own


@dataclass(frozen=True)
class ShownProblem:
    """A problem as the page shows it."""

    severity: str
    place: str  # file, line and column, as in the terminal
    message: str
    code: str
    lines: tuple[ShownLine, ...]
    hints: tuple[str, ...]


def shown(problem: Problem) -> ShownProblem:
    """A problem in the words of the terminal."""
    lines = [ShownLine(line_parts(problem.span))]
    for related in problem.related:
        other = related.span.source is not problem.span.source
        place = f"in {_place(related.span)}" if other else ""
        lines.append(ShownLine(line_parts(related.span), related.label, place))
    return ShownProblem(
        severity=problem.severity.word,
        place=_place(problem.span),
        message=shown_text(problem.message()),
        code=problem.code,
        lines=tuple(lines),
        hints=tuple(map(shown_text, hint_texts(problem))),
    )


def _place(span: Span) -> str:
    return shown_text("{}:{}:{}".format(*span.place))


def address(name: str) -> str:
    """A name quoted as one segment of an address, so that relative links work on every page.

    A name that is not valid text is quoted as its bytes in the file system.
    """
    return quote(name, safe="", errors="surrogateescape")


def _printed(name: str) -> str:
    return shown_name(Path(name))


def _clock(seconds: float) -> str:
    return strftime("%H:%M:%S", localtime(seconds))


#: Functions for the templates.
_WORDS: dict[str, Any] = {
    "address": address,
    "clock": _clock,
    "printed": _printed,
    "sections": sections,
    "shown": shown,
    "standings": Standing,
    "summary": summary,
}


def page_files() -> dict[str, bytes]:
    """The style and the script of these pages, by name."""
    names = ("desk.css", "desk.js", "desk.svg")
    return {name: resource("templates", f"desk/{name}").read_bytes() for name in names}


def list_page(board: Board, folder: str, has_pdf: Callable[[str], bool]) -> str:
    """The page of all lessons and shelves with their states."""
    number, known = board.all()
    here = [each for each in known if each.standing is not Standing.GONE]
    return _page(
        "list.html", number,
        up="",
        folder=folder,
        has_pdf=has_pdf,
        lessons=[each for each in here if each.name.endswith(LESSON_SUFFIX)],
        shelves=[each for each in here if not each.name.endswith(LESSON_SUFFIX)],
        gone=[each for each in known if each.standing is Standing.GONE],
        counts=_counts(here),
    )  # fmt: skip


def _counts(known: Sequence[Known]) -> dict[str, int]:
    return {
        standing.value: count
        for standing in Standing
        if (count := sum(each.standing is standing for each in known))
    }


def lesson_page(board: Board, folder: str, name: str, *, has_pdf: bool) -> str | None:
    """The page of one lesson: problems and sheet; None if there never was one of that name."""
    number, known = board.all()
    for each in known:
        if each.name == name:
            return _page(
                "lesson.html", number, up="../", folder=folder, known=each, has_pdf=has_pdf
            )
    return None


def _page(template: str, number: int, *, up: str, **context: Any) -> str:
    """A page from a template; `up` is the relative address of the list."""
    found = environment().get_template(f"desk/{template}")
    return found.render(number=number, up=up, **_WORDS, **context)
