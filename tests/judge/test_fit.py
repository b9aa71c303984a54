"""Fit: what a note is to a chord, where it lands, and what is said about it.

In second position on a C harp the key is G: I is G7 (G B D F), IV is C7 (C E G Bb), V is D7
(D F# A C). 3 draw is B: the third of I, the major seventh of IV.
"""

from __future__ import annotations

from fractions import Fraction as F

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formsheet.judge.fit import Verdict
from formsheet.music.harp import HARP_KEYS, Harp
from formsheet.problems.problem import Problem, Severity
from tests.helpers import examined, lesson_text, over, own_form, told

few = settings(max_examples=60, derandomize=True, deadline=None, database=None)

# ---- The harp's common practice, second position -----------------------------------------


def fits_of(chords: str, music: str, **facts: str) -> list[tuple[str, str, Verdict]]:
    """Each note: its tab, its degrees over the chord where it starts, its verdict."""
    found = examined(over(chords, music, **facts))
    assert found.tune, told(found.problems)
    return [
        (str(fit.note.tab), " ".join(fit.degrees), fit.verdict)
        for bar in found.fits
        for fit in bar.notes
    ]


@pytest.mark.parametrize(
    ("chord", "tab", "degrees", "verdict"),
    [
        # 2 draw is the root of I, 1 blow of IV, 1 draw of V. Common practice, no source.
        ("I7", "2d", "R", Verdict.CHORD_TONE),
        ("IV7", "1b", "R", Verdict.CHORD_TONE),
        ("V7", "1d", "R", Verdict.CHORD_TONE),
        # Holes 1 to 3 draw are I, blow are IV; V has no block there. Common practice.
        ("I7", "123d", "5 R 3", Verdict.CHORD_TONE),
        ("IV7", "123b", "R 3 5", Verdict.CHORD_TONE),
        ("V7", "123d", "R 4 6", Verdict.COLOUR),
        # Its third and fifth there are bends of 2 draw and 3 draw. Common practice.
        ("V7", "2d'", "3", Verdict.CHORD_TONE),
        ("V7", "3d''", "5", Verdict.CHORD_TONE),
        # 3 draw: third of I, major seventh of IV; bent a half step the b7 of IV. Common practice.
        ("I7", "3d", "3", Verdict.CHORD_TONE),
        ("IV7", "3d", "7", Verdict.CLASH),
        ("IV7", "3d'", "b7", Verdict.CHORD_TONE),
        ("I7", "3d'", "b3", Verdict.BLUE_NOTE),
        ("V7", "3d'", "b6", Verdict.BLUE_NOTE),
        ("I7", "4d'", "b5", Verdict.BLUE_NOTE),
        ("I7", "5d", "b7", Verdict.CHORD_TONE),
        ("I7", "25d", "R b7", Verdict.CHORD_TONE),
        ("IV7", "34d", "7 9", Verdict.CLASH),
        ("I7", "3d'''", "b9", Verdict.CLASH),
        # A plain triad has no seventh: the b7 of IV is colour, that of I a blue note of the key.
        ("I", "5d", "b7", Verdict.BLUE_NOTE),
        ("IV", "3d'", "b7", Verdict.COLOUR),
        ("IV", "3d", "7", Verdict.COLOUR),
        ("V", "4b", "b7", Verdict.COLOUR),
        ("I", "123d", "5 R 3", Verdict.CHORD_TONE),
    ],
)
def test_second_position(chord: str, tab: str, degrees: str, verdict: Verdict) -> None:
    assert fits_of(chord, f"w {tab}!") == [(tab, degrees, verdict)]


