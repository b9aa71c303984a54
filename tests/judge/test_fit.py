"""Fit: which notes are reported, and as what.

In second position on a C harp the key is G: I7 is G B D F, IV7 is C E G Bb, V7 is D F# A C.
3 draw is B: the 3 of I, the 7 of IV. 4 blow is C: the 4 of I, the root of IV.

What a note is over a chord, an avoid note for one, is in `test_verdicts.py` with its sources. What
is reported of it is our own choice, unless a test says otherwise; the reasons are those of the
rules at the top of `formsheet/judge/fit.py`.
"""

from __future__ import annotations

from fractions import Fraction as F

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formsheet.judge.fit import Heard
from formsheet.judge.verdicts import Verdict
from formsheet.music.harp import HARP_KEYS
from formsheet.problems.problem import Severity
from tests.helpers import examined, lesson_text, over, own_form, slugs_of, told
from tests.judge.fitting import (
    CLASH,
    FLAT_FIVE,
    FORMS,
    KEY_NOTE,
    MEANT,
    SUSPENDED,
    bars,
    finding,
    fit_problems,
    said,
)
from tests.judge.plain_rules import WARNING
from tests.judge.planted import found_of_fit, wanted_of_fit
from tests.random_lessons import random_lesson

few = settings(max_examples=60, derandomize=True, deadline=None, database=None)
SILENT: list[str] = []

# ---- What a note is: second position -------------------------------------------------------


def fits_of(chords: str, music: str, **facts: str) -> list[tuple[str, str, Verdict]]:
    """Each note: its tab, its degrees over the chord that it belongs to, its verdict."""
    found = examined(over(chords, music, **facts))
    assert found.tune, told(found.problems)
    return [
        (str(fit.note.tab), " ".join(fit.degrees), fit.verdict)
        for bar in found.fits
        for fit in bar.notes
    ]


# Common practice, no source: what the holes are over I, IV and V in second position.
@pytest.mark.parametrize(
    ("chord", "tab", "degrees", "verdict"),
    [
        # 2 draw is the root of I, 1 blow of IV, 1 draw of V.
        ("I7", "2d", "R", Verdict.CHORD_TONE),
        ("IV7", "1b", "R", Verdict.CHORD_TONE),
        ("V7", "1d", "R", Verdict.CHORD_TONE),
        # Holes 1 to 3 drawn are I, blown IV; V has no block there. A block has its worst verdict.
        ("I7", "123d", "5 R 3", Verdict.CHORD_TONE),
        ("IV7", "123b", "R 3 5", Verdict.CHORD_TONE),
        ("V7", "123d", "R 4 6", Verdict.AVOID),
        # The third and fifth of V there are bends of 2 draw and 3 draw.
        ("V7", "2d'", "3", Verdict.CHORD_TONE),
        ("V7", "3d''", "5", Verdict.CHORD_TONE),
        # 3 draw: third of I, 7 of IV; bent a half step the b7 of IV.
        ("I7", "3d", "3", Verdict.CHORD_TONE),
        ("IV7", "3d", "7", Verdict.AVOID),
        ("IV7", "3d'", "b7", Verdict.CHORD_TONE),
        ("I7", "3d'", "b3", Verdict.IDIOMATIC),
        ("I7", "4d'", "b5", Verdict.IDIOMATIC),
        ("V7", "5d", "b3", Verdict.IDIOMATIC),
        ("I7", "25d", "R b7", Verdict.CHORD_TONE),
        ("IV7", "34d", "7 9", Verdict.AVOID),
        ("IV7", "45d", "9 4", Verdict.AVOID),
        ("I7", "6d", "9", Verdict.COLOUR),
    ],
)
def test_second_position(chord: str, tab: str, degrees: str, verdict: Verdict) -> None:
    assert fits_of(chord, f"w {tab}!") == [(tab, degrees, verdict)]


# Common practice, no source: a C harp in third position has D minor, with G minor and A7.
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
    fit = fits_of(f"i | {chord}", f"w 4d | {tab}", position="3rd")[1]
    assert fit == (tab, degrees, Verdict.CHORD_TONE)


# ---- Only what stays is reported ---------------------------------------------------------
# 5 blow is E, the 3 of IV, a leap away from 3 draw.


