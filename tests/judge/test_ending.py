"""How choruses end: turnarounds that lead back, tunes that come home, and what repairs them.

That a turnaround on V ends on a tone of V, and a tune on I, is common practice, no source. What is
reported of it, in which words, and which repair comes first, is our own choice.

In second position on a C harp the key is G: I7 is G B D F, V7 is D F# A C. 2 draw is G, 1 draw and
4 draw are D, 5 draw is F.
"""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from formsheet.judge.last_time import on_home
from formsheet.lesson.shelves import Shelves
from formsheet.problems.kinds import TuneEndsAway, TurnaroundOffFive
from formsheet.problems.problem import Edit, Problem, Severity
from formsheet.source import Source
from formsheet.stages import Examined, examine, examine_file
from formsheet.tune.timeline import Note, Tune
from tests.helpers import examined, lesson_text, own_form, told, tune_of
from tests.judge.plain_rules import end_away, ends_elsewhere, ends_off_five
from tests.lessons import LESSONS, NAMES, demo, remarked
from tests.random_lessons import random_lesson

OFF, AWAY = "turnaround-off-five", "tune-ends-away"
#: What would be said of the same notes without the two.
ALSO = ("key-note-over-five", "note-clash", "note-clash-deliberate", "flat-five-stays")

LICKS = """
lick porch on I
  q 2d 3d 4d 2d
lick creek on IV
  q 4b 5b 6b 4b
lick gate on V
  q 4d 5d 4d 1d
"""


def blues(
    home: str, times: str = "", lines: str = "", on: str = "I | V", more: str = "", **facts: str
) -> str:
    """A 12-bar; `home` is bar 12, or both bars with `|`; `lines` and `more`: of play, of licks."""
    bar_11 = "" if "|" in home else "q 2d 3d 4d 2d |\n  "
    turnaround = f"turnaround home on {on}\n  {bar_11}{home}\n"
    play = f"play{times}\n  every I porch\n  every IV creek\n  bar 9 gate\n  bars 11-12 home\n"
    return lesson_text(LICKS + turnaround + more + play + lines, **facts)


def said(text: str) -> list[str]:
    """What is said of the end and of the notes in it: "turnaround-off-five 2d"."""
    found = examined(text)
    assert found.tune, told(found.problems)
    return [
        f"{each.code} {each.span.text}" if each.code == OFF else each.code
        for each in found.problems
        if each.code in (OFF, AWAY, *ALSO)
    ]


def turnaround(text: str) -> TurnaroundOffFive:
    (found,) = [p for p in examined(text).problems if isinstance(p, TurnaroundOffFive)]
    return found


def away(text: str) -> TuneEndsAway:
    (found,) = [p for p in examined(text).problems if isinstance(p, TuneEndsAway)]
    return found


def hints(problem: Problem) -> list[str]:
    return [hint.text for hint in problem.hints()]


def edits(problem: Problem) -> list[Edit]:
    return [hint.edit for hint in problem.hints() if hint.edit]


def applied(edit: Edit) -> str:
    text = edit.span.source.text
    return text[: edit.span.start] + edit.text + text[edit.span.end :]


def new_after(found: Examined, problem: Problem, edit: Edit) -> list[str]:
    """What is as grave as a problem, and is there only after an edit; the problem if it is left."""
    path = found.path or Path("test.lesson")
    source = Source(edit.span.source.name, applied(edit), edit.span.source.path)
    after = examine(source, Shelves(path.parent)).problems
    before = Counter(each.code for each in found.problems if each.code != problem.code)
    left = Counter(each.code for each in after if each.severity >= problem.severity)
    same = sum(each.code == problem.code for each in found.problems)
    before[str(problem.code)] = same - 1
    return sorted((left - before).elements())


# ---- A turnaround leads back: the last note over V -------------------------------------------
# R, 3, 5 or b7 of V: common practice, no source. That all else is a remark: our own choice.