@pytest.mark.parametrize(
    ("chord", "tab", "degrees"),
    [
        ("i", "4d", "R"),
        ("i", "5d", "b3"),
        ("iv", "2d", "R"),
        ("iv", "3d'", "b3"),
        ("V7", "2d", "b7"),
    ],
)
def test_third_position_minor(chord: str, tab: str, degrees: str) -> None:
    """C harp in third position: D minor, with G minor and A7. Common practice."""
    fit = fits_of(f"i | {chord}", f"w 4d | {tab}", position="3rd")[1]
    assert fit == (tab, degrees, Verdict.CHORD_TONE)


def test_no_major_third_over_a_minor_chord() -> None:
    """3 draw is the major third of iv, G minor, in third position."""
    assert fits_of("i | iv", "w 4d | 3d!", position="3rd")[1] == ("3d", "3", Verdict.CLASH)


# ---- What is said of a clash -------------------------------------------------------------


def told_of_fit(text: str) -> list[Problem]:
    return [p for p in examined(text).problems if p.code.startswith("note-")]


def findings(chords: str, music: str, **facts: str) -> list[tuple[str, str]]:
    """Kind and tab of each finding of the fit."""
    return [(p.code, p.fields["tab"]) for p in told_of_fit(over(chords, music, **facts))]


def finding(chords: str, music: str) -> Problem:
    (found,) = told_of_fit(over(chords, music))
    return found


CLASH, RUBS, LEANS = [("note-clash", "3d")], [("note-rubs", "3d")], [("note-leans", "3d")]


@pytest.mark.parametrize(
    ("music", "found"),
    [
        # It lands: on a strong beat, one or three of four.
        ("e 3d 2d q 4b h 4b", CLASH),
        ("h 4b e 3d 2d q 4b", CLASH),
        ("s 3d 2d e 4b h. 4b", CLASH),
        # It lasts a beat or more, wherever it begins.
        ("q 4b 3d 2d 4b", CLASH),
        ("q 4b e 4b q 3d e 2d q 4b", CLASH),
        ("q 4b e 4b 3d = 2d q 4b", CLASH),
        ("q 4b 3d 3d'' 4b", CLASH),
        # It is the last before a rest, or of the tune.
        ("q 4b e 4b 3d h -", CLASH),
        ("q 4b e 3d - h 4b", CLASH),
        ("h. 4b e 4b 3d", CLASH),
        # Short, on beat two or four or between beats, and left by a leap.
        ("q 4b e 3d 2d h 4b", RUBS),
        ("q 4b e 4b 3d h 2d", RUBS),
        ("h. 4b e 3d 2d", RUBS),
        ("q 4b e 3d 4d h 4b", RUBS),  # three half steps are a leap
        # Short, not on a strong beat, and left by step: harmless.
        ("q 4b e 4b 3d h 3d''", []),
        ("q 4b e 4b 3d h 4b", []),
        ("q 4b e 3d 3d' h 4b", []),
        ("q 4b e 3d 3d'' h 4b", []),
        ("e 4b 3d 3d'' 4b h 4b", []),
        # On a strong beat, but short and led by a half step into a chord tone.
        ("e 3d 4b q 4b h 4b", LEANS),
        ("e. 3d s 3d' q 4b h 4b", LEANS),
        # Not where that is a whole step, or where it stays a beat.
        ("e 3d 3d'' q 4b h 4b", CLASH),
        ("q 3d 4b h 4b", CLASH),
        ("e 3d''' 3d'' q 4b h 4b", [("note-clash", "3d'''")]),  # Ab to A, the 6 of C7
        ("e 3d''' 2d q 4b h 4b", [("note-leans", "3d'''")]),  # Ab to G, its 5
    ],
)
def test_where_a_clash_lands(music: str, found: list[tuple[str, str]]) -> None:
    assert findings("IV7", music) == found