@pytest.mark.parametrize(
    ("music", "found"),
    [
        # A beat or more, wherever it begins.
        ("q 5b 3d 5b 5b", [f"{CLASH} 3d"]),
        ("q 5b h. 3d", [f"{CLASH} 3d"]),
        ("q 5b e 5b q 3d e 5b q 5b", [f"{CLASH} 3d"]),
        ("q 5b e 5b 3d = 5b q 5b", [f"{CLASH} 3d"]),
        # Less than a beat.
        ("e. 3d s 5b h. 5b", SILENT),
        ("e 3d 5b h. 5b", SILENT),
        ("q 5b e 5b 3d h 5b", SILENT),
        ("q3 3d 5b 5b h 5b", SILENT),
        # A rest of a beat or more follows.
        ("q 5b e 5b 3d q - 5b", [f"{CLASH} 3d"]),
        ("h 5b e 5b 3d q -", [f"{CLASH} 3d"]),
        ("q 5b s 3d - e - - - q 5b", [f"{CLASH} 3d"]),
        # The rest is shorter.
        ("q 5b e 3d - h 5b", SILENT),
        ("q 5b s 3d e. - h 5b", SILENT),
        # After the last note there is nothing else.
        ("h. 5b e 5b 3d", [f"{CLASH} 3d"]),
    ],
)
def test_a_note_stays_if_it_lasts_a_beat_or_a_rest_of_a_beat_follows(
    music: str, found: list[str]
) -> None:
    assert said("IV7", music) == found


def test_rest_goes_on_over_the_bar_line() -> None:
    assert said("IV7 | IV7", "h. 5b s 5b 5b 3d - | e. - s 5b h. 5b") == [f"{CLASH} 3d"]
    assert said("IV7 | IV7", "h. 5b s 5b 5b 3d - | e - 5b h. 5b") == SILENT


# A beat of 12/8 and 6/8 is a dotted quarter. Common practice, no source.
@pytest.mark.parametrize(
    ("meter", "music", "found"),
    [
        ("12/8", "q. 5b 3d 5b 5b", [f"{CLASH} 3d"]),
        ("12/8", "q. 5b q 3d e 5b h. 5b", SILENT),
        ("12/8", "q. 5b e 5b 5b 3d q. - 5b", [f"{CLASH} 3d"]),
        ("12/8", "q. 5b e 3d q - h. 5b", SILENT),
        ("6/8", "q. 3d 5b", [f"{CLASH} 3d"]),
        ("6/8", "q 3d e 5b q. 5b", SILENT),
        ("6/8", "e 5b 5b 3d q. -", [f"{CLASH} 3d"]),
        ("3/4", "q 5b 3d 5b", [f"{CLASH} 3d"]),
        ("3/4", "q 5b e 3d 5b q 5b", SILENT),
        ("3/4", "q 5b e 5b 3d q -", [f"{CLASH} 3d"]),
    ],
)
def test_beats_of_other_meters(meter: str, music: str, found: list[str]) -> None:
    assert said("IV7", music, meter=meter) == found


def test_swing_does_not_turn_an_eighth_into_a_beat() -> None:
    assert said("IV7", "e 3d 5b h. 5b", feel="swing") == SILENT


@pytest.mark.parametrize("music", ["w 4b", "w 6b", "w 3d'", "w 4d", "w 6d", "w 8b'"])
def test_what_is_no_avoid_note_may_stay(music: str) -> None:
    """Over C7: its root, 5 and b7; the 9 and the 6; Eb, its #9."""
    assert said("IV7", music) == SILENT


# ---- A line ------------------------------------------------------------------------------
# The two lines are those of the rule; common practice, no source: a chromatic line passes.


@pytest.mark.parametrize(
    ("music", "found"),
    [
        ("q 2d 2d' 2d'' 2b", SILENT),  # G F# F E: the 7 of I
        ("q 3d 4b 4d' 4d", SILENT),  # B C Db D: the 4
        ("q 3d' 4b 4d' 4d", SILENT),  # by a whole step
        ("q 4d 4b 3d' 2d", SILENT),  # D C Bb
        # It is reached by a leap, three half steps for one, or left by one.
        ("q 3d'' 4b 4d' 4d", [f"{CLASH} 4b"]),
        ("q 5b 4b 4d' 4d", [f"{CLASH} 4b"]),
        ("q 3d 4b 5d 4d", [f"{CLASH} 4b"]),
        # It turns back: D C Db.
        ("q 4d 4b 4d' 4d", [f"{CLASH} 4b"]),
        # It is struck twice: not reached by a step.
        ("q 3d 4b 4b 4d'", [f"{CLASH} 4b", f"{FLAT_FIVE} 4d'"]),
        # A rest before it, or after it.
        ("e 3d - q 4b 4d' 4d", [f"{CLASH} 4b"]),
        ("q 3d 4b - 4d", [f"{CLASH} 4b"]),
        # Longer than a beat.
        ("q 3d q. 4b e 4d' q 4d", [f"{CLASH} 4b"]),
        ("q 3d q 4b s = 4d' e 4d q 4d", [f"{CLASH} 4b"]),
    ],
)
def test_a_line_passes(music: str, found: list[str]) -> None:
    assert said("I7", music) == found


def test_a_line_goes_on_over_bar_lines() -> None:
    assert said("I7 | I7", "h. 2d q 3d | q 4b 4d' h 4d") == SILENT


@pytest.mark.parametrize(
    ("music", "found"),
    [("q. 3d 4b 4d' 4d", SILENT), ("q. 3d q 4b e = = 4d' 4d q. 4d", [f"{CLASH} 4b"])],
)
def test_a_beat_of_a_line_in_12_8(music: str, found: list[str]) -> None:
    assert said("I7", music, meter="12/8") == found


