"""The pack's own MIDI files, read back: the harmonica's part as it is written in the lesson."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from formsheet.music.swing import Feel
from formsheet.notes.melody import Melody
from formsheet.notes.midi import read_midi
from formsheet.notes.quantise import quantised
from formsheet.sound.excerpts import tune_excerpt
from formsheet.sound.midi import midi_bytes
from formsheet.sound.takes import BAND, GUIDE, take
from formsheet.tune.timeline import Tune
from tests.lessons import NAMES, demo


def read_back(tune: Tune, path: Path) -> Melody:
    """The whole tune with its band, as a file and back."""
    facts = tune.lesson.facts
    taken = take(tune_excerpt(tune), facts.meter, voices=(*GUIDE, *BAND), count_in=1)
    path.write_bytes(midi_bytes(taken, tune.lesson, float(facts.tempo), facts.title))
    return quantised(read_midi(path))


def shaken(tune: Tune) -> bool:
    """A shake is many notes in the file."""
    return any(note.mark.technique == "shake" for note in tune.notes)


@pytest.mark.parametrize("name", NAMES)
def test_pitches_and_onsets(name: str, tmp_path: Path) -> None:
    tune = demo(name).tune
    assert tune
    melody = read_back(tune, tmp_path / "tune.mid")
    assert melody.key == tune.lesson.key
    assert melody.tempo == tune.lesson.facts.tempo
    if shaken(tune):
        return
    first = tune.bars[tune.notes[0].bar].start + tune.notes[0].onset
    begin = first - melody.tones[0].start
    found = [(tone.midi, tone.start + begin) for tone in melody.tones]
    assert found == [(n.midi, tune.bars[n.bar].start + n.onset) for n in tune.notes]


@pytest.mark.parametrize(
    ("name", "share"),
    [
        ("back-step-shuffle", Fraction(2, 3)),
        ("gantry-crane", Fraction(2, 3)),
        ("orchard-gate-in-eight", Fraction(3, 5)),
        ("two-lamps-on-mill-lane", Fraction(3, 5)),
        ("last-tram-but-one", Fraction(1, 2)),
        ("waltz-for-a-paper-boat", Fraction(1, 2)),
    ],
)
def test_feel(name: str, share: Fraction, tmp_path: Path) -> None:
    tune = demo(name).tune
    assert tune
    assert read_back(tune, tmp_path / "tune.mid").feel == Feel(share)
