"""Where a lick may go, and which licks a bar is answered with."""

from __future__ import annotations

from formsheet.judge.where import Placement, placements
from formsheet.music.form import FORMS
from formsheet.problems import kinds
from formsheet.problems.drawing import hint_texts
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
