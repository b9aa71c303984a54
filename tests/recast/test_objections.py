"""What a player would object to in a recast: both sides of each limit.

That these things spoil a lick is common practice, no source; the numbers are our own choice.
"""

from __future__ import annotations

import pytest

from formsheet.music.chord import parse_chord
from formsheet.recast.trial import Tried
from tests.helpers import lesson_of, over
from tests.recast.demos import by_hand


def recast(
    music: str, numeral: str, tabs: str, *, tempo: str = "60", level: str = "improver"
) -> Tried:
    """A lick on I7 in G, C harp, on another chord with these tabs."""
    lesson = lesson_of(over("I7", music, tempo=tempo, level=level))
    lick = lesson.licks["run"]
    chords = [(parse_chord(numeral),)] * len(lick.bars)
    return by_hand(lesson, lick, chords, tabs)


def objected(*words: str, **facts: str) -> list[str]:
    return list(recast(*words, **facts).objections)


def test_nothing_is_objected_to_a_plain_recast() -> None:
    assert objected("q 2d 3d 4d -", "IV7", "4b 5b 6b") == []


def test_leaps_of_more_than_an_octave() -> None:
    """An octave is let pass, and a leap that the lick has."""
    assert objected("h 2d 6b", "IV7", "4b 7b") == []
    leap = "`4b` to `8b` leaps more than an octave"
    assert leap in objected("h 2d 6b", "IV7", "4b 8b")
    assert leap not in objected("h 2d 7d", "IV7", "4b 8b")


@pytest.mark.limit("recast.objections.MOST_MOVED")
@pytest.mark.parametrize(
    ("tabs", "lost"),
    [
        ("4b 5b 6b 5b 4b 5b 4b 6b 5b 6b", False),  # none of nine
        ("4b 5b 6b 5b 4b 4b 4b 6b 5b 6b", False),  # two are level
        ("4b 5b 6b 5b 4b 4b 4b 6b 6b 7b", True),  # three
    ],
)
def test_a_quarter_of_the_moves_may_be_others(tabs: str, lost: bool) -> None:
    music = "e 2d 3d 4d 3d 2d 3d 2d 4d | q 3d 4d h -"
    lesson = lesson_of(over("I7 | I7", music))
    chords = [(parse_chord("IV7"),)] * 2
    found = by_hand(lesson, lesson.licks["run"], chords, tabs)
    assert ("it does not keep the lick's line" in found.objections) is lost


def test_one_repeated_note_is_let_pass() -> None:
    """Of two moves one is level; but not one the other way."""
    line = "it does not keep the lick's line"
    assert line not in objected("q 2d 3d 4d -", "IV7", "4b 5b 5b")
    assert line in objected("q 2d 3d 4d -", "IV7", "4b 5b 4b")


def test_one_chord_becomes_one_chord() -> None:
    music = "q 123d 4d 123d -"
    assert objected(music, "IV7", "123b 6b 123b") == []
    assert objected(music, "IV7", "123b 6b 345b") == ["`123d` becomes 123b here and 345b there"]


def test_chords_stay_chords_all_or_none() -> None:
    single = "some chords become single notes"
    music = "q 123d 234d 123d -"
    assert single in objected(music, "V7", "14d 4d 14d")
    assert single not in objected(music, "V7", "1d 4d 1d")
    assert single not in objected("q 123d 4d 123d -", "V7", "14d 6d 14d")


@pytest.mark.limit("recast.objections.FURTHER_IN_A_TRAIN")
@pytest.mark.parametrize(("tabs", "moves"), [("345b 234d", False), ("345b 123d", True)])
def test_a_train_stays_on_its_holes(tabs: str, moves: bool) -> None:
    """One hole more than in the lick is let pass."""
    found = objected("[ e 123d 123b ]x3 q -", "IV7", f"{tabs} {tabs} {tabs}")
    assert any("to and fro" in each for each in found) is moves
    line = objected("[ e 123d 4b ]x3 q -", "IV7", "123b 5d 345b 4d 123b 5d")
    assert not any("to and fro" in each for each in line)  # no blocks side by side