# ---- It resolves -------------------------------------------------------------------------
# The 4 that falls to the 3, and its kin. Common practice, no source.


@pytest.mark.parametrize(
    ("music", "found"),
    [
        ("q 5d 4b 3d 2d", SILENT),  # 4 to 3
        ("q 5d 4b 4d 2d", SILENT),  # 4 to 5, a whole step
        ("q 4d 2d' 2d 2d", SILENT),  # 7 to the root
        ("q 5d e 4b 3d h 2d", SILENT),
        # Not to a tone of the chord: C to Bb, the b3.
        ("q 5d 4b 3d' 2d", [f"{CLASH} 4b"]),
        # Not by a step: C to G, or A to C.
        ("q 5d 4b 2d 2d", [f"{CLASH} 4b"]),
        # Not without a rest.
        ("q 5d 4b - 3d", [f"{CLASH} 4b"]),
        ("q 5d 4b e - 3d q 2d", [f"{CLASH} 4b"]),
    ],
)
def test_a_note_that_resolves_within_a_beat_passes(music: str, found: list[str]) -> None:
    assert said("I7", music) == found


def test_it_resolves_to_the_chord_then_sounding() -> None:
    """B over C7 rises to C: a tone of D7 in the next bar, none of G7."""
    assert said("IV7 | V7", "h. 5b q 3d | w 4b") == SILENT
    assert said("IV7 | I7", "h. 5b q 3d | w 4b!") == [f"{CLASH} 3d", f"{MEANT} 4b"]


def test_it_may_resolve_to_a_note_that_is_pushed_ahead() -> None:
    """Ab over G7 rises to Bb: the b7 of C7 if it is pushed there, of G7 no tone."""
    music = "h 4d e 4d 3d''' = 3d' | q = h. 5b"
    assert said("I7 | IV7", music) == SILENT
    assert said("I7 | I7", music) == [f"{CLASH} 3d'''"]


@pytest.mark.limit("judge.fit.LONGEST_SUSPENSION")  # our own choice: two beats
@pytest.mark.parametrize(
    ("chord", "music", "found"),
    [
        ("I7", "q 5d q 4b s = 3d e 3d q 2d", [f"{SUSPENDED} 4b"]),  # a beat and a quarter
        ("I7", "q 5d q. 4b e 3d q 2d", [f"{SUSPENDED} 4b"]),
        ("I7", "q 5d h 4b q 3d", [f"{SUSPENDED} 4b"]),
        ("I7", "q 5d h 4b s = 3d e 3d", [f"{CLASH} 4b"]),  # two beats and a quarter
        ("I7", "q 5d h 4b e = 3d", [f"{CLASH} 4b"]),
        ("IV7", "q 5b h 3d q 3d'", [f"{SUSPENDED} 3d"]),  # 7 to b7
        ("IV7", "q 5b h 3d q 5b", [f"{CLASH} 3d"]),
    ],
)
def test_more_than_a_beat_is_a_suspension(chord: str, music: str, found: list[str]) -> None:
    assert said(chord, music) == found


def test_two_beats_of_12_8() -> None:
    assert said("I7", "q. 5d h. 4b q. 3d", meter="12/8") == [f"{SUSPENDED} 4b"]
    assert said("I7", "q. 5d h. 4b e = 3d 3d", meter="12/8") == [f"{CLASH} 4b"]


def test_a_suspension_is_a_remark_with_its_length() -> None:
    problem = finding("I7", "q 5d q. 4b e 3d q 2d")
    assert (problem.severity, problem.sounding.length) == (Severity.REMARK, F(3, 2))
    assert problem.message() == (
        "`4b` (C) hangs over G7 for 1.5 beats, from beat 2 of bar 1: the 4, a suspension"
    )


# Common practice, no source: a suspension is a 4 that falls to the 3.
@pytest.mark.parametrize(
    ("chord", "music", "name"),
    [
        ("I7", "q 5d h 4b q 3d", "the 4, a suspension"),
        ("I7", "q 5d h 4b q 4d", "the 4, which moves on by step"),  # up to the 5
        ("IV7", "q 5b h 3d q 3d'", "the 7, which moves on by step"),
    ],
)
def test_only_a_4_that_falls_is_called_a_suspension(chord: str, music: str, name: str) -> None:
    assert finding(chord, music).message().endswith(name)


# ---- The flat five -----------------------------------------------------------------------
# It wants to move: common practice, no source.


