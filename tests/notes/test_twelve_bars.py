"""The key of twelve-bars composed at random, and the harp for them."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest

from formsheet.arrange.melody import melody_line
from formsheet.arrange.rank import harps_for, ranked
from formsheet.arrange.tonality import tonality
from formsheet.music.rhythm import METERS
from formsheet.notes.keyfinding import found_keys
from formsheet.notes.melody import Melody, Tone
from tests.notes.twelve_bars import KINDS, twelve_bar, twelve_bars

#: The seeds are others than those with which the weights were chosen (0 to 449).
FIRST = 1000


def test_the_key_of_a_hundred() -> None:
    """Of 100, 85 are to be right; a third of them in each kind."""
    right: Counter[str] = Counter()
    tunes = list(twelve_bars(100, FIRST))
    for tune in tunes:
        found = found_keys(tune.tones, bar=Fraction(4))
        right[tune.kind] += found.best.pitch_class == tune.tonic
    assert set(right) == set(KINDS)
    assert sum(right.values()) >= 85, right


@pytest.mark.parametrize("seed", range(FIRST, FIRST + 6))
def test_second_position_comes_first(seed: int) -> None:
    """Common practice, no source."""
    tune = twelve_bar(seed)
    melody = Melody(tune.tones, METERS["4/4"])
    found = tonality(melody, None, None)
    if found.key.pitch_class != tune.tonic or not found.blues:
        pytest.skip("its key is not found")
    layouts = ranked([melody_line(melody)], harps_for(found.key.tonic), blues=found.blues)
    second = next(layout for layout in layouts if layout.position == 2)
    if second.arranged.missing <= 0.25 * second.arranged.notes:
        assert layouts[0] == second
    else:  # the notes are not there: 3rd or 1st if one of them has them
        assert layouts[0].arranged.missing <= second.arranged.missing


def test_the_next_best_key_has_another_key_note() -> None:
    for tune in twelve_bars(10, FIRST):
        found = found_keys(tune.tones, bar=Fraction(4))
        assert found.second != found.best


@pytest.mark.parametrize(
    ("bars", "is_blues"), [(11, False), (12, True), (13, False), (36, True), (48, False)]
)
def test_one_to_three_choruses_are_a_blues(bars: int, is_blues: bool) -> None:
    """Our own choice: 48 bars are a dance tune. Arpeggios of the chords, again and again."""
    source = next(each for each in twelve_bars(3, FIRST) if each.kind == "arpeggios")
    tones = [
        Tone(tone.midi, tone.start + 48 * again, tone.end + 48 * again)
        for again in range(4)
        for tone in source.tones
        if tone.end + 48 * again <= 4 * bars
    ]
    last = tones[-1]
    tones[-1] = Tone(last.midi, last.start, Fraction(4 * bars))
    assert found_keys(tones, bar=Fraction(4)).blues is is_blues
