"""One input, tried as a lesson, as a shelf, or as text alone: why it fails, if it does."""

from __future__ import annotations

import re
import signal
import time
import traceback
from collections.abc import Callable
from enum import Enum
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from types import FrameType

from formsheet.language.parse import parse
from formsheet.language.tidy import tidied
from formsheet.lesson.shelves import Shelves
from formsheet.problems.drawing import as_data, drawn
from formsheet.report.data import check_data
from formsheet.report.table import check_table, heading
from formsheet.source import Source
from formsheet.stages import Examined, examine, examine_any, examine_file
from tests.faults.seeds import SHORT

LONGEST_S = 1.0  # of processor time for one input
_STOPPED_S = 20.0  # of processor time, after which an input is stopped, to see where it is

_NAMES = re.compile(r"^[ \t]*(?:lick|turnaround|rhythm)[ \t]+([^\W\d_][\w'’-]*)", re.MULTILINE)


class Kind(Enum):
    """How an input is taken."""

    TEXT = "text"  # parsed alone, its mistakes told
    TIDY = "file to tidy"  # set anew, which is to change nothing of what it says
    LESSON = "lesson"  # the whole check of a lesson
    SHELF = "shelf"  # the whole check of a shelf, and of a lesson that takes all that is on it


def tried(kind: Kind, text: str) -> str | None:
    """Why a text fails; None where it does not."""
    signal.signal(signal.SIGPROF, _stop)
    signal.setitimer(signal.ITIMER_PROF, _STOPPED_S)
    began = time.process_time()
    try:
        _TRIALS[kind](text)
    except Exception:
        return traceback.format_exc()
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
    took = time.process_time() - began
    return f"took {took:.1f} s" if took > LONGEST_S else None


def _stop(_number: int, _frame: FrameType | None) -> None:
    raise TimeoutError(f"at work for more than {_STOPPED_S} s")


@cache
def _shelves() -> Shelves:
    """Shelves that no input changes, read once."""
    return Shelves(SHORT)


@cache
def _folder() -> TemporaryDirectory[str]:
    """Where a shelf is put that a lesson is to take from; gone when the process ends."""
    return TemporaryDirectory()


def _as_text(text: str) -> None:
    _, problems = parse(Source("fuzzed.lesson", text))
    for problem in problems:
        drawn(problem), as_data(problem)


def _as_file_to_tidy(text: str) -> None:
    tidied(Source("fuzzed.lesson", text))


def _as_lesson(text: str) -> None:
    _report(examine(Source("fuzzed.lesson", text, SHORT / "fuzzed.lesson"), _shelves()))


def _as_shelf(text: str) -> None:
    folder = Path(_folder().name)
    path = folder / "fuzzed.licks"
    path.write_text(text, encoding="utf-8")
    _report(examine_file(path, path.name, Shelves(folder)))
    names = list(dict.fromkeys(_NAMES.findall(text)))
    lesson = (
        f"title A\nharp C\ntempo 60\nform 8-bar\nuse {', '.join(names) or 'home'} from fuzzed\n"
        f"play\nbars 1-8 {names[0] if names else 'home'}"
    )
    _report(examine_any(Source("a.lesson", lesson, folder / "a.lesson"), Shelves(folder)))


def _report(each: Examined) -> None:
    """All that `check` prints, as text and as data."""
    for problem in each.problems:
        drawn(problem)
    check_data(each)
    if each.lesson and each.tune:
        heading(each.lesson), check_table(each, 80)


_TRIALS: dict[Kind, Callable[[str], None]] = {
    Kind.TEXT: _as_text,
    Kind.TIDY: _as_file_to_tidy,
    Kind.LESSON: _as_lesson,
    Kind.SHELF: _as_shelf,
}