@pytest.mark.parametrize(
    ("chord", "music", "found"),
    [
        ("I7", "q 2d 3d h 4d'", [f"{FLAT_FIVE} 4d'"]),
        ("I7", "q 2d 3d 4d' 2d", [f"{FLAT_FIVE} 4d'"]),
        ("I7", "q 2d 3d 4d' -", [f"{FLAT_FIVE} 4d'"]),
        ("I7", "q 2d e 3d 4d' q - 4d", [f"{FLAT_FIVE} 4d'"]),
        # Up to the 5, down to the 4, by a whole step; however long it is.
        ("I7", "q 2d 3d 4d' 4d", SILENT),
        ("I7", "q 3d 4d' e 4b 3d' q 2d", SILENT),
        ("I7", "q 2d h 4d' q 4d", SILENT),
        ("I7", "q 2d 4d' 3d 2d", SILENT),
        # It does not stay.
        ("I7", "q 2d e 3d 4d' h 2d", SILENT),
        # Over the other chords: Gb over C7, Ab over D7.
        ("IV7", "q 4b 2d' 5b 4b", [f"{FLAT_FIVE} 2d'"]),
        ("IV7", "q 4b 2d' 2d 4b", SILENT),
        ("V7", "q 4d 3d''' 4d 4d", [f"{FLAT_FIVE} 3d'''"]),
        ("V7", "q 4d 3d''' 3d'' 4d", SILENT),
        # Where it belongs to the chord it may stay: Eb over Am7b5.
        ("ii7b5", "w 8b'", SILENT),
        # Half a step above the 4 of a suspended chord it is an avoid note.
        ("V7sus4", "q 4d 3d''' 4d 4d", [f"{CLASH} 3d'''"]),
    ],
)
def test_a_flat_five_that_stays_moves_by_step(chord: str, music: str, found: list[str]) -> None:
    assert said(chord, music) == found


def test_in_a_block_the_flat_five_itself_moves() -> None:
    """Key of F on a C harp: D G B over F, where B is the b5; then F: only G leaves by step."""
    assert said("I", "q 123d 2d'' 1b 1b", position="12th") == [f"{FLAT_FIVE} 123d"]
    assert said("I", "q 123d 4b 1b 1b", position="12th") == SILENT


def test_a_flat_five_is_a_remark_that_names_steps() -> None:
    problem = finding("I7", "q 2d 3d h 4d'")
    assert (problem.severity, problem.fields["steps"]) == (Severity.REMARK, ["4d"])


def test_steps_are_one_tab_for_each_pitch() -> None:
    """Gb over C7: to G, which is 2 draw and 3 blow; 2 draw is the same hole. F is no chord tone."""
    assert finding("IV7", "q 4b 2d' 5b 4b").fields["steps"] == ["2d"]


# ---- The key note over V -----------------------------------------------------------------
# A stock riff left over V is used everywhere: common practice, no source.


@pytest.mark.parametrize(
    ("chord", "music", "found"),
    [
        ("V7", "q 4d 5d h 2d", [f"{KEY_NOTE} 2d"]),
        ("V7", "q 4d 5d h 6b", [f"{KEY_NOTE} 6b"]),
        ("V", "q 4d 6d h 2d", [f"{KEY_NOTE} 2d"]),
        ("V7", "h 36b q 4d 1d", [f"{KEY_NOTE} 36b"]),  # the key note twice
        # It does not stay, or it resolves.
        ("V7", "q 4d e 5d 2d h 4d", SILENT),
        ("V7", "q 4d 2d 2d' 1d", SILENT),
        ("V7", "q 4d h 2d q 2d'", [f"{SUSPENDED} 2d"]),
        # With other notes it is a chord, and D G B is not D7.
        ("V7", "h 123d q 4d 1d", [f"{CLASH} 123d"]),
        # Where the 4 fits it is not reported: over v, over Vsus.
        ("v7", "q 4d 5d h 2d", SILENT),
        ("V7sus4", "q 4d 1d h 2d", SILENT),
        # Other notes of the key over V, and the key note over other chords.
        ("V7", "q 4d 5d h 3d'", [f"{CLASH} 3d'"]),
        ("III7", "q 3d 3d h 2d", [f"{CLASH} 2d"]),
    ],
)
def test_key_note_over_five_is_a_remark(chord: str, music: str, found: list[str]) -> None:
    assert said(chord, music) == found


def test_key_note_over_five_is_said_once_a_tune() -> None:
    text = lesson_text(
        "lick a on V\n q 4d 5d h 2d\nlick b on V\n q 4d 5d h 6b\nplay\n bars 1-2 a, b\n bar 3 a\n"
        "play\n bars 1-3 b",
        form=own_form("V7 | V7 | V7"),
    )
    (problem,) = fit_problems(text)
    assert (problem.code, problem.severity) == (KEY_NOTE, Severity.REMARK)
    assert (problem.sounding.bars, problem.fields["elsewhere"]) == ([1, 3], [2])
    assert problem.bars_heard == [1, 2, 3]
    assert problem.message() == (
        "`2d` (G), the key note, stays on beat 3 of bars 1 and 3: the 4 of D7; "
        "it stays in bar 2 too"
    )


def test_key_note_over_five_of_a_minor_key() -> None:
    """Third position, D minor: D over A7."""
    assert said("i | V7", "w 4d | q 6d 5b h 4d", position="3rd") == [f"{KEY_NOTE} 4d"]


