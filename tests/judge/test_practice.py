"""How a tune is practised: what to loop, each lick's own start, breath and plan in words."""

from __future__ import annotations

from collections.abc import Hashable
from fractions import Fraction

import pytest

from formsheet.judge.joins import find_moves, hardest, joined_marks
from formsheet.judge.practice import Practice, practice_of
from formsheet.judge.practice_words import (
    breath_words,
    breathe_words,
    plan_words,
    slow_words,
    start_words,
)
from tests.helpers import lesson_text, over, own_form, tune_of
from tests.lessons import NAMES, demo


def practice(text: str) -> Practice:
    return practice_of(tune_of(text))


def of_demo(name: str) -> Practice:
    tune = demo(name).tune
    assert tune
    return practice_of(tune)


# ---- What is practised by itself ------------------------------------------------------------

HARD_INSIDE = "".join(f"lick {name} on I\n  e 2d 9b 2d 9b 2d 9b q 2d\n" for name in "abcd")


def looped(most: int) -> list[tuple[bool, str]]:
    """Of a tune with hard moves inside each of four licks and easy joins: joins, and names."""
    text = lesson_text(
        f"{HARD_INSIDE}play\n  bars 1-4 a, b, c, d", form=own_form("I | I | I | I"), tempo="120"
    )
    found = hardest(find_moves(tune_of(text)), 120, most)
    assert [each.easy_tempo for each in found] == sorted(each.easy_tempo for each in found)
    return [(each.joins, each.first_lick.name) for each in found]


def test_joins_keep_half_of_the_places_and_three_at_most() -> None:
    joins = {most: sum(join for join, _ in looped(most)) for most in (1, 2, 4, 5, 6, 7, 8)}
    assert joins == {1: 1, 2: 1, 4: 2, 5: 3, 6: 3, 7: 3, 8: 3}


def test_of_the_moves_in_a_bar_the_hardest_is_looped_and_brings_the_others() -> None:
    inside = [name for join, name in looped(8) if not join]
    assert sorted(inside) == ["a", "b", "c", "d"]


def test_moves_inside_that_are_easy_at_the_target_are_not_looped() -> None:
    tune = tune_of(over("I", "q 2d 3d 4d 2d"))
    assert hardest(find_moves(tune), 60, 8) == []


# ---- Joins of written marks -----------------------------------------------------------------


def test_marks_that_meet_are_those_of_the_tune_each_once() -> None:
    text = lesson_text(
        "lick a on I\n  q 2d 3d h 4d\nlick b on I\n  h 1d q 3d -\nplay x2\n  bars 1-3 a x2, b",
        form=own_form("I | I | I"),
    )
    tune = tune_of(text)
    written: dict[Hashable, str] = {
        mark.span.place: str(mark.tab)
        for lick in tune.lesson.licks.values()
        for bar in lick.bars
        for mark in bar
    }
    assert [(written[each.last], written[each.first], each.gap) for each in joined_marks(tune)] == [
        ("4d", "2d", Fraction(2)),
        ("4d", "1d", Fraction(2)),
        ("3d", "2d", Fraction(2)),
    ]


# ---- Licks by themselves --------------------------------------------------------------------


@pytest.mark.parametrize("name", NAMES)
def test_each_lick_starts_where_its_own_hardest_move_is_easy(name: str) -> None:
    found = of_demo(name)
    for lick in found.licks:
        own = [
            each.easy_tempo
            for each in found.moves
            if not each.joins and each.first_lick.name == lick.lick.name
        ]
        easy = min([float(found.target), *own])
        assert lick.easy_tempo(float(found.target)) == easy
        assert lick.ladder[0] <= max(easy, 40)
        assert lick.ladder[-1] == found.target
    assert sum(lick.fills for lick in found.licks) == sum(1 for bar in found.tune.bars if bar.lick)


LICKS = """lick easy on I
  {easy}
lick hard on I
  e 2d 9b 2d 9b 2d 9b q 2d
play
  bars 1-{last} easy x{times}
  bars {next}-6 hard x{others}"""


