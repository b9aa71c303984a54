"""Files as large as a lesson may be, of one thing alone: none takes long, however it is read."""

from __future__ import annotations

import gc
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from formsheet.language.files import LARGEST_FILE
from formsheet.lesson.shelves import Shelves
from formsheet.problems.drawing import as_data, drawn
from formsheet.problems.problem import MOST_SHOWN
from formsheet.stages import Examined, examine_file
from tests.helpers import lesson_text, own_form

#: How much longer than a lesson of the same size that nothing is wrong with, in processor time
#: (own choice). What grows with the square of the file takes from ten times as long on.
_MOST_TIMES = 6.0

_LICK = "lick a on I\n  w 2d\n"
_LONG_FORM = own_form(" |\n  | ".join(["I | I | I | I"] * 16))


def _many(row: str, head: str = "", tail: str = "", **facts: str) -> str:
    """A lesson of as many rows as a file may hold; `@` is the number of each."""
    around = len(lesson_text(head + tail, **facts).encode())
    count = (LARGEST_FILE - around) // len(row.replace("@", "12345").encode())
    rows = "".join(row.replace("@", f"{number:05}") for number in range(count))
    return lesson_text(f"{head}{rows}{tail}", **facts)


_DEEP = (LARGEST_FILE - 200) // 6
_MANY_LICKS = "".join(f"lick a{number:04} on I\nw 2d\n" for number in range(2500))
_LONG_RHYTHM = "rhythm r s x - - - - - - - - - - - - - - - | [ [ s - ]x16 | ]x58\n"
_FILES = {
    "open quotes": _many('" ', f"{_LICK}"),
    "repeat signs": _many("|: 4b :| ", "lick a on I\n  q "),
    "repeat signs line by line": _many("  |: q 4b :|\n", "lick a on I\n"),
    "round brackets": _many("(4b 5b ", "lick a on I\n  q "),
    "round brackets in round brackets": _many("(4b (5b ", "lick a on I\n  q ", ")"),
    "closed round brackets": _many("(4b 5b) ", "lick a on I\n  q "),
    "values behind": _many("4bq ", "lick a on I\n  "),
    "ties": _many("4b~ ", "lick a on I\n  q "),
    "titles for names": _many('  every I "B@"\n', f"{_LICK}play\n"),
    "bullets": _many("• every I a\n", f"{_LICK}play\n"),
    "two facts on a line": _many("harp C position 2nd\n"),
    "links": _many("link a https:@\n"),
    "endings": _many("  ending I IV | I V\n", f"{_LICK}play\n"),
    "pick-ups once": _many("  pickup once e 1d 2b\n", "lick a on I\n"),
    "quotes of all languages": _many("„a“ «b» ", "say "),
    "values that are none": _many("Q ", "lick a on I\n  q "),
    "names of no lick, many licks": _many("every I b@\n", f"{_MANY_LICKS}play\n"),
    "deep brackets": lesson_text(f"lick a on I\n  {'[ ' * _DEEP}q 1d {']x1 ' * _DEEP}"),
    "deep empty brackets": lesson_text(f"lick a on I\n  {'[ ' * _DEEP}{']x2 ' * _DEEP}"),
    "licks in a long rhythm": _many("lick c@ on I in r\n1d\n", _LONG_RHYTHM),
    "long pick-ups": _many("lick c@ on I\npickup [ [ s - ]x40 ]x40\nw 1d\n"),
    "other chords for a lick": _many(
        ", IV", "lick a on IV", "\n  w 1d\nplay x12\n  bars 1-64 a x64", form=_LONG_FORM
    ),
    "choruses of nothing": _many("lick a@ on I\nw 2d\n", tail="play\n" * 800, form=own_form("I")),
    "one lick under many names": lesson_text(
        f"use {', '.join(f'a as b{n:05}' for n in range(7000))} from big\n{_LICK}play\n  every I a"
    ),
    "a faulty shelf again and again": _many("use b@ from faulty\n", tail=_LICK),
    "late facts": _many("date a\n", "say a\n" * 7000 + _LICK),
}  # fmt: skip


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the lessons lie beside two shelves."""
    found = tmp_path_factory.mktemp("lessons")
    (found / "big.licks").write_text("lick a on I\n[ [ s 1d ]x16 | ]x60\n")
    (found / "faulty.licks").write_text("lick a on I\n" + "Q 1 " * 1000)
    return found


def _all_of(text: str, folder: Path) -> Examined:
    path = folder / "a.lesson"
    path.write_text(text, encoding="utf-8")
    each = examine_file(path, path.name, Shelves(folder))
    for problem in each.problems:
        drawn(problem), as_data(problem)
    return each


@pytest.fixture(scope="module")
def longest(folder: Path) -> Iterator[float]:
    """Seconds that a file may take, on this machine as busy as it is.

    What other tests have left in memory is kept from the collector, which would go through it
    again and again.
    """
    gc.collect()
    gc.freeze()
    yield _MOST_TIMES * _time_of(_many("lick c@ on I\n  q 4b 5b 6b 4b\n"), folder)[0]
    gc.unfreeze()


def _time_of(text: str, folder: Path) -> tuple[float, Examined]:
    assert LARGEST_FILE * 0.9 < len(text.encode()) <= LARGEST_FILE
    began = time.process_time()
    each = _all_of(text, folder)
    return time.process_time() - began, each


@pytest.mark.parametrize("text", _FILES.values(), ids=_FILES)
def test_no_file_takes_long(text: str, folder: Path, longest: float) -> None:
    took, each = _time_of(text, folder)
    assert took < longest
    assert each.problems
    assert len(each.problems) <= MOST_SHOWN + 1


def test_names_as_long_as_a_file_are_cut(folder: Path) -> None:
    text = lesson_text(f"lick {'a' * 40_000} on I\n  w 1d\nplay\n  every I {'b' * 40_000}")
    for problem in _all_of(text, folder).problems:
        assert len(drawn(problem)) < 1000