# ---- The rest is warned of ---------------------------------------------------------------


@pytest.mark.parametrize(
    ("chord", "tab", "degree", "pitch"),
    [
        ("I7", "4b", "4", "C"),
        ("I7", "3d'''", "b9", "Ab"),
        ("I7", "2d'", "7", "F#"),
        ("I7", "8b'", "b6", "Eb"),
        ("IV7", "3d", "7", "B"),
        ("IV7", "4d'", "b9", "Db"),
        ("IV7", "5d", "4", "F"),
        ("IV7", "3d'''", "b6", "Ab"),
        ("V7", "3d'", "b6", "Bb"),
        ("V7", "4d'", "7", "C#"),
    ],
)
def test_an_avoid_note_that_stays_is_a_warning(
    chord: str, tab: str, degree: str, pitch: str
) -> None:
    """The key's own minor pentatonic excuses nothing: C over G7, Bb over D7."""
    problem = finding(chord, f"w {tab}")
    assert (problem.code, problem.severity) == (CLASH, Severity.WARNING)
    assert (problem.sounding.degree, problem.sounding.pitch) == (degree, pitch)


def test_a_warning_names_note_beat_bars_and_degree() -> None:
    problem = finding("IV7", "q 5b 3d 5b 5b")
    assert (problem.span.text, problem.sounding.held) == ("3d", False)
    assert problem.message() == "`3d` (B) stays on beat 2 of bar 1 as the major 7 of C7"


def test_a_note_that_fills_its_bar_is_told_so() -> None:
    problem = finding("IV7", "w 3d")
    assert problem.message() == "`3d` (B) stays all through bar 1 as the major 7 of C7"


def test_each_cause_is_told_once_with_all_its_bars() -> None:
    text = lesson_text(
        "lick a on I\n w 2d\nlick b on IV\n h 3d 5b\nplay x2\n every I a\n every IV b\n"
        " every V rest"
    )
    (problem,) = fit_problems(text)
    assert (problem.sounding.bars, problem.sounding.beats) == ([5, 6, 10], [1])


def test_a_lick_over_several_chords_is_told_for_the_one_that_it_clashes_with() -> None:
    text = lesson_text("lick a on I, IV\n h 3d 2d\nplay\n every I a\n every IV a\n every V rest")
    (problem,) = fit_problems(text)
    assert (problem.sounding.letter, problem.sounding.bars) == ("C7", [5, 6, 10])


def test_two_licks_are_two_causes() -> None:
    text = lesson_text(
        "lick a on IV\n h 3d 5b\nlick b on IV\n h 5b 3d\nplay\n bars 1-2 a, b",
        form=own_form("IV7 | IV7"),
    )
    assert [(p.sounding.lick, p.sounding.bars) for p in fit_problems(text)] == [
        ("a", [1]), ("b", [2]),
    ]  # fmt: skip


# ---- Pushed ahead ------------------------------------------------------------------------
# Common practice, no source: a note struck just before a change belongs to the new chord.
# C over G7 is the 4, over C7 the root. A rest after it makes a short note stay.


@pytest.mark.parametrize(
    ("chords", "music", "found"),
    [
        # On the beat and not held.
        ("I7 | IV7", "h. 2d q 4b | h. 5b q 5b", [f"{CLASH} 4b"]),
        ("I7 | IV7", "h. 2d q 4b | q - h. 5b", [f"{CLASH} 4b"]),
        # Off the beat.
        ("I7 | IV7", "h. 2d e 2d 4b | q - h. 5b", SILENT),
        ("I7 | IV7", "h. 2d s 2d e. 4b | q - h. 5b", SILENT),
        # Held over the change, a beat before it or less.
        ("I7 | IV7", "h. 2d q 4b | h = 5b", SILENT),
        ("I7 | IV7", "h. 2d e 2d 4b | h = 5b", SILENT),
        # More than a beat before the change.
        ("I7 | IV7", "h 2d e 2d 4b q = | h = 5b", [f"{CLASH} 4b"]),
        ("I7 | IV7", "h 2d e. 2d s 4b q = | h = 5b", [f"{CLASH} 4b"]),
        ("I7 | IV7", "h 2d e 2d 4b q - | h. 5b q 5b", [f"{CLASH} 4b"]),
        # F# over C7 is the b5: it belongs to neither.
        ("I7 | IV7", "h. 4d q 2d' | q = h. 5b", [f"{CLASH} 2d'", f"{FLAT_FIVE} 2d'"]),
        # Ab is the b6 of C7 as well.
        ("I7 | IV7", "h. 2d e 2d 3d''' | q - h. 5b", [f"{CLASH} 3d'''"]),
        # Eb is idiomatic over C7.
        ("I7 | IV7", "h. 6b q 8b' | h = 5b", SILENT),
        # Within the bar.
        ("I7 IV7", "q 2d 4b h =", SILENT),
        ("I7 IV7", "q 2d 4b h 5b", [f"{CLASH} 4b"]),
        ("I7 IV7", "e 2d 2d 2d 4b q - 5b", SILENT),
        # The chord does not change.
        ("I7 | I7", "h. 2d e 2d 4b | q - h. 2d", [f"{CLASH} 4b"]),
        ("I7 IV7 | IV7 I7", "q 2d 2d 5b e 5b 4b | q = 5b h 2d", SILENT),
        # Over two changes: C is the root of C7 and the b7 of D7, the 4 of G7.
        ("I7 | IV7 | I7", "h. 2d q 4b | w = | q = h. 2d", [f"{CLASH} 4b"]),
    ],
)
def test_a_note_pushed_ahead_belongs_to_the_next_chord(
    chords: str, music: str, found: list[str]
) -> None:
    assert said(chords, music) == found


