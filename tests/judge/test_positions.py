"""A tab written for another position: said once, first, in place of all else about the fit.

Rule, numbers and words are our own choice. That 2nd, 3rd and 1st are tried first is common
practice, no source. In which positions a note clashes follows from the avoid notes, whose source
is named in `formsheet/judge/verdicts.py`.
"""

from __future__ import annotations

import re

import pytest

from formsheet.lesson.shelves import Shelves
from formsheet.music.harp import Harp
from formsheet.music.key import POSITIONS
from formsheet.problems.kinds import PositionWrong
from formsheet.problems.problem import Problem, Severity
from formsheet.problems.ranked import sections
from formsheet.source import Source
from formsheet.stages import Examined, examine
from tests.helpers import examined, lesson_text, own_form, slugs_of, told
from tests.lessons import LESSONS
from tests.test_readme import README

#: At this tempo nobody runs out of air in a chorus of draws.
QUICK = {"tempo": "160", "learn": "160"}

#: What is said of how the tune is played, whatever its key.
PLAYING = ("bend-hard", "breath-runs-out")

# On a C harp 3rd position is in D, 2nd in G. 4 draw is D: the root of D7, the 5 of G7. 2 draw is G:
# the 4 of D7, the root of G7. 3 draw half bent is Bb: the b6 of D7, the b3 of G7.
LICKS = """
lick fits on I
  w 4d
lick four on I
  w 2d
lick six on I
  w 3d'
lick nowhere on I
  q 3d' 4d' 7d 4b
play
"""


def bars(*counts: tuple[str, int], licks: str = LICKS, **facts: str) -> str:
    """A lesson in 3rd position on bars of I7, with so many bars of each lick."""
    form = own_form(" | ".join(["I7"] * sum(count for _, count in counts)))
    placed = ", ".join(f"{lick} x{count}" for lick, count in counts if count)
    bars = f"  bars 1-{sum(count for _, count in counts)} {placed}"
    return lesson_text(licks + bars, form=form, position="3rd", **QUICK, **facts)


def wrong_in(found: Examined) -> PositionWrong | None:
    wrong = [problem for problem in found.problems if isinstance(problem, PositionWrong)]
    assert len(wrong) <= 1
    return wrong[0] if wrong else None


def in_position(text: str, position: str) -> str:
    """A lesson with another position written in it."""
    return re.sub(r"(?m)^(position +)\S+", rf"\g<1>{position}", text)


def without_a_clash(text: str) -> list[str]:
    """The positions in which no note of a lesson is warned of."""
    found = {position: slugs_of(in_position(text, position)) for position in POSITIONS}
    return [at for at in found if not {"note-clash", "position-wrong"} & set(found[at])]


def mended(text: str, problem: Problem) -> str:
    """A lesson after the edit of the one hint of a problem."""
    (hint,) = problem.hints()
    assert hint.edit
    return text[: hint.edit.span.start] + hint.edit.text + text[hint.edit.span.end :]


# ---- What is said ------------------------------------------------------------------------


def readme_lesson() -> str:
    found = re.search(r"```lesson\n(title +Kitchen Shuffle.*?)```", README, re.DOTALL)
    assert found
    return found[1]


def test_the_lesson_of_the_readme_with_the_wrong_position() -> None:
    assert slugs_of(readme_lesson()) == []
    text = readme_lesson().replace("position  2nd", "position  3rd")
    problem = wrong_in(examined(text))
    assert problem
    assert problem.message() == (
        "notes clash in 10 of 12 bars in 3rd position; in 2nd position in none: is this 2nd "
        "position?"
    )
    assert (problem.severity, problem.span.text) == (Severity.WARNING, "3rd")
    assert [hint.text for hint in problem.hints()] == ["write `position 2nd`"]
    assert slugs_of(text) == ["position-wrong"]
    assert mended(text, problem) == readme_lesson()


