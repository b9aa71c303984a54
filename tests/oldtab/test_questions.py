"""Old tab that can be read in two ways is asked about. Common practice, no source."""

from __future__ import annotations

import pytest

from formsheet.notes.melody import NotesError
from formsheet.notes.oldtab.reading import read_old_tab

QUESTIONS = [
    ("4 5 6 5 4", "nothing shows which notes are draw"),
    ("4-5-6 -4", "sign for draw or a hyphen"),
    ("-4 - 5 -4", "a dash stands alone"),
    ("-4 (4) 5", "may be left out"),
    ("(-1 2 3) 4", "are all of these draw"),
    ("(-4 5) -4", "are all of these draw"),
    ("-4 4D 5", "no note of this shorthand"),
    ("+4 4 +5 5", "no note of this shorthand"),
    ("-4'' 4", "4 draw does not bend 2 half steps"),
    ("4D'' 4B", "4 draw does not bend 2 half steps"),
    ("-4 4 Hel- -5 lo 5", "no note of this shorthand"),
    ("-12 -1 -4 11 4", "no note of this shorthand"),
    ("1 | -2 -3 4\n2 | -4 4 -3", "numbers of lines"),
    ("1. -2 -3 4\n2. -4 4 -3", "number of the line"),
    ("4 4 5 5\n↑ ↓ ↑", "4 holes, and 3 signs"),
    ("-4 4       -6 6\n-3 -2      -5 5", "are there columns"),
    ("A song without tab", "no tab is found"),
    ("", "no tab is found"),
    ("+ = draw   - = draw\n+4 -4", "one breath two signs"),
    ("4↑ 4↓\n(4)↑ -5", "no note of this shorthand"),
    ("<4 -4 5", "no note of this shorthand"),
    ("-4 4 5#", "no note of this shorthand"),
    ("-4 4* 5", "no note of this shorthand"),
    ("1,2,3 -4 5", "do they join a chord"),
    ("-2 -3 4 5\n1 2 3 4", "is this a count"),
    ("-3/ 4", "no note of this shorthand"),
]


@pytest.mark.parametrize(("text", "question"), QUESTIONS)
def test_it_asks(text: str, question: str) -> None:
    with pytest.raises(NotesError) as caught:
        read_old_tab(text)
    assert question in str(caught.value)


def test_a_legend_that_turns_the_signs() -> None:
    found = read_old_tab("↑ = draw, ↓ = blow\n4↑ 4↓ 5↓")
    assert [str(tab) for phrase in found.phrases for tab in phrase.tabs] == ["4d", "4b", "5b"]
    assert found.said[0].facts["turned"]


def test_columns_may_be_said() -> None:
    text = "-4 4       -6 6\n-3 -2      -5 5"
    down = read_old_tab(text, columns=2)
    across = read_old_tab(text, columns=1)
    assert [p.line for p in down.phrases] == [1, 2, 1, 2]
    assert [" ".join(map(str, p.tabs)) for p in across.phrases] == ["4d 4b 6d 6b", "3d 2d 5d 5b"]
    with pytest.raises(NotesError, match="2 columns, not 3"):
        read_old_tab(text, columns=3)


def test_a_named_shorthand_reads_bare_numbers() -> None:
    (phrase,) = read_old_tab("4 5 6", "minus").phrases
    assert " ".join(map(str, phrase.tabs)) == "4b 5b 6b"


@pytest.mark.parametrize(
    ("text", "harp"),
    [
        ("Harp in A\n-4 4", "A"),
        ("for the Bb harp\n-4 4", "Bb"),
        ("Key of harp: D\n-4 4", "D"),
        ("A harp hangs there\n-4 4", ""),
        ("the song is in G\n-4 4", ""),
    ],
)
def test_the_harp_that_it_names(text: str, harp: str) -> None:
    assert read_old_tab(text).harp == harp


def test_what_is_left_out_is_said() -> None:
    said = {s.kind: s.facts for s in read_old_tab("Title\n-4~ 4! [G7] 4 x2\nla la la la").said}
    assert said["words"]["lines"] == [1, 3]
    assert said["signs-left-out"]["signs"] == {"~": 1, "!": 1, "[G7]": 1}
    assert said["lines-again"]["lines"] == [2]


READ = [
    ("4+ 4- 5+ 5-", "signs", "4b 4d 5b 5d"),
    ("4 out, 4 in, 5 out", "letters", "4b 4d 5b"),
    ("4Z 4B 5Z", "letters", "4d 4b 5d"),
    ("(2)(3)'4(4)", "brackets", "2d 3d' 4b 4d"),
    ("6o -4 5", "minus", "6ob 4d 5b"),
    ("4 (4 5) 6", "brackets", "4b 4d 5d 6b"),
    ("Intro: -2 -3' 4", "minus", "2d 3d' 4b"),
    ("Verse 2\n-2 -3' 4\nTempo 89\n4/4 time", "minus", "2d 3d' 4b"),
    ("(1,2,3) -4 5", "minus", "123b 4d 5b"),
    ("❹ 4 ❺ 5", "circles", "4d 4b 5d 5b"),
    ("4⬆️ 4⬇️ 5⬆️", "arrows", "4b 4d 5b"),
    ("G7      C7\n-2 -3' 4\n", "minus", "2d 3d' 4b"),
]


@pytest.mark.parametrize(("text", "shorthand", "marks"), READ)
def test_other_habits(text: str, shorthand: str, marks: str) -> None:
    found = read_old_tab(text)
    tabs = " ".join(str(tab) for phrase in found.phrases for tab in phrase.tabs)
    assert (found.shorthand, tabs) == (shorthand, marks)


@pytest.mark.parametrize(("characters", "lines"), [(100_001, 1), (10, 2001)])
def test_too_long(characters: int, lines: int) -> None:
    """Our own choice."""
    text = "\n".join(["-4 4"] * lines).ljust(characters)
    with pytest.raises(NotesError, match="read up to"):
        read_old_tab(text)


def test_as_long_as_may_be() -> None:
    assert len(read_old_tab("\n".join(["-4 4"] * 2000)).phrases) == 2000