@pytest.mark.parametrize(
    ("meter", "music", "found"),
    [
        # 12/8: strong on the first and the third dotted beat; a beat is three eighths.
        ("12/8", "e 3d 2d 4b q. 4b 4b 4b", CLASH),
        ("12/8", "q. 4b 4b e 3d 2d 4b q. 4b", CLASH),
        ("12/8", "q. 4b e 3d 2d 4b q. 4b 4b", RUBS),
        ("12/8", "q. 4b e 4b q 3d h. 2d", RUBS),
        ("12/8", "q. 4b 3d 3d'' 4b", CLASH),
        # 3/4 and 6/8: strong on one only.
        ("3/4", "e 3d 2d h 4b", CLASH),
        ("3/4", "q 4b 4b e 3d 2d", RUBS),
        ("6/8", "q. 4b e 3d 2d 4b", RUBS),
    ],
)
def test_strong_beats_of_other_meters(meter: str, music: str, found: list[tuple[str, str]]) -> None:
    assert findings("IV7", music, meter=meter) == found


def test_swing_does_not_turn_an_eighth_into_a_beat() -> None:
    assert findings("IV7", "q 4b e 3d 2d h 4b", feel="swing") == RUBS


def test_a_clash_is_a_warning() -> None:
    problem = finding("IV7", "q 3d 4b 4b 4b")
    assert (problem.severity, problem.span.text) == (Severity.WARNING, "3d")
    assert [problem.fields[f] for f in ("pitch", "degree", "letter", "bars", "held")] == [
        "B", "7", "C7", [1], False,
    ]  # fmt: skip


@pytest.mark.parametrize("music", ["q 4b e 3d 2d h 4b", "e 3d 4b q 4b h 4b"])
def test_what_only_rubs_or_leans_is_a_remark(music: str) -> None:
    assert finding("IV7", music).severity is Severity.REMARK


@pytest.mark.parametrize("music", ["q 3d! 4b 4b 4b", "e 3d! 2d q 4b h 4b", "q 4b e 3d! 2d h 4b"])
def test_a_deliberate_clash_is_a_remark(music: str) -> None:
    problem = finding("IV7", music)
    assert (problem.code, problem.severity) == ("note-clash-deliberate", Severity.REMARK)
    assert problem.fields["offers"] == []


def test_nothing_is_said_of_a_deliberate_note_that_fits() -> None:
    assert findings("I7", "w 2d!") == []


def test_worst_tone_of_a_block_is_named() -> None:
    problem = finding("IV7", "h 34d 4b")
    assert (problem.fields["tab"], problem.fields["degree"]) == ("34d", "7")


# ---- Held over a change of chord ---------------------------------------------------------


@pytest.mark.parametrize(
    ("chords", "music", "bars"),
    [
        # The third of I becomes the major seventh of IV.
        ("I7 | IV7", "h. 4d q 3d | = h. 4b", [2]),
        ("I7 | I7 | IV7", "w 3d | = | q = h. 4b", [3]),
        ("I7 IV7", "h. 3d q 4b", [1]),
    ],
)
def test_held_into_a_clash(chords: str, music: str, bars: list[int]) -> None:
    problem = finding(chords, music)
    assert (problem.code, problem.severity) == ("note-clash", Severity.WARNING)
    assert (problem.fields["held"], problem.fields["bars"]) == (True, bars)


def test_held_into_a_clash_deliberately() -> None:
    assert findings("I7 | IV7", "h. 4d q 3d! | = h. 4b") == [("note-clash-deliberate", "3d")]


@pytest.mark.parametrize(
    ("chords", "music"),
    [("I7 | IV7", "h. 4d q 2d | = h. 4b"), ("I7 | I7", "w 3d | ="), ("I7 IV7", "h 3d 4b")],
)
def test_held_without_a_clash(chords: str, music: str) -> None:
    assert findings(chords, music) == []


def test_pickup_is_judged_over_the_bar_that_it_sounds_in() -> None:
    """3 draw leads into I, but sounds over IV, and leaps to 1 draw."""
    text = lesson_text(
        "lick a on IV\n h. 4b q -\nlick b on I\n pickup e 3d 1d\n w 2d\n"
        "play\n every IV a\n every I b",
        form=own_form("IV7 | I7"),
    )
    (problem,) = told_of_fit(text)
    assert (problem.code, problem.fields["bars"], problem.fields["lick"]) == ("note-rubs", [1], "b")