FIRST_POSITION = """
lick porch on I
  q 4b 5b 6b 4b
lick creek on IV
  q 5d 6d 7b 5d
lick gate on V
  q 6b 7d 8d 6b
play
  every I porch
  every IV creek
  every V gate
"""


def test_a_position_that_is_not_written_is_the_second_and_is_said_at_the_harp() -> None:
    text = lesson_text(FIRST_POSITION, position=None, **QUICK)
    problem = wrong_in(examined(text))
    assert problem
    assert (problem.span.text, problem.span.line) == ("C", 2)
    assert "in 2nd position; in 1st position in none" in problem.message()
    after = mended(text, problem)
    assert "tempo 160\nposition 1st\n" in after
    assert slugs_of(after) == []


def test_it_takes_the_place_of_all_that_is_said_of_the_fit_and_of_nothing_else() -> None:
    """Of clashes, the key note over V, the end, plain triads: these depend on the key."""
    licks = "lick a on I\n q 2d 3d' 2d 2d\nlick b on IV\n q 4b 5b 6b 4b\n"
    licks += "lick c on V\n q 3d'' 4d h 4d\nlick d on I\n q 3d''' 4b 4d 4b\n"
    play = "play x2\n every I a\n every IV b\n every V c\n bar 3 d"
    text = lesson_text(
        licks + play, form=own_form("I | I | I | IV | I | V | I | V"), level="beginner", **QUICK
    )
    assert set(slugs_of(text)) > {"tune-ends-away", *PLAYING}
    in_third = text.replace("position 2nd", "position 3rd")
    assert slugs_of(in_third) == [
        "position-wrong", *(slug for slug in slugs_of(text) if slug in PLAYING)
    ]  # fmt: skip


def test_it_stands_first_of_what_matters_even_if_others_are_heard_in_more_bars() -> None:
    licks = LICKS.replace("w 4d", "h 3d'' 3d''")
    found = examined(bars(("fits", 4), ("four", 4), ("six", 4), licks=licks, level="beginner"))
    first = sections(found.problems)[0][1]
    assert first[0].code == "position-wrong"
    bars_heard = [len(problem.bars_heard) for problem in first]
    assert bars_heard[0] < max(bars_heard)
    assert {problem.severity for problem in first} == {Severity.WARNING}


# ---- In which position ---------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "right", "wrong"),
    [
        ("last-tram-but-one", "2nd", "3rd 6th 7th 9th"),
        ("orchard-gate-in-eight", "2nd", "3rd 6th 7th 9th"),
        ("mill-in-winter", "2nd", "6th 7th 8th 9th 10th 11th"),  # natural minor tuning
        ("slow-barge", "3rd", "7th 8th 9th 10th 11th 12th"),  # minor; 1st would do as well
    ],
)
def test_demo_lessons_in_all_other_positions(name: str, right: str, wrong: str) -> None:
    """Where a tab fits as it is, or nowhere else, nothing is said."""
    path = LESSONS / f"{name}.lesson"
    text = path.read_text(encoding="utf-8")
    said = {}
    for position in POSITIONS:
        source = Source(path.name, in_position(text, position), path)
        problem = wrong_in(examine(source, Shelves(LESSONS)))
        if problem:
            said[position] = problem.better
    assert said == dict.fromkeys(wrong.split(), right)


def test_of_equal_positions_the_second_then_the_third_then_the_first() -> None:
    """Common practice, no source."""
    kitchen = in_position(readme_lesson(), "3rd")
    assert without_a_clash(kitchen) == ["1st", "2nd", "5th", "11th", "12th"]
    problem = wrong_in(examined(kitchen))
    assert problem
    assert problem.better == "2nd"
    barge = (LESSONS / "slow-barge.lesson").read_text(encoding="utf-8")
    assert without_a_clash(barge) == ["1st", "3rd"]
    problem = wrong_in(examined(in_position(barge, "7th")))
    assert problem
    assert problem.better == "3rd"