@pytest.mark.parametrize(
    ("home", "expected"),
    [
        ("q 4d 5d h 1d", []),  # D, the root
        ("q 4d 5d h 2d'", []),  # F#, the 3
        ("q 4d 5d h 3d''", []),  # A, the 5
        ("q 4d 5d h 4b", []),  # C, the b7
        ("q 4d 5d h 2d", [f"{OFF} 2d"]),  # G, the key note
        ("q 4d 5b h 3d", [f"{OFF} 3d"]),  # B, the 13: at home over I
        ("q 4d 1d h 5b", [f"{OFF} 5b"]),  # E, the 9
        ("q 4d 1d h 5d", [f"{OFF} 5d"]),  # F, the b3
        ("q 5b 5d e 3d 1d q -", []),  # what comes before the last note does not count
        ("h. 1d e - 2d", [f"{OFF} 2d"]),  # however short the last note is
        ("w -", []),  # nothing sounds over V
        ("q 2d 3d h 2d | w =", [f"{OFF} 2d"]),  # struck over I, and held
        ("q 2d 3d h 4d | w =", []),
        ("q 4d 5d h 2d!", ["note-clash-deliberate"]),  # it is meant
        ("q 4d 1d h 5b!", []),
        ("q 4d 1d h 3d'", ["note-clash"]),  # Bb, the b6: a warning, which says enough
    ],
)
def test_last_note_over_five(home: str, expected: list[str]) -> None:
    assert said(blues(home)) == expected


@pytest.mark.parametrize(
    ("home", "expected"),
    [
        ("q 4d 5d h 14d", []),  # D and D
        ("q 4d 5d h 45d", []),  # D and F: a tone of V, and the b3, which is an idiom over it
        ("q 4d 5d h 56d", []),  # F and A, as well
        ("q 4d 5d h 25b", [f"{OFF} 25b"]),  # E and E: none is of V
        ("q 4d 5d h 12b", [f"{OFF} 12b"]),  # C, the b7, and E, the 9
        ("q 4d 5d h 123d", ["note-clash"]),  # the chord of I: a warning
    ],
)
def test_block_at_the_end_of_a_turnaround(home: str, expected: list[str]) -> None:
    """A tone of V, and beside it only the b3: our own choice."""
    assert said(blues(home)) == expected


START = """
lick start on I
  pickup e 3d' 3d
  q 2d 3d 4d 2d
"""
COMES_HOME = "  last time ending I\n  last time bars 11-12 porch\n"


def test_pickup_of_the_next_chorus_does_not_count() -> None:
    """It sounds in bar 12, and belongs to bar 1."""
    lines = "  bar 1 start\n" + COMES_HOME
    assert said(blues("q 4d 5d 1d -", " x2", lines, more=START)) == []
    assert said(blues("q 4d 5d 2d -", " x2", lines, more=START)) == [f"{OFF} 2d"]


def test_note_pushed_ahead_into_the_next_chorus_does_not_count() -> None:
    """Common practice, no source: it belongs to the I that it pushes into."""
    assert said(blues("h. 1d e - 2d", " x2", COMES_HOME)) == []
    assert said(blues("h. 5b e - 2d", " x2", COMES_HOME)) == [f"{OFF} 5b"]
    assert said(blues("h. 1d e - 5b", " x2", COMES_HOME)) == [f"{OFF} 5b"]


@pytest.mark.parametrize(
    ("bar_12", "expected"),
    [("q 2d 3d 1d -", []), ("q 2d 3d 2d -", [f"{OFF} 2d"]), ("q 2d 3d h -", [])],
)
def test_last_bar_of_two_chords(bar_12: str, expected: list[str]) -> None:
    """What sounds over the I in its first half does not count."""
    home = f"q 2d 3d 4b 4b | {bar_12}"
    text = blues(home, on="I IV | I V", form="12-bar standard ending I IV | I V")
    assert said(text) == expected


@pytest.mark.parametrize(
    ("chord", "note", "expected"),
    [
        ("v7", "5d", []),  # F, the b3 of Dm7
        ("v7", "2d'", ["note-clash"]),  # F#, its major third
        ("v7", "2d", [f"{OFF} 2d"]),
        ("V", "4b", []),  # the b7 leads back over a plain triad too
        ("V9", "5b", []),  # a chord is what is written
        ("V7#9", "5d", []),
        ("V7sus4", "2d", []),
    ],
)
def test_chords_on_the_fifth_degree(chord: str, note: str, expected: list[str]) -> None:
    licks = f"lick a on i\n q 2d 3d' 4d 2d\nlick b on {chord}\n q 4d 1d h {note}\n"
    play = f"play\n every i a\n every {chord} b"
    assert said(lesson_text(licks + play, form=own_form(f"i7 | i7 | i7 | {chord}"))) == expected