@pytest.mark.parametrize(
    ("music", "found"),
    [
        ("h. 2d q. 2d 4b | h. = 5b", SILENT),
        ("h. 2d q. 2d e 2d 2d 4b | q. - h. 5b q. 5b", SILENT),
        ("h. 2d e 2d 2d 4b q. = | h. = 5b", [f"{CLASH} 4b"]),
    ],
)
def test_pushed_ahead_by_a_beat_of_12_8(music: str, found: list[str]) -> None:
    assert said("I7 | IV7", music, meter="12/8") == found


def test_a_pushed_note_is_named_over_its_own_chord() -> None:
    assert fits_of("I7 | IV7", "h. 2d e 2d 4b | h = 5b")[2] == ("4b", "R", Verdict.CHORD_TONE)


def test_a_pickup_is_judged_over_the_bar_that_it_sounds_in() -> None:
    """B sounds over IV, on the beat, and leaps to 1 draw."""
    text = lesson_text(
        "lick a on IV\n h. 4b q -\nlick b on I\n pickup q 3d\n w 1d\nplay\n bars 1-2 a, b",
        form=own_form("IV7 | I7"),
    )
    (problem,) = fit_problems(text)
    assert (problem.sounding.bars, problem.sounding.lick) == ([1], "b")


# ---- Held into a change ------------------------------------------------------------------


@pytest.mark.parametrize(
    ("chords", "music", "found"),
    [
        # The third of I becomes the 7 of IV, for a beat or more.
        ("I7 | IV7", "h. 4d q 3d | q = h. 5b", [f"{CLASH} 3d"]),
        ("I7 | I7 | IV7", "w 3d | = | q = h. 5b", [f"{CLASH} 3d"]),
        ("I7 IV7", "h. 3d q 5b", [f"{CLASH} 3d"]),
        # Less than a beat.
        ("I7 | IV7", "h. 4d q 3d | e = 5b h. 5b", SILENT),
        # It resolves over the new chord, within a beat or two.
        ("I7 | IV7", "h. 4d q 3d | q = h. 3d'", SILENT),
        ("I7 | IV7", "h. 4d q 3d | h = 3d'", [f"{SUSPENDED} 3d"]),
        ("I7 | IV7", "h. 4d q 3d | h. = q 3d'", [f"{CLASH} 3d"]),
        # It fits the new chord, or there is none.
        ("I7 | IV7", "h. 4d q 2d | q = h. 4b", SILENT),
        ("I7 | I7", "w 3d | =", SILENT),
        ("I7 IV7", "h 3d 5b", SILENT),
    ],
)
def test_held_into_a_change(chords: str, music: str, found: list[str]) -> None:
    assert said(chords, music) == found


def test_a_note_held_into_a_clash_is_told_where_it_clashes() -> None:
    problem = finding("I7 | IV7", "h. 4d q 3d | q = h. 5b")
    assert (problem.sounding.held, problem.sounding.bars) == (True, [2])
    assert problem.message() == "`3d` (B) is held into beat 1 of bar 2 as the major 7 of C7"


# ---- Meant -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("chords", "music"),
    [
        ("IV7", "q 5b 3d! 5b 5b"),
        ("IV7", "q 5b e 5b 3d! q - 5b"),
        ("I7 | IV7", "h. 4d q 3d! | q = h. 5b"),
        ("IV7", "q 5b h 3d! q 3d'"),
        ("I7", "q 2d 3d h 4d'!"),
        ("V7", "q 4d 5d h 2d!"),
    ],
)
def test_a_finding_about_a_note_that_is_meant_is_a_remark(chords: str, music: str) -> None:
    problem = finding(chords, music)
    assert (problem.code, problem.severity) == (MEANT, Severity.REMARK)
    assert not list(problem.hints())


@pytest.mark.parametrize("music", ["w 2d!", "q 5d 4b! 3d 2d", "e 4b! 2d h. 2d"])
def test_nothing_is_said_of_a_meant_note_that_needs_no_excuse(music: str) -> None:
    assert said("I7", music) == SILENT


def test_each_excuse_is_listed() -> None:
    """Each has a `!` of its own that may be left behind."""
    assert said("IV7", "h 3d! 3d!") == [f"{MEANT} 3d", f"{MEANT} 3d"]


