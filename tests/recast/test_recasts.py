"""Recasts of the demo licks and of any lick: degrees, contour, what stands in, the ranking."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formsheet.lesson.model import Lesson
from formsheet.music.chord import parse_chord
from formsheet.music.harp import Harp
from formsheet.music.tab import Breath
from formsheet.recast.candidates import Recast
from formsheet.recast.degrees import mapped
from formsheet.recast.options import on_breath, options
from formsheet.recast.target import plans, sounding, wanted_line
from formsheet.recast.trial import Tried
from formsheet.report.recast import said
from tests.helpers import lesson_of, over
from tests.recast.demos import HOME_LICKS, all_tried, lesson_named, tried

BOTH = [(*each, numeral) for each in HOME_LICKS for numeral in ("IV", "V")]


def tabs(recast: Recast) -> str:
    return " ".join(str(choice.tab) for choice in recast.choices)


def ways(music: str, numeral: str, *, overbends: bool = False) -> list[Tried]:
    """The recasts of a lick on I7 in G, C harp."""
    lesson = lesson_of(over("I7", music))
    lick = lesson.licks["run"]
    chords = sounding([(parse_chord(numeral),)] * len(lick.bars), None)
    return all_tried(lesson, lick, chords, overbends)


def best(music: str, numeral: str) -> str:
    return tabs(ways(music, numeral)[0].recast)


def up_or_down(first: int, second: int) -> int:
    return (second > first) - (second < first)


# ---- The demo licks ------------------------------------------------------------------------


def test_there_are_licks() -> None:
    assert len(HOME_LICKS) >= 10


@pytest.mark.parametrize(("name", "lick", "numeral"), BOTH)
def test_the_best_recast_fits_or_says_why_not(name: str, lick: str, numeral: str) -> None:
    found = tried(name, lick, numeral)[0]
    lines = list(said(found, lesson_named(name)))
    assert lines[0].endswith(f": {found.placement.verdict}")
    for clash in found.placement.clashes:
        assert any(f"`{clash.fit.note.tab}`" in line and "warning" in line for line in lines)


@pytest.mark.parametrize(("name", "lick", "numeral"), BOTH)
def test_the_best_recast_clashes_no_more_than_the_lick(name: str, lick: str, numeral: str) -> None:
    """A note that clashes on I on purpose may do so on IV."""
    lesson = lesson_named(name)
    meant = [mark for bar in lesson.licks[lick].bars for mark in bar if mark.deliberate]
    assert len(tried(name, lick, numeral)[0].placement.clashes) <= len(meant)


@pytest.mark.parametrize(("name", "lick", "numeral"), BOTH)
def test_what_is_not_replaced_has_the_mapped_degree(name: str, lick: str, numeral: str) -> None:
    lesson = lesson_named(name)
    for found in tried(name, lick, numeral):
        replaced = [wanted for _, wanted, _ in found.recast.replaced]
        for wanted, choice in zip(found.recast.wanted, found.recast.choices, strict=True):
            assert lesson.facts.harp.pitches(choice.tab) == choice.midi
            if wanted not in replaced:
                assert choice.midi == wanted.midi
            old = {_above(m, lesson, wanted.old.root) for m in wanted.sound.midi}
            new = {_above(m, lesson, wanted.new.root) for m in wanted.midi}
            assert new == {mapped(each, wanted.old, wanted.new) for each in old}


def _above(midi: int, lesson: Lesson, root: int) -> int:
    return (midi - lesson.key.pitch_class - root) % 12


@pytest.mark.parametrize(("name", "lick", "numeral"), BOTH)
def test_rhythm_is_kept(name: str, lick: str, numeral: str) -> None:
    old = lesson_named(name).licks[lick]
    for found in tried(name, lick, numeral):
        pairs = zip(old.bars, found.recast.lick.bars, strict=True)
        for before, after in pairs:
            assert [(m.kind, m.onset, m.value, m.technique) for m in before] == [
                (m.kind, m.onset, m.value, m.technique) for m in after
            ]


@pytest.mark.parametrize(("name", "lick", "numeral"), BOTH)
def test_contour_is_kept_or_it_is_said(name: str, lick: str, numeral: str) -> None:
    for found in tried(name, lick, numeral):
        assert (found.recast.contour == 0) == same_contour(found.recast)
    kept = [found.recast for found in tried(name, lick, numeral) if not found.recast.contour]
    first = tried(name, lick, numeral)[0].recast
    assert not first.contour or all(gives_way(each, lesson_named(name).facts.harp) for each in kept)


def gives_way(recast: Recast, harp: Harp) -> bool:
    """Whether it has another note in the place of one that the harp gives unbent."""
    natural = [midi for tab, midi in harp.single_notes() if not tab.bend]
    return any(wanted.midi[0] in natural for _, wanted, _ in recast.replaced)


def same_contour(recast: Recast) -> bool:
    """A chord beside the melody may be anywhere, and a chord may be repeated for another."""
    pairs = list(zip(recast.wanted, recast.choices, strict=True))
    return all(
        up_or_down(a.sound.midi[-1], b.sound.midi[-1]) == up_or_down(x.midi[-1], y.midi[-1])
        for (a, x), (b, y) in pairwise(pairs)
        if not (a.many or b.many) or (a.many and b.many and x.midi[-1] != y.midi[-1])
    )


def test_a_chord_tone_of_the_harp_does_not_give_way_to_the_contour() -> None:
    """The fifth of V stays, though there is no blue fifth below it: not the b6 in its place."""
    first = tried("slow-barge", "ebb", "V")[0].recast
    assert tabs(first) == "6d 6b 5b 5b 4d 4b 3b 56b"


def test_the_best_recasts_keep_the_size_of_the_moves() -> None:
    for name, lick, numeral in BOTH:
        assert tried(name, lick, numeral)[0].recast.torn == 0


# ---- Any lick ------------------------------------------------------------------------------

SINGLE = [str(tab) for tab, _ in Harp("C").single_notes()]
CHORDS = ["IV7", "V7", "ii7", "VI7", "iv", "bVI7", "I7"]


@settings(deadline=None)
@given(st.lists(st.sampled_from(SINGLE), min_size=1, max_size=8), st.sampled_from(CHORDS))
def test_contour_of_any_lick(notes: list[str], numeral: str) -> None:
    rests = " -" * (8 - len(notes))
    found = ways(f"e {' '.join(notes)}{rests}", numeral)
    assert found
    for each in found:
        assert (each.recast.contour == 0) == same_contour(each.recast)
        assert not any(choice.tab.overbend for choice in each.recast.choices)


@settings(deadline=None)
@given(st.lists(st.sampled_from(SINGLE), min_size=1, max_size=4))
def test_on_its_own_chord_a_lick_is_best_as_it_is(notes: list[str]) -> None:
    """Unless a clash of its own can be helped."""
    rests = " -" * (4 - len(notes))
    found = ways(f"q {' '.join(notes)}{rests}", "I7")
    assert " ".join(notes) in [tabs(each.recast) for each in found]


# ---- By hand -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("music", "numeral", "tab"),
    [
        ("q 2d 3d 4d 5d", "IV", "1b 2b 3b 3d'"),  # an octave up, Bb would be an overblow
        ("q 2d 3d 4d 5b", "IV", "4b 5b 6b 6d"),
        ("q 2d 2d 2d 2d", "IV", "4b 4b 4b 4b"),
        ("h 2d 4d", "V", "4d 6d"),
        ("h 2d -", "V", "1d"),
        ("q 123d - 123d -", "IV", "123b 123b"),  # a low chug stays low
        ("q 123d - 123d -", "V", "14d 14d"),  # no block: the root doubled
        ("h 36b 2d", "IV", "47b 4b"),
        ("q 4d 3d 3d' 2d", "i7", "4d 4b 3d' 2d"),  # both thirds are one: the line still falls
        ("h 4d{shake} 3d{shake}", "V", "6d 5d"),  # no shake on a bend
    ],
)
def test_the_best_way(music: str, numeral: str, tab: str) -> None:
    """C harp in second position, key of G. Common practice, no source."""
    assert best(music, numeral) == tab


def test_overbends_are_played_where_they_are_asked_for_or_taught() -> None:
    music = "q 2d 3d 4d 5d"
    assert not any("o" in tabs(each.recast) for each in ways(music, "IV"))
    assert "4b 5b 6b 6ob" in [tabs(each.recast) for each in ways(music, "IV", overbends=True)]
    own = [tabs(each.recast) for each in ways("q 2d 3d 4d 6ob", "IV")]
    assert any("o" in each for each in own)


def test_the_lick_s_own_way_of_a_note_is_kept() -> None:
    """2 draw and 3 blow sound the same."""
    assert best("q 2d 3d 3b 2d", "I7") == "2d 3d 3b 2d"


def test_a_group_that_is_written_once_is_played_alike() -> None:
    found = ways("q [ 2d 3d ]x2", "IV")[0].recast
    first, second, third, fourth = (str(choice.tab) for choice in found.choices)
    assert (first, second) == (third, fourth)


def test_two_chords_may_go_up_and_down() -> None:
    lesson = lesson_of(over("I7 | I7", "q 2d 3d 4d 5b | q 4d 3d 2d -"))
    chords = [(parse_chord("I7"),), (parse_chord("V7"),)]
    found = [tabs(each.recast) for each in all_tried(lesson, lesson.licks["run"], chords)]
    assert "2d 3d 4d 5b 6d 5d 4d" in found
    assert "2d 3d 4d 5b 3d'' 2d' 1d" in found


def test_stand_ins_are_told_with_their_reason() -> None:
    lesson = lesson_of(over("I7", "q 123d 3d h -"))
    chords = [(parse_chord("V7"),)]
    found = all_tried(lesson, lesson.licks["run"], chords)
    up = next(each for each in found if each.recast.shift > 0)
    lines = list(said(up, lesson))
    assert (
        "bar 1, beat 1: 14d, D4 D5 (R R), is the root doubled: "
        "no block here sounds A4 D5 F#5 (5 R 3)"
    ) in lines
    assert "bar 1, beat 2: 5d, F5 (b3), replaces F#5 (3), which needs an overbend: 5ob" in lines


@pytest.mark.parametrize(
    ("music", "numeral", "first", "later"),
    [
        ("q 2d 3d 4d 5b", "IV", "4b 5b 6b 6d", "1b 2b 3b 3d''"),  # a deep bend
        ("q 2d 3d 4d 2d", "V", "4d 5d 6d 4d", "1d 2d' 3d'' 1d"),
        ("q 2d 3d 4d 2d", "IV", "4b 5b 6b 4b", "1b 2b 3b 1b"),  # a fifth down is farther
    ],
)
def test_ranking(music: str, numeral: str, first: str, later: str) -> None:
    found = [tabs(each.recast) for each in ways(music, numeral)]
    assert found[0] == first
    assert later in found[1:]


def test_blocks_that_stand_in_are_of_the_chord() -> None:
    for numeral in ("IV7", "V7", "ii7", "VI7"):
        for found in ways("q 123d 234d 345d -", numeral):
            for _, wanted, choice in found.recast.replaced:
                root = 7 + wanted.new.root  # the key of G
                assert {(m - root) % 12 for m in choice.midi} <= wanted.new.tones


# ---- How far a stand-in may lie: our own choice ------------------------------------------------


def half_steps_away(note: str, numeral: str, position: str = "2nd") -> set[int]:
    """How far from a note, or from the top of a chord, all that may be played for it lies."""
    lesson = lesson_of(over(numeral, f"w {note}", position=position))
    lick, chords = lesson.licks["run"], [(parse_chord(numeral),)]
    wanted = [
        each
        for plan in plans(lick, chords)
        for each in wanted_line(lick, chords, lesson.facts, lesson.key, plan)
    ]
    return {
        abs(choice.midi[-1] - each.midi[-1])
        for each in wanted
        for choice in options(each, lesson.key, lesson.facts.harp, False)
    }


# A note of the chord up to a tritone away, a blue note up to a minor third; or a whole octave.
@pytest.mark.limit("recast.options._NEAR")
@pytest.mark.parametrize("note", ["3d", "5d"])
def test_how_far_a_stand_in_for_a_note_lies(note: str) -> None:
    assert max(half_steps_away(note, "I7") - {12, 24}) == 6


# An octave: of Imaj7 in 1st position 67 blow, whose top is 13 half steps above that of 23 draw, is
# too far.
@pytest.mark.limit("recast.options._VOICING_REACH")
@pytest.mark.parametrize(
    ("chord", "numeral", "position"), [("123d", "I7", "2nd"), ("23d", "Imaj7", "1st")]
)
def test_how_far_a_stand_in_for_a_chord_lies(chord: str, numeral: str, position: str) -> None:
    assert max(half_steps_away(chord, numeral, position)) <= 12
    assert 12 in half_steps_away("123d", "I7")


# Our own choice: farther away it is another melody.
@pytest.mark.limit("recast.options._BREATH_REACH")
def test_how_far_a_note_on_the_wanted_breath_lies() -> None:
    """Nine half steps at most."""
    away = set()
    for note in ("3d", "4d", "6d", "8d"):
        lesson = lesson_of(over("I7", f"w {note}"))
        lick, chords = lesson.licks["run"], [(parse_chord("I7"),)]
        for plan in plans(lick, chords):
            (wanted,) = wanted_line(lick, chords, lesson.facts, lesson.key, plan)
            found = on_breath(wanted, lesson.key, lesson.facts.harp, Breath.DRAW)
            assert all(each.tab.breath is Breath.DRAW and not each.tab.bend for each in found)
            away |= {abs(each.midi[0] - wanted.midi[0]) for each in found}
    assert max(away) == 9
