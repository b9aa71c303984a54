"""The harp: registers, reeds, and bends and overbends that follow from any tuning."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21 import pitch as second_opinion

from formsheet.music import pitch
from formsheet.music.chord import parse_chord
from formsheet.music.harp import HARP_KEYS, Harp
from formsheet.music.key import song_key
from formsheet.music.tab import Breath, Tab
from formsheet.music.tunings import COUNTRY, HOLES, NATURAL_MINOR, TUNINGS, Tuning

BLOW, DRAW = Breath.BLOW, Breath.DRAW
ALL_HOLES = range(1, HOLES + 1)
C_HARP = Harp("C")

reeds = st.integers(min_value=0, max_value=40)
rows = st.lists(reeds, min_size=HOLES, max_size=HOLES).map(tuple)
tunings = st.one_of(
    st.sampled_from(list(TUNINGS.values())), st.builds(Tuning, st.just("own"), rows, rows)
)
harps = st.builds(Harp, st.sampled_from(HARP_KEYS), st.sampled_from(("low", "", "high")), tunings)
holes = st.sampled_from(ALL_HOLES)
breaths = st.sampled_from(Breath)


# Registers. Wikipedia, "Richter-tuned harmonica", from memory: G, Ab, A, Bb and B start below
# middle C, C at middle C, Db to F# above.
FIRST_BLOW = {
    "G": "G3", "Ab": "A-3", "A": "A3", "Bb": "B-3", "B": "B3", "C": "C4", "Db": "D-4", "D": "D4",
    "Eb": "E-4", "E": "E4", "F": "F4", "F#": "F#4", "Gb": "G-4", "C#": "C#4", "D#": "D#4",
    "G#": "G#3", "A#": "A#3",
}  # fmt: skip


@pytest.mark.parametrize("key", HARP_KEYS)
def test_one_blow_is_in_the_harps_register(key: str) -> None:
    assert Harp(key).lowest == second_opinion.Pitch(FIRST_BLOW[key]).midi


@pytest.mark.parametrize("key", HARP_KEYS)
def test_low_and_high_harps_are_an_octave_away(key: str) -> None:
    middle = Harp(key).lowest
    assert (Harp(key, "low").lowest, Harp(key, "high").lowest) == (middle - 12, middle + 12)


@pytest.mark.parametrize(
    ("harp", "name"),
    [(Harp("Bb"), "Bb"), (Harp("F", "low"), "low F"), (Harp("G", "high"), "high G")],
)
def test_name_of_a_harp(harp: Harp, name: str) -> None:
    assert harp.name == name


def test_a_tuning_is_named_where_it_is_not_richters() -> None:
    country = Harp("C", tuning=COUNTRY)
    assert (country.other_tuning, country.tuned) == ("country", ", country tuning")
    assert (C_HARP.other_tuning, C_HARP.tuned) == ("", "")


# Notes of a C harp with their octaves. Wikipedia, as above, from memory.
@pytest.mark.parametrize(
    ("breath", "row"),
    [(BLOW, "C4 E4 G4 C5 E5 G5 C6 E6 G6 C7"), (DRAW, "D4 G4 B4 D5 F5 A5 B5 D6 F6 A6")],
)
def test_reeds_of_a_c_harp(breath: Breath, row: str) -> None:
    midi = [second_opinion.Pitch(name).midi for name in row.split()]
    assert [C_HARP.reed(hole, breath) for hole in ALL_HOLES] == midi


# Bends of the Richter harp in half steps, hole 1 first: common practice, and Bahnson, Antaki,
# Beery, JASA 103 (1998) 2134: between the two notes of a hole.
@pytest.mark.parametrize("key", HARP_KEYS)
def test_draw_bends_of_richter(key: str) -> None:
    deepest = [Harp(key).deepest_bend(hole, DRAW) for hole in ALL_HOLES]
    assert deepest == [1, 2, 3, 1, 0, 1, 0, 0, 0, 0]


@pytest.mark.parametrize("key", HARP_KEYS)
def test_blow_bends_of_richter(key: str) -> None:
    deepest = [Harp(key).deepest_bend(hole, BLOW) for hole in ALL_HOLES]
    assert deepest == [0, 0, 0, 0, 0, 0, 0, 1, 1, 2]


@pytest.mark.parametrize(
    ("tuning", "breath", "deepest"),
    [(COUNTRY, DRAW, [1, 2, 3, 1, 1, 1, 0, 0, 0, 0]),
     (NATURAL_MINOR, DRAW, [1, 3, 2, 1, 1, 1, 0, 0, 0, 0]),
     (NATURAL_MINOR, BLOW, [0, 0, 0, 0, 0, 0, 1, 0, 1, 2])],
    ids=["country draw", "natural minor draw", "natural minor blow"],
)  # fmt: skip
def test_bends_of_other_tunings(tuning: Tuning, breath: Breath, deepest: list[int]) -> None:
    """Worked out by hand from the two notes of each hole."""
    assert [Harp("C", tuning=tuning).deepest_bend(hole, breath) for hole in ALL_HOLES] == deepest


# Overblows lie on the holes whose draw is higher, overdraws on the others: common practice.
@pytest.mark.parametrize(("breath", "over"), [(BLOW, [1, 2, 3, 4, 5, 6]), (DRAW, [7, 8, 9, 10])])
def test_overbends_of_richter(breath: Breath, over: list[int]) -> None:
    assert [hole for hole in ALL_HOLES if C_HARP.overbends(hole, breath)] == over


# Overbends of a C harp as players know them: common practice, no source.
@pytest.mark.parametrize(
    ("hole", "breath", "name"),
    [(1, BLOW, "E-4"), (4, BLOW, "E-5"), (5, BLOW, "F#5"), (6, BLOW, "B-5"), (7, DRAW, "C#6"),
     (9, DRAW, "A-6"), (10, DRAW, "C#7")],
)  # fmt: skip
def test_pitch_of_an_overbend(hole: int, breath: Breath, name: str) -> None:
    tab = Tab((hole,), breath, overbend=True)
    assert C_HARP.pitches(tab) == (second_opinion.Pitch(name).midi,)


@pytest.mark.parametrize(
    ("mark", "tab", "names"),
    [("2d", Tab((2,), DRAW), "G4"), ("3d''", Tab((3,), DRAW, 2), "A4"),
     ("4d'", Tab((4,), DRAW, 1), "D-5"), ("10b''", Tab((10,), BLOW, 2), "B-6"),
     ("123d", Tab((1, 2, 3), DRAW), "D4 G4 B4"), ("14b", Tab((1, 4), BLOW), "C4 C5")],
    ids=lambda value: value if isinstance(value, str) else "",
)  # fmt: skip
def test_pitches_of_a_mark(mark: str, tab: Tab, names: str) -> None:
    assert C_HARP.pitches(tab) == tuple(second_opinion.Pitch(name).midi for name in names.split())


@pytest.mark.parametrize(
    "tab",
    [Tab((1,), DRAW, 1), Tab((3,), DRAW, 3), Tab((5,), DRAW), Tab((10,), BLOW, 2),
     Tab((6,), BLOW, overbend=True), Tab((7,), DRAW, overbend=True)],
    ids=str,
)  # fmt: skip
def test_note_that_the_harp_has(tab: Tab) -> None:
    assert C_HARP.can_play(tab)


@pytest.mark.parametrize(
    "tab",
    [Tab((1,), DRAW, 2), Tab((3,), DRAW, 4), Tab((5,), DRAW, 1), Tab((7,), DRAW, 1),
     Tab((4,), BLOW, 1), Tab((7,), BLOW, 1), Tab((10,), BLOW, 3), Tab((6,), DRAW, overbend=True),
     Tab((7,), BLOW, overbend=True), Tab((6,), BLOW, 1, overbend=True)],
    ids=str,
)  # fmt: skip
def test_note_that_the_harp_lacks(tab: Tab) -> None:
    assert not C_HARP.can_play(tab)


def test_note_that_the_harp_lacks_is_reckoned_all_the_same() -> None:
    assert C_HARP.pitches(Tab((5,), DRAW, 1)) == (second_opinion.Pitch("E5").midi,)


# What follows from JASA 103 (1998) 2134, whatever the tuning.
@given(harps, holes)
def test_bends_are_all_the_notes_between_the_two_reeds(harp: Harp, hole: int) -> None:
    low, high = sorted((harp.reed(hole, BLOW), harp.reed(hole, DRAW)))
    bends = {harp.reed(hole, breath) - bend for breath in Breath
             for bend in range(1, harp.deepest_bend(hole, breath) + 1)}  # fmt: skip
    assert bends == set(range(low + 1, high))


@given(harps, holes, breaths)
def test_only_the_higher_reed_bends(harp: Harp, hole: int, breath: Breath) -> None:
    higher = harp.reed(hole, breath) > harp.reed(hole, breath.other)
    assert higher or harp.deepest_bend(hole, breath) == 0


# Common practice, no source: 5 draw gives by a shade, though it has no bend of a half step.
@pytest.mark.parametrize(
    ("tab", "bends"),
    [(Tab((4,), DRAW), True), (Tab((4,), DRAW, 1), True), (Tab((5,), DRAW), True),
     (Tab((7,), BLOW), True), (Tab((3,), BLOW), False), (Tab((9,), DRAW), False),
     (Tab((6,), BLOW, overbend=True), True), (Tab((1, 2, 3), DRAW), False),
     (Tab((1, 4), DRAW), False)],
    ids=str,
)  # fmt: skip
def test_note_that_bends_down_if_only_by_a_shade(tab: Tab, bends: bool) -> None:
    assert C_HARP.bends(tab) is bends


@given(harps, holes)
def test_one_breath_of_a_hole_bends_at_most(harp: Harp, hole: int) -> None:
    bending = [breath for breath in Breath if harp.bends(Tab((hole,), breath))]
    assert len(bending) == (harp.reed(hole, BLOW) != harp.reed(hole, DRAW))
    assert all(breath in bending for breath in Breath if harp.deepest_bend(hole, breath))


@given(harps, holes, breaths)
def test_overbend_is_a_semitone_outside_the_two_reeds(
    harp: Harp, hole: int, breath: Breath
) -> None:
    two = (harp.reed(hole, BLOW), harp.reed(hole, DRAW))
    over = harp.pitches(Tab((hole,), breath, overbend=True))
    assert not harp.overbends(hole, breath) or over == (max(two) + 1,)


@given(harps, holes)
def test_no_hole_overbends_both_ways(harp: Harp, hole: int) -> None:
    apart = harp.reed(hole, BLOW) != harp.reed(hole, DRAW)
    assert [harp.overbends(hole, breath) for breath in Breath].count(True) == apart


@given(harps, st.booleans())
def test_single_notes_can_all_be_played_at_their_pitch(harp: Harp, overbends: bool) -> None:
    notes = list(harp.single_notes(overbends))
    assert all(harp.can_play(tab) and harp.pitches(tab) == (midi,) for tab, midi in notes)


@given(harps, holes, breaths, st.integers(min_value=0, max_value=6), st.booleans())
def test_single_notes_leave_out_nothing_that_can_be_played(
    harp: Harp, hole: int, breath: Breath, bend: int, overbend: bool
) -> None:
    tab = Tab((hole,), breath, bend, overbend)
    assert (tab in {tab for tab, _ in harp.single_notes(overbends=True)}) == harp.can_play(tab)


def test_single_notes_of_a_hole_go_from_natural_to_deepest() -> None:
    draw_three = [
        tab.bend for tab, _ in C_HARP.single_notes() if tab.holes == (3,) and tab.breath is DRAW
    ]
    assert draw_three == [0, 1, 2, 3]


def test_richter_has_every_note_of_three_octaves_with_overbends() -> None:
    """1 blow to 10 blow without a gap: common practice, no source."""
    notes = {midi for _, midi in C_HARP.single_notes(overbends=True)}
    assert set(range(C_HARP.lowest, C_HARP.lowest + 37)) <= notes


# Second position: common practice, no source.
@pytest.mark.parametrize("key", HARP_KEYS)
@pytest.mark.parametrize(
    ("numeral", "tab"), [("I", Tab((2,), DRAW)), ("IV", Tab((1,), BLOW)), ("V", Tab((1,), DRAW))]
)
def test_roots_of_second_position(key: str, numeral: str, tab: Tab) -> None:
    root = (song_key(key, 2).pitch_class + parse_chord(numeral).root) % 12
    assert Harp(key).pitches(tab)[0] % 12 == root


def blocks_of(numeral: str, key: str) -> set[str]:
    """Blocks on holes 1-3 of a Richter harp that sound only notes of a chord, 2nd position."""
    chord, harp = parse_chord(numeral), Harp(key)
    root = song_key(key, 2).pitch_class + chord.root
    blocks = [Tab(holes, breath) for holes in ((1, 2), (2, 3), (1, 2, 3)) for breath in Breath]
    return {
        str(tab) for tab in blocks if {(n - root) % 12 for n in harp.pitches(tab)} <= chord.tones
    }


@pytest.mark.parametrize("key", HARP_KEYS)
@pytest.mark.parametrize(
    ("numeral", "blocks"),
    [("I", {"12d", "23d", "123d"}), ("IV", {"12b", "23b", "123b"}), ("V", set())],
)
def test_block_chords_of_second_position(key: str, numeral: str, blocks: set[str]) -> None:
    """I and IV have a block chord on holes 1-3, V has none: common practice, no source."""
    assert blocks_of(numeral, key) == blocks


@pytest.mark.parametrize("key", HARP_KEYS)
def test_triad_of_five_on_the_low_holes_needs_bends(key: str) -> None:
    """On holes 1-3 its root is 1d, third 2d', fifth 3d'': common practice, no source."""
    root = song_key(key, 2).pitch_class + 7
    low = [
        (str(tab), (midi - root) % 12)
        for tab, midi in Harp(key).single_notes()
        if tab.holes[0] <= 3
    ]
    assert [tab for tab, tone in low if tone in (0, 4, 7)] == ["1d", "2d'", "3d''"]


@pytest.mark.parametrize("key", HARP_KEYS)
@pytest.mark.parametrize("position", range(1, 13))
def test_tab_sounds_the_same_degree_on_every_harp(key: str, position: int) -> None:
    """The same tab on another harp keeps the position and moves the key: common practice."""
    tonic, on_c = song_key(key, position).pitch_class, song_key("C", position).pitch_class
    here = [(midi - tonic) % 12 for _, midi in Harp(key).single_notes()]
    assert here == [(midi - on_c) % 12 for _, midi in C_HARP.single_notes()]


def test_tuning_note_of_a_harp_is_in_tune() -> None:
    """6 draw of a C harp and 1 blow an octave up of an A harp are concert A: ISO 16."""
    six_draw = C_HARP.pitches(Tab((6,), DRAW))[0]
    assert (pitch.hertz(six_draw), pitch.hertz(Harp("A").reed(4, BLOW))) == (880.0, 440.0)