# ---- Blocks and splits -------------------------------------------------------------------


@pytest.mark.parametrize(
    ("chord", "music", "found"),
    [
        ("IV7", "h 34d q 5b 5b", [f"{CLASH} 34d"]),  # B D: the 7
        ("V7", "h 123d q 4d 4d", [f"{CLASH} 123d"]),  # D G B: the 4
        ("V7", "h 14d q 4d 4d", SILENT),  # D twice
        ("I7", "w 25d", SILENT),  # G F
        ("I7", "w 56d", SILENT),  # F A: b7 and 9
        ("IV7", "e 34d 5b q 5b h 5b", SILENT),  # it does not stay
        # Its bad tone moves on: B to Bb; B to C.
        ("IV7", "q 34d 3d' 5b 5b", SILENT),
        ("IV7", "q 34d 34b 5b 5b", SILENT),
        ("IV7", "h 34d 34b", [f"{SUSPENDED} 34d"]),
        # One of two bad tones moves: 7 and 4 of C7, B to Bb, F to nothing.
        ("IV7", "q 7b 35d 3d' 4b", [f"{CLASH} 35d"]),
    ],
)
def test_blocks_and_splits_are_judged_as_chords(chord: str, music: str, found: list[str]) -> None:
    assert said(chord, music) == found


def test_a_block_is_named_with_its_worst_tone() -> None:
    problem = finding("V7", "h 123d q 4d 4d")
    assert problem.message() == "`123d` (G) stays on beat 1 of bar 1; its G is the 4 of D7"


# ---- Plain triads, minor keys, diminished chords -----------------------------------------

PLAIN = "I | IV | I"


@pytest.mark.parametrize(
    ("music", "found"),
    [
        ("w 2d | 3d | 2d", SILENT),  # no blue notes: the 7 of IV is colour
        ("w 2d' | 5b | 2d", SILENT),  # the 7 of I
        ("w 2d | 2d' | 4d", [f"{FLAT_FIVE} 2d'"]),  # the raised 4 below the 5 makes no blues
        ("w 3d' | 3d | 2d", [f"{CLASH} 3d"]),  # the b3 of the key: a blues
        ("w 5d | 3d | 2d", [f"{CLASH} 3d"]),  # its b7
        ("w 5d | 3d' | 2d", SILENT),  # the b7 of I and of IV
        ("w 4b | 5b | 2d", [f"{CLASH} 4b"]),  # the 4 of I in any tune
    ],
)
def test_seven_over_a_plain_triad(music: str, found: list[str]) -> None:
    assert said(PLAIN, music) == found


# Third position on a C harp: D minor, with G minor and A7.
@pytest.mark.parametrize(
    ("chords", "music", "found"),
    [
        ("i | V7", "w 4d | 3d'", SILENT),  # the b9 of V: common practice, no source
        ("i | V7", "w 4d | 5d", SILENT),  # the b13 of V: common practice, no source
        ("i | V7", "w 4d | 4d!", [f"{MEANT} 4d"]),
        ("i | iv", "w 4d | 4b", SILENT),  # the 4 over a minor chord
        ("i | iv", "w 4d | 3d", [f"{CLASH} 3d"]),  # its major third
        ("i | i", "w 4d | 4d'", [f"{CLASH} 4d'"]),  # its 7
        ("i | i", "w 4d | 3d'", [f"{CLASH} 3d'"]),  # its b6
        ("i | i", "w 4d | 3d", SILENT),  # its 6: dorian
        ("i | i", "w 4d | 6d'", [f"{FLAT_FIVE} 6d'"]),
    ],
)
def test_minor_keys(chords: str, music: str, found: list[str]) -> None:
    assert said(chords, music, position="3rd") == found


# C#dim7 in the key of G: C# E G Bb.
@pytest.mark.parametrize(
    ("music", "found"),
    [
        ("w 3d'", SILENT),  # Bb, the bb7
        ("w 5b", SILENT),
        ("w 4b", [f"{CLASH} 4b"]),  # the 7
        ("w 5d", [f"{CLASH} 5d"]),  # a half step above the third
        ("w 3d", [f"{CLASH} 3d"]),  # above the bb7
        ("q 4d' 4d h 4d'", SILENT),  # D, the b9, and back
    ],
)
def test_diminished_chords(music: str, found: list[str]) -> None:
    assert said("#IVdim7", music) == found


# ---- The score of a bar ------------------------------------------------------------------


def scores(chords: str, music: str) -> list[F | None]:
    return [fit.score for fit in examined(over(chords, music)).fits]