def first_of(times: int, easy: str = "h 2d q 3d -") -> str:
    body = LICKS.format(easy=easy, last=times, times=times, next=times + 1, others=6 - times)
    found = practice(lesson_text(body, form=own_form(" | ".join(["I"] * 6)), tempo="120"))
    assert found.first_lick
    return found.first_lick.lick.name


def test_first_comes_what_is_easy_and_played_much() -> None:
    assert first_of(5) == "easy"
    assert first_of(3) == "easy"  # as many bars: the easier one
    assert first_of(1) == "hard"  # five bars of six
    assert first_of(1, "h 2d 3d") == "hard"


# ---- Start tempo ----------------------------------------------------------------------------


def test_a_start_under_the_metronome_is_said() -> None:
    found = practice(over("I", "s 2d 9b 2d 9b q 2d h -", tempo="120", level="advanced"))
    assert found.moves[0].easy_tempo < 40
    assert found.ladder[0] == 40
    assert slow_words(found) == (
        "The hardest move (inside Run, bar 1: `9b` to `2d`) is easy only under 40 beats a minute: "
        "begin it without a metronome."
    )


def test_a_start_that_the_lesson_sets_above_the_hardest_move_is_said() -> None:
    music = "q 2d 9b 2d 9b"
    found = practice(over("I", music, tempo="120", learn="100"))
    easy = found.moves[0].easy_tempo
    assert 96 <= easy < 100
    assert slow_words(found) == (
        "The lesson starts at 100, but the hardest move (inside Run, bar 1: `2d` to `9b`) is easy "
        "only up to 96."
    )
    assert slow_words(practice(over("I", music, tempo="120"))) == ""
    assert slow_words(practice(over("I", music, tempo="120", learn="50"))) == ""


def test_a_tune_that_is_easy_starts_at_its_own_tempo() -> None:
    found = practice(over("I", "w 2d"))
    assert start_words(found) == "Start at 60 beats a minute: that is the tune's own tempo."
    assert slow_words(found) == ""


# ---- Breath ---------------------------------------------------------------------------------


def test_breath_of_a_tune_with_rests() -> None:
    found = practice(over("I | I", "h 2d 3d | h 4d h -", tempo="60", learn="60"))
    assert list(breath_words(found)) == [
        "100 per cent of the air is drawn.",
        "At 60 beats a minute the chest is fullest in bar 2: 5 of the 16 seconds of air that an "
        "improver has are used.",
        "No rest to breathe.",  # the last bar's leads nowhere
    ]


def test_rests_of_two_choruses_are_places_to_breathe() -> None:
    text = lesson_text(
        "lick a on I\n  h 2d h -\nlick b on I\n  w 4d\nlick c on I\n  q 4b q - h 4d\n"
        "play x2\n  bars 1-2 a, b\n  last time bar 2 c",
        form=own_form("I | I"),
    )
    found = practice(text)
    assert [(each.note, found.tune.bars[each.bar].chorus) for each in found.rests] == [
        (0, 1), (2, 2), (3, 2),
    ]  # fmt: skip
    assert list(breath_words(found))[-1] == (
        "Rests to breathe: bar 1 of each chorus and bar 2 of chorus 2."
    )


def test_a_rest_begins_where_the_note_before_it_ends() -> None:
    """A note that fills its bar, and a bar of rest: the place is in the second bar."""
    text = lesson_text(
        "lick a on I\n  w 2d\nplay\n  bars 1-3 a x1, rest, a x1", form=own_form("I | I | I")
    )
    found = practice(text)
    assert [found.tune.bars[each.bar].number for each in found.rests] == [2]


def test_a_rest_in_the_pickup_is_called_so() -> None:
    text = lesson_text(
        "lick a on I\n  pickup q 1d - 2b\n  h 2d q - 3d\nplay\n  bar 1 a", form=own_form("I")
    )
    assert list(breath_words(practice(text)))[-1] == ("Rests to breathe: the pick-up and bar 1.")