def four_bars(last: str, bars: int = 4) -> str:
    """A form of I with one other bar at the end, played twice."""
    licks = f"lick a on I\n q 2d 3d 4d 2d\nlick b on {last}\n q 1d 1d h 2d\n"
    form = own_form(" | ".join(["I7"] * (bars - 1) + [last]))
    return lesson_text(licks + f"play x2\n every I a\n bar {bars} b", form=form)


# A line of a blues: our own choice.
@pytest.mark.limit("judge.ending.SHORTEST_FORM")
@pytest.mark.parametrize(
    ("bars", "expected"), [(4, [OFF + " 2d", AWAY]), (3, ["key-note-over-five"])]
)
def test_shorter_forms_are_exercises(bars: int, expected: list[str]) -> None:
    assert sorted(said(four_bars("V7", bars))) == sorted(expected)


def test_chorus_that_ends_on_another_chord_needs_no_turnaround() -> None:
    assert said(four_bars("IV7")) == [AWAY]


# ---- What is said of a turnaround, and what is offered ----------------------------------------
# Our own choice.


def test_it_is_a_remark_at_the_note_once_with_its_bars_and_tones_of_five() -> None:
    problem = turnaround(blues("q 4d 1d h 5b", " x3", COMES_HOME))
    assert (problem.severity, problem.span.text) == (Severity.REMARK, "5b")
    assert problem.bars_heard == [12]
    assert problem.message() == (
        "bar 12 ends on `5b` (E), the 9 of D7: a turnaround to the top ends on a tone of D7"
    )
    assert hints(problem) == [
        "to lead back to the top, play `4d` (D, the root), `4b` (C, the b7) or `6d` (A, the 5)"
    ]
    assert applied(edits(problem)[0]) == blues("q 4d 1d h 4d", " x3", COMES_HOME)


def test_each_place_is_reported_with_the_bars_of_all_choruses() -> None:
    other = "turnaround other on I | V\n  q 2d 3d 4d 2d | q 4d 5d h 2d\n"
    play = "play x2\n  every I porch\n  every IV creek\n  bar 9 gate\n  bars 11-12 other\n"
    text = blues("q 4d 5d h 5b", " x2", play + COMES_HOME, more=other)
    assert said(text) == [f"{OFF} 5b", f"{OFF} 2d"]


def test_key_note_over_five_is_said_once() -> None:
    problem = turnaround(blues("q 4d 5d h 2d"))
    assert problem.message() == (
        "bar 12 ends on `2d` (G), the key note and the 4 of D7: a turnaround to the top ends on a "
        "tone of D7"
    )


def test_key_note_in_another_bar_of_five_is_still_said() -> None:
    text = blues("q 4d 5d h 2d").replace("q 4d 5d 4d 1d", "q 4d 5d h 2d")
    (key_note,) = [p for p in examined(text).problems if p.code == "key-note-over-five"]
    assert key_note.bars_heard == [9]
    assert said(text) == ["key-note-over-five", f"{OFF} 2d"]


@pytest.mark.parametrize("home", ["q 4d 5d h 2d", "q 4d 5b h 3d", "q 4d 1d h 5b", "q 4d 1d h 5d"])
def test_no_tone_that_is_at_home_is_offered_over_five(home: str) -> None:
    """D, F#, A or C; the D alone is a tone of I as well."""
    offered = hints(turnaround(blues(home)))[-1]
    assert "play" in offered
    assert not [tab for tab in ("`2d`", "`3d`", "`6b`", "`3b`", "`5d`") if tab in offered]