def test_each_finding_is_told_once_with_all_its_bars() -> None:
    text = lesson_text(
        "lick a on I\n w 2d\nlick b on IV\n h 3d 4b\nplay x2\n every I a\n every IV b\n"
        " every V rest"
    )
    (problem,) = told_of_fit(text)
    assert problem.fields["bars"] == [5, 6, 10]


def test_a_lick_over_several_chords_is_told_for_the_one_that_it_clashes_with() -> None:
    text = lesson_text("lick a on I, IV, V\n h 3d 2d\nplay\n every I a\n every IV a\n every V a")
    found = [(p.fields["letter"], p.fields["bars"]) for p in told_of_fit(text)]
    assert found == [("C7", [5, 6, 10])]


# ---- Shares ------------------------------------------------------------------------------


def shares(chords: str, music: str) -> list[F | None]:
    return [fit.share for fit in examined(over(chords, music)).fits]


@pytest.mark.parametrize(
    ("chords", "music", "expected"),
    [
        ("IV7", "q 4b 3d 2d 1b", [F(3, 4)]),
        ("IV7", "q 4b - 3d -", [F(1, 2)]),  # of the sounding time
        ("IV7", "h. 3d q 4b", [F(1, 4)]),
        ("I7", "e3 2d 3d' 2d h. -", [F(2, 3)]),  # a blue note is no chord tone
        ("I7", "w 123d", [F(1)]),
        ("IV7", "w 123d", [F(0)]),  # all of a block must fit
        ("I7 | IV7", "h. 4d q 3d | = 4b 4b 4b", [F(1), F(3, 4)]),  # a hold counts where it sounds
        ("I7 IV7", "w 3d", [F(1, 2)]),
        ("I7 IV7", "h. 3d q 4b", [F(3, 4)]),
        ("I7 | I7", "w 2d | -", [F(1), None]),
    ],
)
def test_share_of_chord_tones(chords: str, music: str, expected: list[F | None]) -> None:
    assert shares(chords, music) == expected


def test_a_tune_of_rests_is_judged() -> None:
    found = examined(lesson_text("play\n bars 1-2 rest", form=own_form("I7 | I7")))
    assert [(fit.notes, fit.share) for fit in found.fits] == [((), None), ((), None)]


# ---- Another harp ------------------------------------------------------------------------

SINGLES = [str(tab) for tab, _ in Harp("C").single_notes(overbends=True)]
MARKS = [*SINGLES, "123d", "123b", "34d", "45d", "14b", "25d", "-"]


@st.composite
def bar(draw: st.DrawFn) -> str:
    """A bar of quarters, eighths and triplets."""
    counts = draw(st.lists(st.integers(1, 3), min_size=4, max_size=4))
    marks = st.sampled_from(MARKS)
    return " ".join(
        " ".join([("", "q", "e", "e3")[count], *(draw(marks) for _ in range(count))])
        for count in counts
    )


@few
@given(
    st.lists(bar(), min_size=3, max_size=3),
    st.sampled_from(
        ["I7 | IV7 | V7", "I | IV | V", "I7 | ii7 | VI7", "i | iv | V7", "I IV | I V | bVI7"]
    ),
    st.sampled_from(["1st", "2nd", "3rd", "5th", "12th"]),
    st.sampled_from(HARP_KEYS),
    st.sampled_from(["", "low", "high"]),
)
def test_another_harp_changes_no_degree_and_no_verdict(
    bars: list[str], chords: str, position: str, key: str, register: str
) -> None:
    on_c = fits_of(chords, " | ".join(bars), position=position)
    harp = f"{register} {key}".strip()
    assert fits_of(chords, " | ".join(bars), position=position, harp=harp) == on_c