def test_the_fewest_bars_count_before_the_order_of_the_positions() -> None:
    """In 2nd position the 4 blow of the last bar clashes, in 1st nothing does. Our own choice."""
    licks = "lick a on I\n w 2d\nlick b on IV\n w 4b\nlick c on I\n w 4b\n"
    form = own_form("I7 | I7 | I7 | I7 | IV7 | IV7 | I7 | I7")
    play = "play\n every I a\n every IV b\n bar 8 c"
    problem = wrong_in(examined(lesson_text(licks + play, form=form, position="3rd")))
    assert problem
    assert (problem.better, problem.left) == ("1st", 0)


def test_with_a_student_on_another_harp_it_is_the_same() -> None:
    text = bars(("four", 6), ("six", 6))
    found = examine(Source("test.lesson", text), Shelves(LESSONS), Harp("A"))
    problem = wrong_in(found)
    assert problem
    assert problem.better == "2nd"


# ---- Limits, all our own choice ------------------------------------------------------------


@pytest.mark.limit("judge.positions.WRONG_SHARE")
@pytest.mark.parametrize(("clashing", "is_said"), [(6, False), (7, True)])
def test_more_than_half_of_the_bars_hold_warnings(clashing: int, is_said: bool) -> None:
    found = examined(bars(("fits", 12 - clashing), ("four", clashing - 2), ("six", 2)))
    assert bool(wrong_in(found)) is is_said, told(found.problems)


def test_bars_of_rests_do_not_count() -> None:
    text = bars(("four", 4), ("six", 2), ("fits", 2), ("rest", 6))
    problem = wrong_in(examined(text))
    assert problem
    assert problem.message().startswith("notes clash in 6 of 8 bars")


def test_notes_that_are_meant_do_not_count() -> None:
    licks = LICKS.replace("w 2d", "w 2d!")
    assert not wrong_in(examined(bars(("four", 6), ("six", 6), licks=licks)))


@pytest.mark.limit("judge.positions.FEWEST_BARS")
@pytest.mark.parametrize(("clashing", "is_said"), [(3, False), (4, True)])
def test_a_few_bars_say_nothing_about_a_key(clashing: int, is_said: bool) -> None:
    found = examined(bars(("fits", 1), ("four", clashing - 1), ("six", 1)))
    assert bool(wrong_in(found)) is is_said, told(found.problems)


@pytest.mark.limit("judge.positions.FEWEST_NOTES")
@pytest.mark.parametrize(("six", "is_said"), [(0, False), (1, True)])
def test_one_note_that_clashes_in_many_bars_is_a_slip_in_that_note(six: int, is_said: bool) -> None:
    found = examined(bars(("fits", 4), ("four", 8 - six), ("six", six)))
    assert bool(wrong_in(found)) is is_said, told(found.problems)


def test_the_key_note_over_five_is_another_note_that_is_off() -> None:
    licks = "lick a on I\n w 2d\nlick b on V\n w 4d\nplay\n every I a\n every V b"
    form = own_form("I7 | I7 | I7 | I7 | V7 | I7 | I7 | I7")
    problem = wrong_in(examined(lesson_text(licks, form=form, position="3rd")))
    assert problem
    assert problem.message().startswith("notes clash in 7 of 8 bars")


@pytest.mark.limit("judge.positions.HARDLY_ANY")
@pytest.mark.parametrize(("bars_in_all", "is_said"), [(8, True), (7, False)])
def test_a_bar_in_eight_may_clash_in_the_better_position(bars_in_all: int, is_said: bool) -> None:
    """Over a seventh chord each of the four notes clashes in four keys; together in all twelve."""
    found = examined(bars(("four", bars_in_all - 3), ("six", 2), ("nowhere", 1)))
    problem = wrong_in(found)
    assert bool(problem) is is_said, told(found.problems)
    if problem:
        assert problem.message().endswith("in 2nd position in 1: is this 2nd position?")
    else:
        assert "note-clash" in {each.code for each in found.problems}