# Our own choice: chord tone and idiomatic 1, colour and what resolves a half, avoid 0.
@pytest.mark.limit("judge.fit.WEIGHTS")
@pytest.mark.parametrize(
    ("chords", "music", "expected"),
    [
        ("IV7", "w 4b", [F(1)]),
        ("IV7", "w 8b'", [F(1)]),  # idiomatic: Eb over C7
        ("IV7", "w 6d", [F(1, 2)]),  # colour: the 6
        ("IV7", "w 3d", [F(0)]),
        ("IV7", "q 4b 3d 5b 4b", [F(3, 4)]),  # B is left by a leap
        ("IV7", "q 4b 3d 4b 4b", [F(7, 8)]),  # B resolves
        ("I7", "q 3d 4b 4d' 4d", [F(7, 8)]),  # C is part of a line
        ("I7", "q 5d h 4b q 3d", [F(3, 4)]),  # a suspension
        ("IV7", "e 3d 5b h. 5b", [F(7, 8)]),  # short, and no step leads on
        ("IV7", "q 4b - 3d -", [F(1, 2)]),  # of the time that sounds
        ("IV7", "h. 3d q 4b", [F(1, 4)]),  # by time; three beats are too long for a suspension
        ("I7", "e3 2d 3d' 2d h. -", [F(1)]),
        ("I7", "w 123d", [F(1)]),
        ("V7", "w 123d", [F(0)]),  # a block has its worst verdict
        ("I7 | I7", "w 2d | -", [F(1), None]),
    ],
)
def test_score_of_a_bar(chords: str, music: str, expected: list[F | None]) -> None:
    assert scores(chords, music) == expected


@pytest.mark.parametrize(
    ("chords", "music", "expected"),
    [
        ("I7 | IV7", "h. 4d q 3d | = 5b 5b 5b", [F(1), F(3, 4)]),  # a hold counts where it sounds
        ("I7 IV7", "w 3d", [F(1, 2)]),
        ("I7 IV7", "h. 3d q 5b", [F(3, 4)]),
        ("I7 | IV7", "h. 2d q 4b | h = 5b", [F(1), F(1)]),  # pushed ahead
        ("I7 | IV7", "h. 2d q 4b | q - h. 5b", [F(3, 4), F(1)]),  # not so
    ],
)
def test_score_of_held_notes(chords: str, music: str, expected: list[F | None]) -> None:
    assert scores(chords, music) == expected


def test_a_tune_of_rests_is_judged() -> None:
    found = examined(lesson_text("play\n bars 1-2 rest", form=own_form("I7 | I7")))
    assert [(fit.notes, fit.score) for fit in found.fits] == [((), None), ((), None)]


# ---- Properties --------------------------------------------------------------------------

POSITIONS = st.sampled_from(["1st", "2nd", "3rd", "5th", "12th"])


@few
@given(bars(), st.sampled_from(FORMS), POSITIONS, st.sampled_from(HARP_KEYS),
       st.sampled_from(["", "low", "high"]))  # fmt: skip
def test_another_harp_changes_no_degree_and_no_verdict(
    music: str, chords: str, position: str, key: str, register: str
) -> None:
    on_c = fits_of(chords, music, position=position)
    harp = f"{register} {key}".strip()
    assert fits_of(chords, music, position=position, harp=harp) == on_c


@few
@given(st.sampled_from(["4/4", "12/8"]), st.data(), st.sampled_from(FORMS), POSITIONS)
def test_what_is_said_agrees_with_a_plain_reading_of_the_rules(
    meter: str, data: st.DataObject, chords: str, position: str
) -> None:
    music = data.draw(bars(meter))
    found = examined(over(chords, music, meter=meter, position=position))
    assert found.tune
    assert found_of_fit(found.problems) == wanted_of_fit(found.tune)


@pytest.mark.parametrize("seed", range(40))
def test_whole_lessons_agree_with_a_plain_reading_of_the_rules(seed: int) -> None:
    found = examined(random_lesson(seed))
    if not found.tune or len(found.problems) >= 200:
        return
    wanted = wanted_of_fit(found.tune)
    if "position-wrong" in {problem.code for problem in found.problems}:  # in place of all of it
        assert len({bar for what, *_, bars in wanted for bar in bars if what == WARNING}) >= 4
        wanted = set()
    assert found_of_fit(found.problems) == wanted


@few
@given(bars(), st.sampled_from(FORMS), POSITIONS)
def test_a_word_is_said_of_avoid_notes_and_flat_fives_alone(
    music: str, chords: str, position: str
) -> None:
    for bar in examined(over(chords, music, position=position)).fits:
        for fit in bar.notes:
            for verdict, heard in zip(fit.verdicts, fit.heard, strict=True):
                assert (verdict is Verdict.AVOID) is (heard not in (Heard.FITS, Heard.FLAT_FIVE))


@few
@given(bars(), st.sampled_from(FORMS), POSITIONS)
def test_no_note_is_called_blue(music: str, chords: str, position: str) -> None:
    """The word is for blue notes alone, and these are not reported as such."""
    for problem in fit_problems(over(chords, music, position=position)):
        assert "blue" not in problem.message().lower()


def test_a_clash_is_told_by_no_other_check() -> None:
    assert slugs_of(over("IV7", "q 5b 3d 5b 5b")) == [CLASH]