def test_where_air_runs_out_is_said_in_both_directions() -> None:
    drawn = " | ".join(["w 123d"] * 8)
    blown = " | ".join(["w 123b"] * 8)
    form = " | ".join(["I"] * 16)
    found = practice(over(form, f"{drawn} | {blown}", tempo="60", level="beginner"))
    (line,) = [line for line in breath_words(found) if line.startswith("At ")]
    assert line.startswith("At 60 beats a minute the air does not last: the chest is full in bar")
    assert " and empty in bar" in line
    assert breathe_words(found).endswith(": leave out a note before it, and breathe.")


@pytest.mark.parametrize(
    ("music", "words"),
    [
        (
            "h 2d 2b",
            "There is no rest, and none is needed: the air lasts.",
        ),
        (
            "w 123d | w 123d | w 123d",
            "There is no rest: leave out a note at the end of a phrase, and breathe.",
        ),
        ("h 2d q - 2d", "In the rest on beat 3 of bar 1 breathe out: the chest is fullest there."),
        ("h 2b q - 2b", "In the rest on beat 3 of bar 1 breathe in: the chest is emptiest there."),
    ],
)
def test_where_to_breathe(music: str, words: str) -> None:
    form = " | ".join(["I"] * (1 + music.count("|")))
    assert breathe_words(practice(over(form, music, level="advanced", tempo="60"))) == words


def test_the_rest_that_matters_follows_the_fullest_place() -> None:
    music = "h 2d q - 2d | w 2d | h 2d h - | q 2d - h -"
    found = practice(over("I | I | I | I", music))
    assert breathe_words(found) == (
        "In the rest on beat 3 of bar 3 breathe out: the chest is fullest there."
    )
    later = practice(over("I | I | I", "h 2d q - 2d | w 123d | w 123d"))
    assert breathe_words(later) == (
        "In the rest on beat 3 of bar 1 breathe out: the chest is fullest in bar 3."
    )


def test_a_tune_of_rests_has_no_breath() -> None:
    text = lesson_text("lick a on I\n  w 2d\nplay\n  bar 1 rest", form=own_form("I"))
    found = practice(text)
    assert list(breath_words(found)) == []
    assert list(plan_words(found)) == ["Then the whole tune at 60 beats a minute."]


# ---- The plan -------------------------------------------------------------------------------


def test_the_plan_of_a_demo_lesson() -> None:
    assert list(plan_words(of_demo("back-step-shuffle"))) == [
        "Learn On the porch first: it fills 4 of the 12 bars and is easy at 76; then Boots on the "
        "step, Down at the creek, Through the gate and The way home.",
        "Then the hardest move, bar 11: `5b` to `4d` (inside The way home, with 1 more), from 60.",
        "Then the join Boots on the step -> Down at the creek (into bar 5), at full tempo.",
        "Then the whole tune at 60, 69, 76, 84 and 92 beats a minute.",
        "In the rest on beat 4 of bar 10 breathe out: the chest is fullest in bar 12.",
    ]


def test_where_the_hardest_move_is_a_join_it_is_there_once() -> None:
    lines = list(plan_words(of_demo("mill-in-winter")))
    assert lines[1] == "Then the hardest move, bar 7: `123b` to `5d` (Iron band -> Thaw), from 42."
    assert not any("Then the join" in line for line in lines)


def test_a_tune_of_one_lick() -> None:
    found = practice(over("I", "h 2d q 2d -"))
    assert next(iter(plan_words(found))) == (
        "Learn Run first: it fills all the bars and is easy at full tempo."
    )


def test_a_lick_that_is_easy_only_under_the_metronome() -> None:
    found = practice(over("I", "s 2d 9b 2d 9b q 2d h -", tempo="120", level="advanced"))
    first, second, *_ = plan_words(found)
    assert first == "Learn Run first: it fills all the bars and is easy under 40."
    assert second == (
        "Then the hardest move, bar 1: `9b` to `2d` (inside Run, with 1 more), first without a "
        "metronome (under 40)."
    )