def test_a_chorus_that_ends_at_home_is_asked_first_whether_it_is_the_end() -> None:
    text = blues("q 4d 5d h 2d")
    problem = turnaround(text)
    first, second = problem.hints()
    assert first.text == (
        "if the tune ends here, write `last time ending I`, and `on I` in the first line of `home`"
    )
    assert first.edit
    wanted = text.replace("home on I | V", "home on I")
    assert applied(first.edit) == wanted.replace("12 home", "12 home\n  last time ending I")
    assert said(applied(first.edit)) == []
    assert second.text.startswith("or, if it goes round again, play `2d'` (F#, the 3)")
    assert second.edit
    assert said(applied(second.edit)) == []


@pytest.mark.parametrize("home", ["q 4d 1d h 5b", "q 4d 1d h 5d"])
def test_a_note_that_is_no_home_is_not_asked_whether_it_is_the_end(home: str) -> None:
    assert len(hints(turnaround(blues(home)))) == 1


def test_a_riff_that_is_left_over_five_ends_the_tune_by_the_ending_alone() -> None:
    licks = "lick riff on I, IV, V\n q 2d 4d 4d 2d\n"
    text = lesson_text(licks + "play\n every I riff\n every IV riff\n every V riff")
    first = next(turnaround(text).hints())
    assert first.text == "if the tune ends here, write `last time ending I`"
    assert first.edit
    assert said(applied(first.edit)) == ["key-note-over-five"]


# ---- A tune comes home -----------------------------------------------------------------------
# Root, 3, blue third and 5 are at home: common practice, no source.

AT_HOME = "12-bar standard ending I"


@pytest.mark.parametrize(
    ("home", "expected"),
    [
        ("q 4d 3d h 2d", []),  # G, the root
        ("q 4d 2d h 3d", []),  # B, the 3
        ("q 4d 2d h 3d'", []),  # Bb, the blue third
        ("q 2d 3d h 4d", []),  # D, the 5
        ("q 4d 2d h 5d", [AWAY]),  # F, the b7
        ("q 2d 4d h 3d''", [AWAY]),  # A, the 9
        ("q 4d 2d h 5b", [AWAY]),  # E, the 6
        ("q 2d 3d h 4d'", [AWAY]),  # Db, the b5: said once
        ("q 4d 2d h 4b", ["note-clash"]),  # C, the 4: a warning, which says enough
        ("q 4d 2d h 5d!", []),  # it is meant
        ("q 5d 2d q. 3d e 5d", [AWAY]),  # however short it is
        ("q 4d 5d h 123d", []),  # G B D
        ("q 4d 2d h 45d", []),  # D and F: the b7 hangs, but over the 5
        ("q 4d 2d h 25b", [AWAY]),  # E and E
        ("q 2d 3d h 5d | w -", [AWAY]),  # nothing follows but a rest over I
        ("q 2d 3d h 5d | w =", [AWAY]),
    ],
)
def test_last_note_of_a_tune_that_ends_on_one(home: str, expected: list[str]) -> None:
    assert said(blues(home, on="I", form=AT_HOME)) == expected


@pytest.mark.parametrize(
    ("chord", "note", "expected"),
    [
        ("i7", "3d'", []),  # Bb, the b3
        ("i7", "5d", [AWAY]),  # F, the b7
        ("I6", "5b", []),  # E, a tone of the chord as it is written
        ("I", "5b", [AWAY]),
        ("Imaj7", "2d'", [AWAY]),  # F#, a 7, which hangs although it is of the chord
    ],
)
def test_chords_on_the_first_degree(chord: str, note: str, expected: list[str]) -> None:
    licks = f"lick a on {chord}\n q 2d 4d 1d 2d\nlick b on {chord}\n q 4d 1d h {note}\n"
    text = lesson_text(
        f"{licks}play\n every {chord} a\n bar 4 b", form=own_form(" | ".join([chord] * 4))
    )
    assert said(text) == expected


def test_the_band_may_come_home_alone() -> None:
    """The last note sounds over another chord, and rests follow: our own choice."""
    licks = "lick a on I\n q 2d 3d 4d 2d\nlick b on V\n q 4d 1d h 5b\n"
    play = "play\n bars 1-2 a\n bar 3 b\n bar 4 rest"
    assert said(lesson_text(licks + play, form=own_form("I7 | I7 | V7 | I7"))) == []
    assert said(lesson_text("play\n every I rest", form=own_form("I7 | I7 | I7 | I7"))) == []


