"""Where a lick may go, and which licks a bar is answered with."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formsheet.commands.opened import over_form
from formsheet.judge.where import Placement, placements
from formsheet.lesson.shelves import Shelves
from formsheet.music.form import FORMS as FORMS_BY_NAME
from formsheet.problems import kinds
from formsheet.problems.drawing import hint_texts
from formsheet.stages import examine_file
from tests.helpers import lesson_of, lesson_text, over, problems_of, slugs_of
from tests.judge.fitting import FLAT_FIVE, FORMS, KEY_NOTE, MEANT, SUSPENDED, bars

few = settings(max_examples=40, derandomize=True, deadline=None, database=None)
REMARKS = {SUSPENDED, FLAT_FIVE, KEY_NOTE, MEANT}

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
    return placements(lesson.licks[lick], FORMS_BY_NAME[form], lesson)


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


# ---- How well ----------------------------------------------------------------------------


def placement(chords: str, music: str, **facts: str) -> Placement:
    """A lick over some chords."""
    lesson = lesson_of(over(chords, music, **facts))
    (found,) = placements(lesson.licks["run"], lesson.form, lesson)
    return found


def test_score_is_the_mean_of_the_bars_that_sound() -> None:
    """Half a bar on the 6 of G7, half on its root; a bar of rests does not count."""
    assert placement("I7 | I7", "h 2d 5b | w -").score == Fraction(3, 4)
    assert placement("I7 | I7", "h 2d 5b | w 2d").score == Fraction(7, 8)


@pytest.mark.limit("judge.where.FITS_WELL")  # our own choice: three quarters
@pytest.mark.parametrize(
    ("music", "score", "verdict"),
    [
        ("h 4b 6d", Fraction(3, 4), "fits well"),
        ("q. 4b 6d e 4b 6d", Fraction(3, 4), "fits well"),
        ("q 4b 6d 6d -", Fraction(2, 3), "goes"),
        ("w 6d", Fraction(1, 2), "goes"),
    ],
)
def test_a_lick_fits_well_with_a_score_of_three_quarters(
    music: str, score: Fraction, verdict: str
) -> None:
    found = placement("IV7", music)
    assert (found.score, found.verdict) == (score, verdict)


# Our own choice: `fit` and `check` say the same.
@pytest.mark.parametrize(
    ("chord", "music", "verdict"),
    [
        ("IV7", "h. 4b q 3d", "hardly fits"),  # a warning, however much is on the chord
        ("IV7", "h. 4b q 3d!", "goes"),  # meant: a remark
        ("I7", "q 3d 4d h 4d'", "goes"),  # a b5 that stays: a remark
        ("V7", "q 4d 1d 6d 2d", "goes"),  # the key note over V: a remark
        ("I7", "q 5d h 4b q 3d", "goes"),  # a suspension: a remark
        ("IV7", "e 3d 5b h. 5b", "fits well"),  # nothing is said
    ],
)
def test_a_warning_or_a_remark_keeps_a_lick_from_fitting_well(
    chord: str, music: str, verdict: str
) -> None:
    assert placement(chord, music).verdict == verdict


# Common practice, no source: a riff of the key's own notes is left over all three chords.
@pytest.mark.parametrize(("chord", "verdict"), [("I7", "fits well"), ("V7", "goes")])
def test_a_riff_left_over_v_goes(chord: str, verdict: str) -> None:
    assert placement(chord, "e 4d 5d 4d 3d'' h 2d").verdict == verdict


def test_best_has_fewest_warnings_then_the_best_score_then_fewest_remarks() -> None:
    clash, colour, remark, good = (
        placement("IV7", music) for music in ("h. 4b q 3d", "w 6d", "h 4b q 6d! 2d'", "h 4b 6d")
    )
    best = sorted([clash, colour, remark, good], key=lambda each: each.merit, reverse=True)
    assert best == [good, remark, colour, clash]
    assert good.score == remark.score


@few
@given(st.sampled_from(["4/4", "12/8"]), st.data(), st.sampled_from(FORMS),
       st.sampled_from(["1st", "2nd", "3rd", "12th"]))  # fmt: skip
def test_fit_and_check_never_contradict_each_other(
    meter: str, data: st.DataObject, form: str, position: str
) -> None:
    music = data.draw(bars(meter))
    found = placement(form, music, meter=meter, position=position)
    codes = set(slugs_of(over(form, music, meter=meter, position=position)))
    assert (found.verdict == "hardly fits") is ("note-clash" in codes)
    assert bool(found.remarks) is bool(codes & REMARKS)


@few
@given(bars(), st.sampled_from(["12-bar standard", "12-bar minor", "8-bar"]))
def test_a_lick_hardly_fits_where_check_would_warn_of_it(music: str, form: str) -> None:
    """The lick, written for each stretch of a form in turn."""
    lesson = over_form(lesson_of(over("I7 | IV7 | V7", music)), FORMS_BY_NAME[form])
    for found in placements(lesson.licks["run"], lesson.form, lesson):
        codes = slugs_of(over(chords(found), music))
        assert (found.verdict == "hardly fits") is ("note-clash" in codes)
