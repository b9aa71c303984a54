"""Where a lick may go, and which licks a bar is answered with."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from formsheet.judge.where import Placement, placements
from formsheet.lesson.shelves import Shelves
from formsheet.music.form import FORMS
from formsheet.problems import kinds
from formsheet.problems.drawing import hint_texts
from formsheet.stages import examine_file
from tests.helpers import lesson_of, lesson_text, problems_of

LICKS = """lick home on I
  q 2d 3d 4d 2d
lick away on IV
  q 4b 5b 6b 4b
lick five on V
  q 4d 6d 4d 1d
lick rub on V
  h 3d' 2d''
lick two on I | V
  q 2d 3d 4d 2d | 1d 1d h 4d
"""
PLAY = "play\n  every I home\n  every IV away\n  every V {five}"


def placed(lick: str, form: str = "12-bar standard") -> list[Placement]:
    lesson = lesson_of(lesson_text(LICKS + PLAY.format(five="five")))
    return placements(lesson.licks[lick], FORMS[form], lesson)


def chords(placement: Placement) -> str:
    return " | ".join(" ".join(map(str, bar)) for bar in placement.chords)


def test_every_chord_of_the_form_once_the_best_first() -> None:
    assert [chords(each) for each in placed("home")] == ["I7", "V7", "IV7"]


def test_bars_where_each_stretch_begins() -> None:
    assert placed("home")[0].bars == (1, 2, 3, 4, 7, 8, 11)


def test_a_lick_of_two_bars_is_laid_over_pairs() -> None:
    (own,) = [each for each in placed("two") if each.written_for]
    assert (chords(own), own.bars) == ("I7 | V7", (8, 11))


def test_a_clash_goes_last() -> None:
    found = placed("home", "12-bar minor")
    assert not found[0].clashes or all(each.clashes for each in found)


def test_what_is_written_for_a_chord_is_known() -> None:
    assert {chords(each): each.written_for for each in placed("five")} == {
        "V7": True,
        "I7": False,
        "IV7": False,
    }


def wanted(text: str, code: str) -> kinds.LickWanted:
    (problem, *_) = [p for p in problems_of(text) if p.code == code]
    assert isinstance(problem, kinds.LickWanted)
    return problem


def test_an_empty_bar_is_answered_with_what_fits_best() -> None:
    text = lesson_text(LICKS + PLAY.format(five="five")).replace("  every V five", "")
    problem = wanted(text, "bar-without-lick")
    assert problem.fitting == ["five", "rub"]
    assert "add `every V7 five` below" in hint_texts(problem)[0]


def test_a_wrong_lick_is_answered_without_itself() -> None:
    problem = wanted(lesson_text(LICKS + PLAY.format(five="home")), "lick-wrong-chord")
    assert problem.fitting == ["five", "rub"]
    assert "home" not in "".join(hint.text for hint in problem.other_hints())


# Our own choice: three offers.
@pytest.mark.limit("problems.kinds.play._MOST_OFFERS")
def test_three_licks_are_offered() -> None:
    licks = "".join(f"lick {name} on V\n  w 1d\n" for name in ("oak", "ash", "elm", "fir"))
    problem = wanted(lesson_text(licks + "play\n  bars 1-11 rest"), "bar-without-lick")
    assert problem.fitting == ["oak", "ash", "elm"]


# Our own choice: the notes and rests of the licks that are tried. 312 licks of 16 come first.
@pytest.mark.limit("judge.assign._MOST_TRIED")
@pytest.mark.parametrize(
    ("music", "offered"),
    [("e 1d 1d 1d 1d 1d 1d 1d 1d", ["last"]), ("s 1d 1d e 1d 1d 1d 1d 1d 1d 1d", [])],
)
def test_licks_of_5000_notes_are_tried(music: str, offered: list[str]) -> None:
    before = "".join(f"lick a{at} on IV\n  [ s 4b ]x16\n" for at in range(312))
    text = lesson_text(f"{before}lick last on V\n  {music}\nplay\n  bars 1-11 rest")
    assert wanted(text, "bar-without-lick").fitting == offered


@pytest.mark.limit("judge.assign._MOST_OFFERS")
def test_three_licks_of_a_shelf_are_offered(tmp_path: Path) -> None:
    licks = "".join(f"lick {name} on V\n  w 1d\n" for name in ("oak", "ash", "elm", "fir", "yew"))
    (tmp_path / "trees.licks").write_text(licks, encoding="utf-8")
    path = tmp_path / "tune.lesson"
    body = "use oak as one from trees\nlick a on I\n  w 2d\nplay\n  bars 1-11 rest"
    path.write_text(lesson_text(body), encoding="utf-8")
    problems = examine_file(path, path.name, Shelves(tmp_path)).problems
    (problem,) = [each for each in problems if isinstance(each, kinds.LickWanted)]
    assert len(problem.offers.shelved) == 3


def test_share_of_the_time_that_sounds_on_chord_tones() -> None:
    """Three quarters of four are G, B and D over G7; a bar of rests does not count."""
    text = lesson_text("lick a on I | I\n  q 2d 3d 4d 4b | w -\nplay\n  bars 1-12 rest")
    lesson = lesson_of(text)
    (first, *_) = placements(lesson.licks["a"], FORMS["12-bar standard"], lesson)
    assert (chords(first), first.share) == ("I7 | I7", Fraction(3, 4))