def test_the_last_note_is_named_with_its_degree_and_tones_near_it() -> None:
    """Our own choice."""
    text = blues("q 4d 2d h 5d", on="I", form=AT_HOME)
    problem = away(text)
    assert (problem.severity, problem.span.text) == (Severity.REMARK, "5d")
    assert problem.bars_heard == [12]
    assert problem.message() == "the tune ends on `5d` (F), the b7 of G7, and does not come home"
    assert hints(problem) == ["play `6b` (G, the root), `4d` (D, the 5) or `3d` (B, the 3)"]
    assert applied(edits(problem)[0]) == blues("q 4d 2d h 6b", on="I", form=AT_HOME)


def test_note_that_ends_other_choruses_on_five_is_changed_for_one_that_ends_both() -> None:
    """A is the 5 of D7 and the 9 of G7, D the root of D7 and the 5 of G7. Our own choice."""
    text = blues("q 4d 1d h 3d''", " x2", "  last time ending I\n", on="I | V, I")
    assert said(text) == [AWAY]
    problem = away(text)
    assert hints(problem)[0].startswith("play `4d` (D, the 5)")
    (edit,) = edits(problem)
    assert said(applied(edit)) == []


@pytest.mark.parametrize(
    ("times", "lines", "form", "expected"),
    [
        ("", "", "12-bar standard", []),  # one chorus is meant to go round again
        (" x2", "", "12-bar standard", [AWAY]),
        ("", "", AT_HOME, []),
        (" x2", COMES_HOME, "12-bar standard", []),
        ("", "  last time bar 12 gate\n", "12-bar standard", [AWAY]),  # it has an end
        ("", "  last time ending V\n", "12-bar standard", [AWAY]),
        (" x2", "play\n  every I porch\n  every IV creek\n  every V gate\n  ending I\n",
         "12-bar standard", []),
        ("", "play\n  every I porch\n  every IV creek\n  every V gate\n", "12-bar standard",
         [AWAY]),
    ],
)  # fmt: skip
def test_tune_with_an_end_ends_on_one(
    times: str, lines: str, form: str, expected: list[str]
) -> None:
    """One chorus on V: hundreds of lessons do that on purpose. Our own choice."""
    on = "I" if form == AT_HOME else "I | V"
    home = "q 4d 3d h 2d" if form == AT_HOME else "q 4d 5d h 1d"
    assert said(blues(home, times, lines, on=on, form=form)) == expected


def test_last_chord_is_named_with_its_bar() -> None:
    """Our own choice."""
    problem = away(blues("q 4d 5d h 1d", " x2"))
    assert (problem.severity, problem.span.text) == (Severity.REMARK, "play")
    assert problem.message() == (
        "the tune ends on D7, bar 12 of the last chorus, and does not come home"
    )
    problem = away(blues("q 4d 5d h 1d", "", "  last time bar 12 gate\n"))
    assert problem.message() == "the tune ends on D7, bar 12, and does not come home"
    assert "ends on C7, bar 4 of" in away(four_bars("IV7")).message()


def test_two_causes_of_a_turnaround_that_ends_every_chorus_at_home() -> None:
    """The others should lead back, and the last one should end: our own choice."""
    assert said(blues("q 4d 5d h 2d", " x2")) == [f"{OFF} 2d", AWAY]


def test_last_time_on_five_is_one_cause() -> None:
    """The note is at home, and its chord is not. Our own choice."""
    final = "turnaround final on I | V\n  q 2d 3d 4d 2d | q 4d 5d h 2d\n"
    text = blues("q 4d 5d h 1d", " x2", "  last time bars 11-12 final\n", more=final)
    assert said(text) == [AWAY]
    assert hints(away(text)) == [
        "write `last time ending I`, and `on I` in the first line of `final`"
    ]


# ---- The repair: `last time ending I` first ---------------------------------------------------
# Our own choice.