def of_licks(*licks: str, tempo: str = "120", **facts: str) -> list[str]:
    """The plan of a tune of such licks, a bar each; they are called a, b, c, ..."""
    names = "abcdef"[: len(licks)]
    body = "".join(f"lick {name} on I\n  {lick}\n" for name, lick in zip(names, licks, strict=True))
    play = f"play\n  bars 1-{len(licks)} {', '.join(names)}"
    form = own_form(" | ".join("I" * len(licks)))
    return list(plan_words(practice(lesson_text(body + play, form=form, tempo=tempo, **facts))))


#: One move each, with its tempo at ease about 55, 75 and 440; FAR about 29.
SLIDE, NEAR, EASY = "e 2d 9b q - h -", "e 2d 5b q - h -", "h 4d h -"
FAR = "s 2d 9b e - q - h -"


def hard_line(*licks: str, **facts: str) -> str:
    (line,) = [line for line in of_licks(*licks, **facts) if "hardest" in line]
    return line


@pytest.mark.limit("judge.practice.MOST_PLACES")
def test_moves_of_like_hardness_are_named_together_three_places_at_most() -> None:
    """Three, for more are not kept in mind: our own choice."""
    assert hard_line(*[SLIDE] * 2) == (
        "Then the hardest moves, bar 2: `2d` to `9b` (inside B), from 56; and bar 1: `2d` to `9b` "
        "(inside A), from 56."
    )
    assert hard_line(*[SLIDE] * 3) == (
        "Then the hardest moves, bar 3: `2d` to `9b` (inside C), from 54; bar 2: `2d` to `9b` "
        "(inside B), from 54; and bar 1: `2d` to `9b` (inside A), from 54."
    )
    assert hard_line(*[SLIDE] * 4).count("inside ") == 3


def test_a_move_that_is_a_step_of_the_ladder_easier_is_not_named_with_the_hardest() -> None:
    assert (
        hard_line(SLIDE, NEAR) == "Then the hardest move, bar 1: `2d` to `9b` (inside A), from 56."
    )


def test_hard_moves_of_one_bar_are_one_place() -> None:
    line = hard_line("e 2d 9b q - e 2d 9d q -", EASY)
    assert line == "Then the hardest move, bar 1: `2d` to `9b` (inside A, with 1 more), from 56."
    assert hard_line(SLIDE, "e 2d 9b q - e 2d 9d q -") == (
        "Then the hardest moves, bar 2: `2d` to `9b` (inside B, with 1 more), from 56; and bar 1: "
        "`2d` to `9b` (inside A), from 56."
    )


def test_a_place_that_alone_makes_the_tune_start_slow_is_practised_apart() -> None:
    assert hard_line(FAR, NEAR) == (
        "Then the hardest move, bar 1: `2d` to `9b` (inside A), first without a metronome (under "
        "40). Practise it apart: without it the tune would start at 69, and there the rest may "
        "begin."
    )
    assert "apart" not in hard_line(FAR, FAR)
    assert "apart" not in hard_line(FAR, NEAR, learn="40")
    assert "apart" not in hard_line(SLIDE, EASY)


def test_joins_of_like_hardness_are_named_together() -> None:
    """Each lick ends on one side of the harp and begins on the other."""
    low, high = "h 2d q 2d e - 2d", "e 9b - q 9b h -"
    lines = of_licks("s 2d 9b e - q - q - e - 2d", high, low, high.replace("9b -", "8b -"))
    (line,) = [line for line in lines if line.startswith("Then the joins")]
    assert "A -> B (into bar 2), from " in line
    assert "C -> D (into bar 4), from " in line


def test_tempos_of_the_plan_are_the_ladder() -> None:
    found = practice(over("I", "q 2d 9b 2d 9b", tempo="120", learn="100"))
    assert found.ladder == tuple(map(Fraction, (100, 108, 120)))
    assert "Then the whole tune at 100, 108 and 120 beats a minute." in plan_words(found)
