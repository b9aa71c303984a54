"""Chords on this harp."""

from __future__ import annotations

import pytest

from formsheet.judge.harmony import ChordOnHarp, chord_on_harp, sounding_name
from formsheet.music.chord import parse_chord
from formsheet.music.harp import HARP_KEYS, Harp
from formsheet.music.key import song_key
from formsheet.music.tab import Breath, Tab


def on_harp(numeral: str, position: int = 2, key: str = "C") -> ChordOnHarp:
    return chord_on_harp(parse_chord(numeral), song_key(key, position), Harp(key))


def tabs(items: tuple[object, ...]) -> list[str]:
    return [str(item) for item in items]


def on_holes_1_to_3(found: ChordOnHarp) -> list[str]:
    return [str(tab) for tab in found.blocks if tab.holes == (1, 2, 3)]


# Common practice, no source: in second position I and IV have a block on holes 1-3, V has none,
# and one doubles its root instead.
@pytest.mark.parametrize("key", HARP_KEYS)
@pytest.mark.parametrize(("numeral", "block"), [("I7", ["123d"]), ("IV7", ["123b"]), ("V7", [])])
def test_blocks_on_holes_1_to_3_in_second_position(
    numeral: str, block: list[str], key: str
) -> None:
    assert on_holes_1_to_3(on_harp(numeral, key=key)) == block


# Common practice, no source.
@pytest.mark.parametrize(
    ("numeral", "root"), [("I7", "2d"), ("I7", "3b"), ("IV7", "1b"), ("V7", "1d"), ("V7", "4d")]
)
def test_roots_in_second_position(numeral: str, root: str) -> None:
    assert root in tabs(on_harp(numeral).roots)


# Common practice, no source: over V in second position the root is doubled as an octave split.
def test_the_doubled_root_over_v() -> None:
    assert "14d" in tabs(on_harp("V7").splits)


# Common practice, no source: the third of V is a half-step bend of 2 draw, its fifth a
# whole-step bend of 3 draw, on the low holes.
def test_what_v_needs_bent_in_second_position() -> None:
    tones = {tone.degree: tabs(tone.tabs) for tone in on_harp("V7").tones}
    assert "2d'" in tones["3"]
    assert "3d''" in tones["5"]


def test_natural_notes_come_before_bends() -> None:
    assert tabs(on_harp("I7").tones[3].tabs) == ["5d", "9d", "2d''"]


@pytest.mark.parametrize("position", [1, 2, 3, 4, 5, 12])
@pytest.mark.parametrize("numeral", ["I7", "IV7", "V7", "i7", "iv7"])
def test_everything_offered_sounds_chord_tones_only(numeral: str, position: int) -> None:
    harp, key, chord = Harp("A"), song_key("A", position), parse_chord(numeral)
    found = chord_on_harp(chord, key, harp)
    for tab in (*found.blocks, *found.splits, *(tab for tone in found.tones for tab in tone.tabs)):
        degrees = {(midi - key.pitch_class - chord.root) % 12 for midi in harp.pitches(tab)}
        assert degrees <= chord.tones


def tab_of(text: str) -> Tab:
    return Tab(tuple(map(int, text[:-1])), Breath(text[-1]))


# Common practice, no source.
@pytest.mark.parametrize("key", HARP_KEYS)
def test_2_draw_and_3_blow_are_one_pitch(key: str) -> None:
    harp = Harp(key)
    assert harp.reed(2, Breath.DRAW) == harp.reed(3, Breath.BLOW)


# Our own choice: wider mouths are rare. In second position 1 to 5 draw sound I7.
@pytest.mark.limit("judge.harmony.LARGEST_BLOCK")
def test_blocks_are_four_holes_wide_at_most() -> None:
    assert {tab.span for tab in on_harp("I7").blocks} == {2, 3, 4}


@pytest.mark.parametrize(
    ("tab", "name"),
    [("123d", "G"), ("1234d", "G"), ("2345d", "G7"), ("14d", "octave D"), ("23d", "third G B"),
     ("24b", "minor sixth E C"), ("456d", "Dm"), ("345d", "Bdim"), ("678d", "A B D")],
)  # fmt: skip
def test_what_a_block_or_split_sounds_as(tab: str, name: str) -> None:
    """On a C harp in 2nd position: draw D G B D F A B D F A, blow C E G over and over."""
    assert sounding_name(tab_of(tab), Harp("C"), song_key("C", 2)) == name