#: Bar 12 has what is played on every V.
EVERY_FIVE = lesson_text(f"{LICKS}play x2\n  every I porch\n  every IV creek\n  every V gate\n")
FINAL = "turnaround final on I\n  q 4d 3d 2d 3d | q 4d 3d h 2d\n"
FIFTH = "lick fifth on I\n  q 2d 3d h 4d\n"


@pytest.mark.parametrize(
    ("text", "words", "changes"),
    [
        # What the play places anyway.
        (
            EVERY_FIVE,
            "write `last time ending I`",
            [("V gate\n", "V gate\n  last time ending I\n")],
        ),
        # A lick on I in place of the turnaround.
        (blues("q 4d 5d h 1d", " x2"),
         "write `last time ending I` and `last time bars 11-12 porch`",
         [("home\n", "home\n  last time bars 11-12 porch\n  last time ending I\n")]),
        # One that is a turnaround, and one that ends on the key note.
        (blues("q 4d 5d h 1d", " x2", more=FINAL),
         "write `last time ending I` and `last time bars 11-12 final`",
         [("home\n", "home\n  last time bars 11-12 final\n  last time ending I\n")]),
        (blues("q 4d 5d h 1d", " x2", more=FIFTH),
         "write `last time ending I` and `last time bars 11-12 porch`",
         [("home\n", "home\n  last time bars 11-12 porch\n  last time ending I\n")]),
        # No lick on I ends on the key note: the 5 is at home too.
        (blues("q 4d 5d h 1d", " x2").replace("q 2d 3d 4d 2d\nlick", "q 2d 3d 2d 4d\nlick"),
         "write `last time ending I` and `last time bars 11-12 porch`",
         [("home\n", "home\n  last time bars 11-12 porch\n  last time ending I\n")]),
        # The turnaround ends on the key note, and is to lead back: another lick ends the tune.
        (blues("q 4d 5d h 2d", " x2"),
         "write `last time ending I` and `last time bars 11-12 porch`",
         [("home\n", "home\n  last time bars 11-12 porch\n  last time ending I\n")]),
        # No other lick comes home; the turnaround does, on the 5, and needs both chords.
        (blues("q 4d 5d h 1d", " x2").replace("q 2d 3d 4d 2d\nlick", "q 2d 3d 4d 5d\nlick"),
         "write `last time ending I`, and `on I | V, I` in the first line of `home`",
         [("home on I | V", "home on I | V, I"), ("home\n", "home\n  last time ending I\n")]),
        # The last time has its own line, or its own ending, already.
        (blues("q 4d 5d h 1d", " x2", "  last time bars 11-12 home\n"),
         "write `last time ending I`, and `porch` in place of `home`",
         [("last time bars 11-12 home\n",
           "last time bars 11-12 porch\n  last time ending I\n")]),
        (blues("q 4d 5d h 1d", " x2", "  last time ending V\n"),
         "write `last time ending I` and `last time bars 11-12 porch`",
         [("ending V\n", "ending I\n  last time bars 11-12 porch\n")]),
        (blues("q 4d 5d h 1d", " x2", "  last time bars 9-12 gate, creek, home\n"),
         "write `last time ending I`, and `porch x2` in place of `home`",
         [("creek, home\n", "creek, porch x2\n  last time ending I\n")]),
        # Two chords a bar: the last bar alone, or both.
        (blues("q 2d 3d 4b 4b | q 2d 3d 1d -", " x2", on="I IV | I V",
               form="12-bar standard ending I IV | I V"),
         "write `last time ending I | I` and `last time bars 11-12 porch`",
         [("home\n", "home\n  last time bars 11-12 porch\n  last time ending I | I\n")]),
        (blues("q 2d 3d 4b 4b | q 2d 3d 1d -", " x2", "  last time ending I IV | I V\n",
               on="I IV | I V", form="12-bar standard ending I IV | I V",
               more="turnaround final on I IV | I\n  q 2d 3d 4b 4b | w 2d\n"),
         "write `last time ending I IV | I` and `last time bars 11-12 final`",
         [("last time ending I IV | I V\n",
           "last time ending I IV | I\n  last time bars 11-12 final\n")]),
        # Lines that end as on other systems, and a comment.
        (blues("q 4d 5d h 1d", " x2").replace("11-12 home", "11-12 home  # so").replace(
            "\n", "\r\n"),
         "write `last time ending I` and `last time bars 11-12 porch`",
         [("# so\r\n", "# so\r\n  last time bars 11-12 porch\r\n  last time ending I\r\n")]),
    ],
)  # fmt: skip
def test_the_right_repair_comes_first(
    text: str, words: str, changes: list[tuple[str, str]]
) -> None:
    found = examined(text)
    problem = away(text)
    (hint,) = problem.hints()
    assert (hint.text, bool(hint.edit)) == (words, True)
    assert hint.edit
    wanted = text
    for old, new in changes:
        before, _, after = wanted.rpartition(old)
        wanted = before + new + after
    assert applied(hint.edit) == wanted
    assert not hint.edit.certain
    assert new_after(found, problem, hint.edit) == []


