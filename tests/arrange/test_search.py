"""The search: the best tab of a line, and the best octave."""

from __future__ import annotations

from fractions import Fraction
from math import prod

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from formsheet.arrange.choices import sound_choices
from formsheet.arrange.fallbacks import Kept
from formsheet.arrange.octaves import arrange
from formsheet.arrange.search import Laid, lay
from formsheet.arrange.sounds import Line, Sound
from formsheet.music.harp import Harp
from formsheet.music.tunings import HOLES, Tuning
from formsheet.notes.names import midi_of
from tests.arrange.brute import BLOW, DRAW, best_cost, playable

_MOST_TABS = 1_000  # that brute force tries


def line(names: str, gap: Fraction = Fraction(1, 2)) -> Line:
    """Notes with as much time before each: `G4 C5+E5`."""
    midi = [tuple(sorted(map(midi_of, word.split("+")))) for word in names.split()]
    return tuple(
        Sound(each, 1, index * gap, gap if index else Fraction(0))
        for index, each in enumerate(midi)
    )


def tabs(laid: Laid) -> str:
    return " ".join(str(choice.tab) for choice in laid.choices)


# ---- Against brute force -----------------------------------------------------------------

rows = st.lists(st.integers(0, 4), min_size=HOLES, max_size=HOLES)


@st.composite
def harps(draw: st.DrawFn) -> Harp:
    """Harps with reeds anywhere: many notes that can be had in several ways."""

    def row() -> tuple[int, ...]:
        steps = draw(rows)
        return tuple(sum(steps[: index + 1]) for index in range(HOLES))

    return Harp("C", "", Tuning("any", row(), row()))


lines = st.lists(
    st.tuples(
        st.sets(st.integers(58, 82), min_size=1, max_size=2),
        st.fractions(Fraction(1, 4), 4, max_denominator=4),
        st.booleans(),
    ),
    min_size=1,
    max_size=5,
)


@settings(max_examples=100, derandomize=True, deadline=None, database=None)
@given(harps(), lines, st.booleans())
def test_no_tab_of_a_short_line_is_better(
    harp: Harp, notes: list[tuple[set[int], Fraction, bool]], overbends: bool
) -> None:
    asked = tuple(
        Sound(tuple(sorted(midi)), 1, Fraction(0), gap, bends) for midi, gap, bends in notes
    )
    options = [sound_choices(sound, harp, overbends) for sound in asked]
    assume(prod(map(len, options)) <= _MOST_TABS)
    found = lay(asked, harp, overbends).cost
    best = best_cost(asked, options)
    assert found[:3] == best[:3]
    assert found.strain == pytest.approx(best.strain)


@pytest.mark.parametrize("key", ["C", "G", "F#"])
def test_what_is_missing_is_what_no_hole_sounds(key: str) -> None:
    harp = Harp(key)
    able = playable(harp.lowest)
    for midi in range(harp.lowest - 5, harp.lowest + 45):
        laid = lay((Sound((midi,), 1, Fraction(0), Fraction(0)),), harp)
        assert bool(laid.missing) is (midi not in able)


def test_the_table_beside_it_is_the_harp() -> None:
    assert (Harp("C").tuning.blow, Harp("C").tuning.draw) == (BLOW, DRAW)


# ---- As a player would: made up and put by hand, on a C harp -------------------------------


@pytest.mark.parametrize(
    ("notes", "tab"),
    [
        ("G4 B4 D5", "2d 3d 4d"),  # a home chord drawn
        ("C5 G4 C5 G4", "4b 3b 4b 3b"),  # a rocking fourth stays on the blow
        ("G4 Bb4 B4 D5 G4", "2d 3d' 3d 4d 2d"),
        ("E4 G4 C5 E5", "2b 3b 4b 5b"),  # the home chord of first position
        ("D5 B4 G4 B4", "4d 3d 2d 3d"),  # the home chord drawn, broken
        ("F4 G4", "2d'' 2d"),  # out of a bend on its own hole
        ("G4+C5+E5", "345b"),
        ("G4+B4+D5 G4", "234d 2d"),
        ("G4+G5", "36b"),
    ],
)
def test_tab(notes: str, tab: str) -> None:
    assert tabs(lay(line(notes), Harp("C"))) == tab


