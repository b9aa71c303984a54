"""What `uses` prints of a folder."""

from __future__ import annotations

from pathlib import Path

import pytest

from formsheet.library.likeness import alike
from formsheet.library.usage import Home, Use
from formsheet.report.uses import bars_text, changes_report, uses_report
from tests.library.folders import read
from tests.library.test_usage import ONE, SHELF, TWO

GOLDEN = """\
shelf/corner.licks, used by one.lesson and two.lesson
  lick  written on  in          as      bars
  home  I, IV       one.lesson          1-3
                    two.lesson  stroll  chorus 2: 3
  walk  I           two.lesson          chorus 1: 1, 3; chorus 2: 1
  idle  I                               never played
  rhythm trot: home

Licks that are never played:
  idle  shelf/corner.licks
  left  two.lesson

2 lessons, 1 shelf, 5 licks, 1 rhythm"""


def test_report(tmp_path: Path) -> None:
    made = read(tmp_path, shelf__corner=SHELF, one=ONE, two=TWO)
    lines = uses_report(made, alike(made.licks.values()), whole=False)
    assert "\n".join(lines) == GOLDEN


def test_whole_report_has_the_licks_of_lessons(tmp_path: Path) -> None:
    made = read(tmp_path, shelf__corner=SHELF, one=ONE, two=TWO)
    lines = uses_report(made, [], whole=True)
    at = lines.index("two.lesson")
    assert lines[at + 2 : at + 4] == [
        "  own   IV          every chorus: 2",
        "  left  I           never played",
    ]


def test_licks_that_are_alike_in_many_files(tmp_path: Path) -> None:
    made = read(tmp_path, **{f"shelf__m{at}": "lick one on I\n  w 2d\n" for at in range(9)})
    lines = uses_report(made, alike(made.licks.values()), whole=False)
    at = lines.index("Licks that are the same tab and rhythm:")
    assert lines[at + 1].startswith("  one in shelf/m0.licks; one in shelf/m1.licks; ")
    assert lines[at + 1].endswith("; 5 more")


def test_files_with_errors_are_named(tmp_path: Path) -> None:
    made = read(tmp_path, one="titel\n")
    assert "  one.lesson" in uses_report(made, [], whole=False)


def test_rhythm_that_no_lick_is_in(tmp_path: Path) -> None:
    lines = uses_report(read(tmp_path, shelf__x="rhythm trot h x x\n"), [], whole=False)
    assert lines[:5] == ["shelf/x.licks, used by no file", "  rhythm trot: no lick", "",
                         "Rhythms that no lick uses:", "  trot  shelf/x.licks"]  # fmt: skip


@pytest.mark.parametrize(
    ("bars", "choruses", "text"),
    [
        ((), 1, "not played"),
        (((1, 1), (1, 2), (1, 3), (1, 7)), 1, "1-3, 7"),
        (((1, 1), (2, 1), (2, 2)), 2, "chorus 1: 1; chorus 2: 1, 2"),
        (((1, 1), (2, 1), (2, 2), (3, 1)), 4, "choruses 1, 3: 1; chorus 2: 1, 2"),
        (((1, 1), (1, 2), (2, 1), (2, 2)), 2, "every chorus: 1, 2"),
    ],
)
def test_bars(bars: tuple[tuple[int, int], ...], choruses: int, text: str) -> None:
    assert bars_text(Use("a.lesson", ("a",), bars, choruses)) == text


def test_what_changes(tmp_path: Path) -> None:
    made = read(tmp_path, shelf__corner=SHELF, one=ONE, two=TWO)
    home = Home("shelf/corner.licks", "home")
    assert changes_report(made, "the lick", "home", [home]) == [
        "If the lick home is edited, 2 lessons change:",
        "  lesson      lick    bars",
        "  one.lesson  home    1-3",
        "  two.lesson  stroll  chorus 2: 3",
    ]
    idle = Home("shelf/corner.licks", "idle")
    assert changes_report(made, "the lick", "idle", [idle]) == ["No lesson plays idle."]