def test_in_a_minor_form_the_numeral_is_small() -> None:
    licks = "lick a on i\n q 2d 3d' 4d 2d\nlick b on iv\n q 4b 3d' 4b 4b\n"
    licks += "lick c on V7 \n q 4d 3d'' 4d 1d\nlick d on bVI7\n q 4b 5b 4b 4b\n"
    licks = licks.replace("5b", "3d'")
    play = "play x2\n every i a\n every iv b\n every V7 c\n every bVI7 d\n"
    problem = away(lesson_text(licks + play, form="12-bar minor"))
    assert hints(problem) == ["write `last time ending i`"]
    assert new_after(examined(lesson_text(licks + play, form="12-bar minor")), problem,
                     edits(problem)[0]) == []  # fmt: skip


def test_no_edit_that_leaves_a_lick_unplayed_or_cut() -> None:
    """Nothing on I is left to play, or the last time's own lick would be played nowhere."""
    other = "turnaround other on I | V\n  q 2d 3d 4d 2d | q 4d 5b h 3d''\n"
    text = blues("q 4d 5d h 1d", " x2", "  last time bars 11-12 other\n", more=other)
    problem = away(text)
    assert hints(problem) == [
        "write `last time ending I` and, in `last time bars 11-12`, a lick on I that ends on "
        "`2d` (G)"
    ]
    assert edits(problem) == []


WITH_FINAL = "write `last time ending I` and `last time bars 11-12 final`"
IN_WORDS = (
    "write `last time ending I` and, in `last time bars 11-12`, a lick on I that ends on `2d` (G)"
)


@pytest.mark.parametrize(
    ("final", "words"),
    [
        ("q 4d 3d h 2d", WITH_FINAL),
        ("q 4b 2d h 2d", IN_WORDS),  # C stays on a beat of G7
        ("q 2d'' 3d'' 2d'' 3d | q 2d 3d h 2d", WITH_FINAL),
        ("q 2d'' 3d'' 2d'' 3d'' | q 2d 3d h 2d", IN_WORDS),  # more deep bends than can be asked
    ],
)
def test_no_edit_that_brings_another_finding(final: str, words: str) -> None:
    """The turnaround clashes over I, and so may the only lick that ends at home."""
    text = blues("q 4b 1d h 1d", " x2", more=f"lick final on I\n  {final}\n")
    text = text.replace("q 2d 3d 4d 2d\nlick creek", "q 2d 3d 4d 5d\nlick creek")
    problem = away(text)
    assert hints(problem) == [words]
    for edit in edits(problem):
        assert new_after(examined(text), problem, edit) == []


def test_turnaround_of_a_shelf_stays_as_it_is(tmp_path: Path) -> None:
    """Other tunes use it: the lesson plays a lick of its own."""
    shelf = tmp_path / "ends.licks"
    shelf.write_text("position 2nd\nturnaround home on I | V\n  q 2d 3d 4d 2d | q 4d 5d h 2d\n")
    text = blues("q 4d 5d h 2d", " x2")
    own = "turnaround home on I | V\n  q 2d 3d 4d 2d |\n  q 4d 5d h 2d\n"
    path = tmp_path / "tune.lesson"
    path.write_text(text.replace(own, "").replace("lick porch", "use home from ends\nlick porch"))
    found = examine_file(path, "tune.lesson", Shelves(tmp_path))
    (problem,) = [each for each in found.problems if isinstance(each, TuneEndsAway)]
    assert hints(problem) == ["write `last time ending I` and `last time bars 11-12 porch`"]
    assert new_after(found, problem, edits(problem)[0]) == []