def test_a_scoop_wants_a_note_that_bends() -> None:
    sound = Sound((midi_of("G4"),), 1, Fraction(0), Fraction(0), bends=True)
    assert tabs(lay((sound,), Harp("C"))) == "2d"


def test_notes_written_once_get_one_tab() -> None:
    """The first G4 alone would be 3 blow, the second 2 draw."""
    notes = line("C5 G4 C5 D5 B4 G4 B4", Fraction(1, 4))
    free = tabs(lay(notes, Harp("C"))).split()
    assert (free[1], free[5]) == ("3b", "2d")
    once = tuple(
        Sound(s.midi, s.bar, s.onset, s.gap, mark="group" if index in (1, 5) else None)
        for index, s in enumerate(notes)
    )
    bound = tabs(lay(once, Harp("C"))).split()
    assert bound[1] == bound[5]


def test_the_top_of_a_melody_stays() -> None:
    """As accompaniment the chord may be set otherwise; as melody its top note is what counts."""
    chord = line("B4+D5+G5")[0]
    melody = Sound(chord.midi, 1, chord.onset, chord.gap, melody=True)
    assert tabs(lay((chord,), Harp("C"))) == "234d"
    assert tabs(lay((melody,), Harp("C"))) == "6b"


def test_overbends_only_if_asked() -> None:
    blue = line("Eb5")
    assert lay(blue, Harp("C")).missing == (0,)
    assert tabs(lay(blue, Harp("C"), overbends=True)) == "4ob"


# ---- Chords --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("notes", "tab", "kept"),
    [
        ("D4+G4+B4", "123d", Kept.EXACT),
        ("B4+D5+G5", "234d", Kept.VOICING),
        ("C4+E4+G4", "123b", Kept.EXACT),
        ("E4+G4+E5", "35b", Kept.VOICING),
        ("G4+A4+D5", "24d", Kept.PART),
        ("A5+C6+E6", "78b", Kept.PART),  # not the split 48b, which is as near
        ("A4+C#5+E5", "5b", Kept.TOP),
        ("G4+Eb5", "2d", Kept.TONE),
        ("C#3+Eb3", "1b", Kept.STAND_IN),
    ],
)
def test_chords_keep_what_they_can(notes: str, tab: str, kept: Kept) -> None:
    laid = lay(line(notes), Harp("C"))
    assert laid.choices[0].kept is kept, tabs(laid)
    assert tabs(laid) == tab


# ---- Octaves -------------------------------------------------------------------------------


def octaves(notes: str, octave_cost: float) -> int:
    return arrange([line(notes)], Harp("C"), octave_cost=octave_cost).octaves


def test_all_of_it_comes_first() -> None:
    assert octaves("C5 Eb5 G5", 0.5) == 1  # the minor third is on the top octave alone


def test_a_low_scale_is_moved_up_for_its_bends() -> None:
    assert octaves("C4 D4 E4 F4 G4 A4 B4 C5", 0.1) == 1


def test_a_lick_stays_where_it_was_made_for_a_bend_or_two() -> None:
    assert octaves("C4 D4 E4 F4 G4 E4 D4 C4", 0.5) == 0


def test_all_lines_move_together() -> None:
    found = arrange([line("C4 E4"), line("C5 Eb5 G5")], Harp("C"), octave_cost=0.5)
    assert [laid.line[0].midi[0] for laid in found.laid] == [72, 84]
    assert not found.missing


@settings(max_examples=30, derandomize=True, deadline=None, database=None)
@given(harps(), lines, st.sampled_from([0.0, 0.1, 0.5]))
def test_no_octave_is_better(
    harp: Harp, notes: list[tuple[set[int], Fraction, bool]], octave_cost: float
) -> None:
    asked = tuple(Sound(tuple(sorted(midi)), 1, Fraction(0), gap) for midi, gap, _ in notes)
    found = arrange([asked], harp, octave_cost=octave_cost)
    each = [
        arrange([asked], harp, octave_cost=octave_cost, octaves=(octave,))
        for octave in range(-3, 4)
    ]
    assert found.rank == min(one.rank for one in each)