# 4 blow to 3 draw bent a half step takes 0.42 s, a whole step 0.49 s; an eighth at 96 is 0.31 s.
@pytest.mark.limit("recast.objections.HURRIED_BENDS")
@pytest.mark.parametrize(
    ("level", "inside", "beyond"),
    [
        ("beginner", "3d'", "3d''"),
        ("improver", "3d''", "3d'''"),
        ("advanced", "3d'' 4b 3d''", "3d''' 4b 3d''"),
    ],
)
def test_bends_in_a_hurry(level: str, inside: str, beyond: str) -> None:
    for tabs, fast in ((inside, False), (beyond, True)):
        count = len(tabs.split())
        music = f"e 2d {' '.join(['3d', '2d', '3d'][:count])} " + ("h. -" if count == 1 else "h -")
        found = objected(music, "IV7", f"4b {tabs}", tempo="96", level=level)
        assert ("its bends come too fast" in found) is fast


def test_bends_of_the_lick_itself_are_not_objected_to() -> None:
    """Nor those for which there is time."""
    music = "e 4b 3d''' q 4b h -"
    fast = "its bends come too fast"
    assert fast not in objected(music, "V7", "4b 3d''' 4b", tempo="96")
    assert fast in objected("e 4b 3d q 4b h -", "V7", "4b 3d''' 4b", tempo="96")
    assert fast not in objected("q 4b 3d h 4b", "V7", "4b 3d''' 4b", tempo="60")


# A quarter at 85 lasts 0.706 s, at 87 0.69 s; an eighth at 99 lasts 0.303 s, at 101 0.297 s.
@pytest.mark.limit("recast.objections.SHORTEST_HIGH")
@pytest.mark.parametrize(
    ("level", "value", "slow", "fast"),
    [("beginner", "q", "85.3", "86.3"), ("improver", "e", "99.4", "100.6")],
)
def test_short_notes_on_the_top_holes(level: str, value: str, slow: str, fast: str) -> None:
    rest = "h -" if value == "q" else "h. -"
    music = f"{value} 4d 5d {rest}"
    high = "`8d` is high for so short a note"
    for tempo, objection in ((slow, False), (fast, True)):
        found = objected(music, "V7", "8d 9d", tempo=tempo, level=level)
        assert (high in found) is objection
    assert high not in objected(music, "V7", "8d 9d", tempo=fast, level="advanced")
    lick = f"{value} 8d 9d {rest}"  # the lick has as many itself
    assert high not in objected(lick, "V7", "8d 9d", tempo=fast, level=level)


def test_how_it_ends() -> None:
    """On a note of the chord or a blue one, if the lick ends on a note of its own chord."""
    assert objected("q 4d 3d 2d -", "V7", "6d 5d 4d") == []  # the root
    assert objected("q 2d 4d 3d -", "V7", "4d 6d 5d") == []  # the b3 of D7
    assert objected("q 4d 3d 2d -", "V7", "6d 6b 5b") == ["it ends on the 9"]
    assert objected("q 2d 3d 4b -", "V7", "4d 5d 6b") == []  # the lick ends on a 4 too


# Two whole notes last 5.97 s at 80.4, 6.03 s at 79.6.
@pytest.mark.limit("recast.objections.LONGEST_BREATH")
@pytest.mark.parametrize(("tempo", "long"), [("80.4", False), ("79.6", True)])
def test_a_long_time_on_one_breath(tempo: str, long: bool) -> None:
    """Two bars take just under, or just over, six seconds."""
    lesson = lesson_of(over("I7 | I7", "w 2d | w 4b", tempo=tempo))
    chords = [(parse_chord("V7"),)] * 2
    found = by_hand(lesson, lesson.licks["run"], chords, "4d 6d")
    assert any("on one breath" in each for each in found.objections) is long
    rest = lesson_of(over("I7 | I7", "h. 2d q - | w 4b", tempo=tempo))
    assert not by_hand(rest, rest.licks["run"], chords, "4d 6d").objections
    draw = lesson_of(over("I7 | I7", "w 2d | w 4d", tempo=tempo))  # all on one breath itself
    assert not by_hand(draw, draw.licks["run"], chords, "4d 6d").objections