# Our own choice: 12,000 notes in all.
@pytest.mark.limit("judge.last_time.MOST_TRIED")
@pytest.mark.parametrize(("notes", "tried"), [(12_000, 1), (12_001, 0)])
def test_so_many_notes_are_tried(notes: int, tried: int) -> None:
    tune = tune_of(EVERY_FIVE)
    seen: list[Tune] = []
    many = tune._replace(notes=(tune.notes * (notes // len(tune.notes) + 1))[:notes])

    def mends(changed: Tune) -> bool:
        seen.append(changed)
        return False

    on_home(many, mends)
    assert len(seen) == tried


# ---- Every edit, applied, and the demos --------------------------------------------------------


@pytest.mark.parametrize("name", NAMES)
def test_demos_end_well(name: str) -> None:
    assert [p.code for p in demo(name).problems if p.code in (OFF, AWAY)] == []


def test_a_demo_whose_last_time_stops_at_home_is_told_the_chord() -> None:
    """The edit makes the demo lesson of it, but for the order of its lines."""
    found = remarked("last-tram-but-one")
    (problem,) = [each for each in found.problems if isinstance(each, TuneEndsAway)]
    assert hints(problem) == [
        "write `last time ending I`, and `on ii7 V7 | I` in the first line of `buffers`"
    ]
    (edit,) = edits(problem)
    assert new_after(found, problem, edit) == []
    assert sorted(applied(edit).split()) == sorted(demo_text("last-tram-but-one").split())


def test_a_demo_with_a_lick_to_end_on_is_told_where_to_play_it() -> None:
    away, _, lines = demo_text("two-lamps-on-mill-lane").rpartition("  last time ending")
    assert lines.endswith("blaze\n")
    path = LESSONS / "two-lamps-on-mill-lane.lesson"
    found = examine(Source(path.name, away, path), Shelves(LESSONS))
    (problem,) = [each for each in found.problems if isinstance(each, TuneEndsAway)]
    assert hints(problem) == ["write `last time ending I` and `last time bars 11-12 stroll`"]
    (edit,) = edits(problem)
    assert new_after(found, problem, edit) == []


def test_a_demo_without_a_lick_to_end_on_is_told_what_to_write() -> None:
    (problem,) = remarked("two-lamps-on-mill-lane").problems
    assert hints(problem) == [
        "write `last time ending I` and, in `last time bars 11-12`, a lick on I that ends on "
        "`2d` (E)"
    ]
    assert edits(problem) == []


def demo_text(name: str) -> str:
    return (LESSONS / f"{name}.lesson").read_text(encoding="utf-8")


@pytest.mark.parametrize("seed", range(60))
def test_made_up_lessons_agree_with_a_plain_reading_of_the_rules(seed: int) -> None:
    """`plain_rules.py` reads them a second time."""
    found = examined(random_lesson(seed))
    tune, codes = found.tune, [problem.code for problem in found.problems]
    if not tune or "position-wrong" in codes or len(codes) >= 200:
        return
    off = ends_off_five(tune)
    earlier = {each.note.mark.span.place for each in off if not _is_last(tune, each.note)}
    places = {each.note.mark.span.place for each in off}
    wanted = earlier if ends_elsewhere(tune) else places
    assert {p.span.place for p in found.problems if p.code == OFF} == wanted
    assert codes.count(AWAY) == bool(ends_elsewhere(tune) or end_away(tune))


def _is_last(tune: Tune, note: Note) -> bool:
    """Whether a note is in the last bar of a tune."""
    return note.end > tune.bars[-1].start


@pytest.mark.parametrize("seed", range(40))
def test_every_edit_in_a_made_up_lesson(seed: int) -> None:
    """It removes its finding, and brings no error and no finding as grave."""
    found = examined(random_lesson(seed))
    for problem in found.problems:
        if problem.code in (OFF, AWAY):
            for edit in edits(problem):
                assert new_after(found, problem, edit) == []
